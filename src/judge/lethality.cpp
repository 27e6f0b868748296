// Accumulated lethality of a batch: calc/lethality.h sums, this says what the point makes of it.
//
// Heat adds up, so a sum that reaches what is wanted is within at once, whatever is read later; one that does
// not is open until the step is over. Then it is a deviation when even the higher end of each interval falls
// short, and unproven when only the lower end does, or when two readings stand further apart than the limit allows, which counts
// nothing: more readings would have shown it. Readings of an
// instrument that is not valid prove nothing, so the valid ones alone must reach what is wanted. With guarded
// acceptance every reading is lowered by the instrument's error first; what falls short as read is never excused
// by it.
#include "calc/lethality.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "base/text.h"
#include "judge/by_unit.h"
#include "judge/compare.h"
#include "judge/limits.h"

namespace peelbook::judge {
namespace {

using Readings = std::vector<const ReadingFact*>;

// Sums of a few powers of ten lose less than this; a treatment of exactly the minutes wanted must not fail by
// it.
constexpr double rounding = 1e-9;

struct Heat {
    const plan::Point& point;
    const plan::LethalityLimit& limit;
    const Facts& facts;
    calc::HeatResistance food;
    double wanted_log = 0;
};

double celsius(const Measure& m) { return static_cast<double>(m.value) * celsius_in_milli; }
double celsius_apart(const Measure& difference) { return static_cast<double>(canonical_difference(difference)) * celsius_in_milli; }

std::string number(double value, int decimals) {
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", decimals, value);
    return text;
}

calc::HeatResistance food_of(const plan::LethalityLimit& limit) {
    calc::HeatResistance food;
    food.t_ref = celsius(limit.t_ref);
    food.z = celsius_apart(limit.z);
    food.d_ref_min = static_cast<double>(limit.d.ms) / ms_a_minute;
    food.studied_from = celsius(limit.studied_from);
    food.studied_to = celsius(limit.studied_to);
    food.cap_log = static_cast<double>(limit.cap_milli_log) / 1e3;
    food.longest_gap_min = static_cast<double>(limit.longest_gap.ms) / ms_a_minute;
    return food;
}

// One reading a moment, the coldest; with `lowered` each by the error of its instrument.
std::vector<calc::CoreReading> series(const Readings& readings, bool lowered) {
    std::vector<calc::CoreReading> out;
    for (const ReadingFact* r : readings) {
        const double guard = lowered && r->guard ? celsius_apart(*r->guard) : 0;
        const calc::CoreReading one{static_cast<double>((r->at - readings.front()->at).ms) / ms_a_minute, celsius(r->value) - guard};
        if (!out.empty() && out.back().minute >= one.minute)
            out.back().temperature = std::min(out.back().temperature, one.temperature);
        else
            out.push_back(one);
    }
    return out;
}

std::optional<calc::Lethality> summed(const Heat& heat, const Readings& readings, bool lowered = false) {
    if (readings.empty()) return std::nullopt;
    const auto sum = calc::lethality(heat.food, series(readings, lowered));
    return sum ? std::optional(*sum) : std::nullopt;
}

bool reaches(const Heat& heat, double log) { return log >= heat.wanted_log * (1 - rounding); }

std::string log_text(const calc::Lethality& sum) { return (sum.capped ? "at least " : "") + number(sum.log_reduction, 2) + " log"; }

bool of_this_food(const Heat& heat) {
    const auto& foods = heat.limit.foods;
    return std::find(foods.begin(), foods.end(), heat.facts.food) != foods.end();
}

std::string span_text(const Heat& heat, const Readings& readings, const calc::Lethality& sum) {
    double coldest = celsius(readings.front()->value), hottest = coldest;
    for (const ReadingFact* r : readings) {
        coldest = std::min(coldest, celsius(r->value));
        hottest = std::max(hottest, celsius(r->value));
    }
    std::string text;
    if (sum.above_studied)
        append_sentence(text, "Up to " + number(hottest, 1) + "C, above the studied " + to_text(heat.limit.studied_to) + ": counted as " +
                                  to_text(heat.limit.studied_to));
    if (sum.below_studied)
        append_sentence(text,
                        "From " + number(coldest, 1) + "C, below the studied " + to_text(heat.limit.studied_from) + ": counted as nothing");
    return text;
}

// What is assumed between two readings, and what is not.
std::string gap_text(const plan::LethalityLimit& limit, const calc::Lethality& sum) {
    if (limit.longest_gap <= Duration{}) return "The plan does not say how far apart two readings may be: none counts";
    std::string text = "Between two readings no more than " + to_text(limit.longest_gap) +
                       " apart the core is taken to stay no colder than the colder of them";
    if (sum.gaps > 0)
        text += "; " + counted(sum.gaps, "longer gap counts", "longer gaps count") + " nothing, " + number(sum.gaps_min, 1) + " min";
    return text;
}

std::string detail(const Heat& heat, const Readings& readings, const calc::Lethality& sum) {
    const plan::LethalityLimit& limit = heat.limit;
    std::string text;
    append_sentence(text, "F " + number(sum.f_lower_min, 2) + " min at " + to_text(limit.t_ref) +
                              " by the lower end of each interval (trapezoid " + number(sum.f_trapezoid_min, 2) + " min), " +
                              std::to_string(readings.size()) + " readings in " + to_text(readings.back()->at - readings.front()->at));
    append_sentence(
        text, "F / D " + number(heat.food.d_ref_min, 2) + " min = " + log_text(sum) + "; wanted " + number(heat.wanted_log, 2) + " log");
    append_sentence(text, span_text(heat, readings, sum));
    append_sentence(text, gap_text(limit, sum));
    append_sentence(text, "D and z: " + limit.source);
    return text;
}

// Why a sum that all readings bring over what is wanted is not believed. Empty: it is.
std::string doubt_of(const Heat& heat, const Readings& readings) {
    Readings believed;
    const ReadingFact* doubtful = nullptr;
    const ReadingFact* unguarded = nullptr;
    for (const ReadingFact* r : readings) {
        if (lacks_instrument(heat.point, r->instrument)) {
            if (!doubtful) doubtful = r;
            continue;
        }
        believed.push_back(r);
        if (!r->guard && !unguarded) unguarded = r;
    }
    if (doubtful) {
        const auto sum = summed(heat, believed);
        if (!sum || !reaches(heat, sum->log_lower))
            return "Enough by its readings, " + instrument_fault(doubtful->instrument) + " for " + to_text(doubtful->value);
    }
    if (!heat.point.guarded) return "";
    if (unguarded) return "Enough by its readings, " + guard_fault(*unguarded) + " for " + to_text(unguarded->value);
    const auto lowered = summed(heat, believed, true);
    if (lowered && reaches(heat, lowered->log_lower)) return "";
    return "Enough as read, but with each reading lowered by the error of its instrument it is " +
           (lowered ? number(lowered->log_lower, 2) : std::string("0")) + " log";
}

Outcome too_few(const Heat& heat, const Readings& readings) {
    Outcome outcome;
    outcome.next = "a second reading: lethality needs a time";
    const auto passed = heat.facts.passed_at(heat.point.step);
    if (!passed) return outcome;
    Finding finding;
    finding.verdict = Verdict::unproven;
    finding.happened = readings.back()->at;
    finding.measured = "one reading";
    append_sentence(finding.detail, "One reading, " + to_text(readings.back()->value) + ", has no time to count");
    outcome = {};
    outcome.finding = std::move(finding);
    return outcome;
}

Outcome judge_readings(const Heat& heat, const Readings& readings) {
    if (readings.empty()) return missing_or_open(heat.point, heat.facts, "reading");
    const auto sum = summed(heat, readings);
    if (!sum) return too_few(heat, readings);
    const bool over = heat.facts.passed(heat.point.step);
    Outcome outcome;
    const bool enough = reaches(heat, sum->log_lower);
    if (!enough && !over) {
        outcome.next = log_text(*sum) + " so far of " + number(heat.wanted_log, 2) + " log: go on heating, and read again";
        return outcome;
    }
    Finding finding;
    finding.happened = readings.back()->at;
    finding.measured = log_text(*sum);
    finding.detail = detail(heat, readings, *sum);
    std::string doubt = enough ? doubt_of(heat, readings) : "";
    if (!enough) {
        finding.verdict = reaches(heat, sum->log_upper) ? Verdict::unproven : Verdict::deviation;
        append_sentence(doubt, finding.verdict == Verdict::deviation
                                   ? "Not enough even by the higher end of each interval, " + number(sum->log_upper, 2) + " log"
                               : sum->gaps > 0 ? "Nobody saw what the heat was in the longer gaps: read more often"
                                               : "The higher end of each interval would reach it: read more often");
    } else if (!doubt.empty()) {
        finding.verdict = Verdict::unproven;
    }
    if (!of_this_food(heat)) {
        finding.verdict = Verdict::unproven;
        doubt = "D and z are of another kind of food than " + (heat.facts.food.empty() ? std::string("this") : heat.facts.food) +
                ": they prove nothing here";
    }
    append_sentence(finding.detail, doubt);
    outcome.finding = std::move(finding);
    return outcome;
}

}  // namespace

Judged judge_lethality(const plan::Point& point, const plan::LethalityLimit& limit, const Facts& facts) {
    const Heat heat{point, limit, facts, food_of(limit), static_cast<double>(limit.wanted_milli_log) / 1e3};
    return judge_units(point, facts, facts.readings, [&](const Readings& readings) { return judge_readings(heat, readings); });
}

}  // namespace peelbook::judge
