// Before each packing the last reading must be at most the limit. How old that reading is does not matter:
// product that cools in a room only gets colder. No reading before a packing is missing; what was read after
// it cannot repair that.
#include "judge/by_unit.h"
#include "judge/compare.h"
#include "judge/limits.h"

namespace peelbook::judge {
namespace {

using Readings = std::vector<const ReadingFact*>;

struct BeforePacking {
    const plan::Point& point;
    Sides sides;
    std::vector<Instant> packings;
};

// Without a record of packing, what shows that it must have been packed: a later step, or leaving.
std::vector<Instant> packings_of(const Facts& facts) {
    std::vector<Instant> packings = facts.packed;
    std::sort(packings.begin(), packings.end());
    if (packings.empty())
        if (const auto passed = facts.passed_at("pack")) packings.push_back(*passed);
    return packings;
}

// The last reading not after `moment`; of several at one instant the warmest.
const ReadingFact* last_before(const Readings& readings, Instant moment) {
    const ReadingFact* last = nullptr;
    for (const ReadingFact* r : readings) {
        if (r->at > moment) continue;
        if (!last || r->at > last->at || (r->at == last->at && r->value.value > last->value.value)) last = r;
    }
    return last;
}

std::string packing_text(const BeforePacking& rule, std::size_t i) {
    if (rule.packings.size() == 1) return "packing";
    return "packing " + std::to_string(i + 1) + " of " + std::to_string(rule.packings.size());
}

Finding no_reading(const BeforePacking& rule, std::size_t i) {
    Finding finding;
    finding.verdict = Verdict::missing;
    finding.happened = rule.packings[i];
    finding.measured = "no reading";
    append_sentence(finding.detail, "No reading of " + name_of(rule.point) + " before " + packing_text(rule, i));
    return finding;
}

Finding judge_packing(const BeforePacking& rule, std::size_t i, const ReadingFact& last) {
    Finding finding;
    finding.happened = last.at;
    finding.measured = to_text(last.value);
    std::string text;
    if (!meets(last.value, rule.sides)) {
        finding.verdict = Verdict::deviation;
        text = breach_text(last.value, rule.sides, "limit");
    } else {
        text = value_text(last.value, *rule.sides.most) + ", limit " + sides_text(rule.sides, last.value.unit);
    }
    text += ", read " + to_text(rule.packings[i] - last.at) + " before " + packing_text(rule, i);
    if (finding.verdict == Verdict::within && lacks_instrument(rule.point, last.instrument)) {
        finding.verdict = Verdict::unproven;
        text += ", " + instrument_fault(last.instrument);
    } else if (finding.verdict == Verdict::within && rule.point.guarded && !meets_guarded(last.value, rule.sides, last.guard)) {
        finding.verdict = Verdict::unproven;
        text += ", " + guard_fault(last);
    }
    append_sentence(finding.detail, text);
    return finding;
}

Outcome judge_readings(const BeforePacking& rule, const Readings& readings) {
    Outcome outcome;
    if (rule.packings.empty()) {
        const Unit typed = readings.empty() ? rule.sides.most->first.unit : readings.back()->value.unit;
        outcome.next = name_of(rule.point) + " " + sides_text(rule.sides, typed) + " before packing";
        if (!readings.empty()) outcome.next += ", last read " + to_text(readings.back()->value);
        return outcome;
    }
    std::int64_t smallest = 0;
    for (std::size_t i = 0; i < rule.packings.size(); ++i) {
        const ReadingFact* last = last_before(readings, rule.packings[i]);
        Finding finding = last ? judge_packing(rule, i, *last) : no_reading(rule, i);
        const std::int64_t inside = last ? margin(last->value, rule.sides) : 0;
        if (!outcome.finding || finding.verdict > outcome.finding->verdict ||
            (finding.verdict == outcome.finding->verdict && inside < smallest)) {
            outcome.finding = std::move(finding);
            smallest = inside;
        }
    }
    return outcome;
}

}  // namespace

Judged judge_before_packing(const plan::Point& point, const plan::BeforePackingLimit& limit, const Facts& facts) {
    const BeforePacking rule{point, {nullptr, &limit.most}, packings_of(facts)};
    return judge_units(point, facts, facts.readings, [&](const Readings& readings) { return judge_readings(rule, readings); });
}

}  // namespace peelbook::judge
