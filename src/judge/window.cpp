#include "judge/window.h"

#include <algorithm>

#include "base/text.h"
#include "judge/by_unit.h"
#include "judge/compare.h"
#include "plan/words.h"

namespace peelbook::judge {
namespace {

const plan::RangeLimit* range_of_point(const plan::Point& point) { return std::get_if<plan::RangeLimit>(&point.limit); }
bool is_before_packing(const plan::Point& point) { return std::holds_alternative<plan::BeforePackingLimit>(point.limit); }

// Sought in the food as sold, in a laboratory and whenever.
bool is_of_food_as_sold(const plan::Point& point) {
    return std::holds_alternative<plan::ClassLimit>(point.limit) || std::holds_alternative<plan::MarketLimit>(point.limit);
}

Duration stated_margin(const plan::Point& point) {
    return std::max(point.read_on, point.window ? point.window->after.value_or(Duration{}) : Duration{});
}

// The steps of the product before the point's own, in order.
std::vector<std::string> earlier_steps(const plan::Point& point, const Facts& facts) {
    const auto own = std::find(facts.steps.begin(), facts.steps.end(), point.step);
    if (own == facts.steps.end()) return {};
    return {facts.steps.begin(), own};
}

// With what must be recorded for anything to be proven.
void open_with(Window& window, const Facts& facts, const std::string& event) {
    window.opened_by = plan::event_words(event);
    window.from = facts.event(event);
    if (!window.from) window.unrecorded = window.opened_by;
}

// With the last end of an earlier step; `late_after` before it was said, since it is often said late.
void open_after(Window& window, const Facts& facts, const std::vector<std::string>& steps) {
    for (const StepFact& done : facts.steps_done) {
        const bool earlier = std::find(steps.begin(), steps.end(), done.step) != steps.end();
        if (!earlier || done.again || done.at - facts.late_after <= *window.from) continue;
        window.from = done.at - facts.late_after;
        window.opened_by = plan::event_words(done.step);
    }
}

std::optional<Instant> own_end(const plan::Point& point, const Facts& facts) {
    const auto end = facts.works(point.step, point.read_on).back().until, passed = facts.passed_at(point.step);
    return end && passed ? std::min(*end, *passed) : end ? end : passed;
}

std::optional<Instant> close_of(const plan::Point& point, const Facts& facts) {
    const bool stated = point.window && (!point.window->until.empty() || point.window->after);
    if (is_before_packing(point) || (is_of_food_as_sold(point) && !stated)) return std::nullopt;
    const bool named = point.window && !point.window->until.empty();
    const auto end = named ? facts.event_over(point.window->until) : own_end(point, facts);
    if (!end) return std::nullopt;
    const bool says_how_long = point.read_on > Duration{} || (point.window && point.window->after);
    return *end + (says_how_long ? stated_margin(point) : facts.late_after);
}

// --- what lies outside

bool is_early(const Window& window, Instant at) { return window.from && at < *window.from; }
bool is_outside(const Window& window, Instant at) { return is_early(window, at) || (window.until && at > *window.until); }

bool counts_against(const plan::Point& point, const Window& window, const ReadingFact& reading) {
    const auto* range = range_of_point(point);
    const bool early = is_early(window, reading.at);
    if (!range || (early && window.stated)) return false;
    if (range->most && compare(reading.value, *range->most) > 0) return true;
    return early && range->least && compare(reading.value, *range->least) < 0;
}

bool counts_against(const plan::Point&, const Window&, const InspectionFact& inspection) { return !inspection.passed; }

std::string value_of(const ReadingFact& reading) { return to_text(reading.value); }
std::string value_of(const InspectionFact& inspection) { return inspection.passed ? "yes" : "no"; }

// What proves nothing: of which unit, and in words; a voided one is not told.
struct Outside {
    std::string unit, value;
    Instant at;
};

// "28C, 29C and 3 more, from before the end of bake, prove nothing"
std::string told(const std::vector<const Outside*>& outside, const std::string& when) {
    constexpr std::size_t most_told = 3;
    std::vector<std::string> values;
    for (std::size_t i = 0; i < std::min(outside.size(), most_told); ++i) values.push_back(outside[i]->value);
    std::string text = joined(values, ", ");
    if (outside.size() > most_told) text += " and " + std::to_string(outside.size() - most_told) + " more";
    return text + ", from " + when + (outside.size() == 1 ? ", proves nothing" : ", prove nothing");
}

std::vector<std::string> told_of_unit(const plan::Point& point, const Window& window, const std::vector<Outside>& outside,
                                      const std::string& unit) {
    std::vector<const Outside*> before, after;
    for (const Outside& one : outside) {
        const bool of_unit = point.units.empty() || one.unit == unit || unit.empty();
        if (of_unit && !one.value.empty()) (is_early(window, one.at) ? before : after).push_back(&one);
    }
    std::vector<std::string> sentences;
    if (!before.empty()) sentences.push_back(told(before, "before " + window.opened_by));
    if (!after.empty()) sentences.push_back(told(after, to_text(after.front()->at - *window.until) + " after its time"));
    return sentences;
}

bool is_read(const plan::Point& point, const Facts& facts) {
    return std::any_of(facts.readings.begin(), facts.readings.end(), [&](const auto& r) { return r.point == point.id && !r.voided; });
}

}  // namespace

bool opens_after_earlier_step(const plan::Point& point) {
    if (point.window && !point.window->from.empty()) return false;
    if (is_before_packing(point)) return true;
    const auto* range = range_of_point(point);
    return range && (range->most || plan::dimension_of(point.limit) != Dimension::temperature);
}

Window window_of(const plan::Point& point, const Facts& facts) {
    Window window;
    if (!plan::takes_window(point.limit)) return window;
    window.until = close_of(point, facts);
    window.stated = point.window && !point.window->from.empty();
    const auto earlier = earlier_steps(point, facts);
    if (window.stated) {
        open_with(window, facts, point.window->from);
    } else if (is_before_packing(point) && !earlier.empty()) {
        open_with(window, facts, earlier.back());
    } else {
        window.from = facts.started;
        window.opened_by = plan::event_words("start");
        if (opens_after_earlier_step(point)) open_after(window, facts, earlier);
    }
    return window;
}

std::optional<Instant> closed_at(const plan::Point& point, const Facts& facts) {
    const Duration margin = stated_margin(point);
    if (!point.window || point.window->until.empty()) return facts.over_at(point.step, margin);
    const auto over = facts.event_over(point.window->until);
    const bool goes_on = over && facts.packed.empty() && facts.shipped.empty() && facts.as_of < *over + margin;
    return goes_on ? std::nullopt : over;
}

Judged judge_in_window(const plan::Point& point, const Facts& facts, Judged (*judge)(const plan::Point&, const Facts&)) {
    const Window window = window_of(point, facts);
    const auto proves_nothing = [&](const auto& fact) {
        return fact.point == point.id && is_outside(window, fact.at) && !counts_against(point, window, fact);
    };
    std::vector<Outside> outside;
    const auto note = [&](const auto& all) {
        for (const auto& fact : all)
            if (proves_nothing(fact)) outside.push_back({fact.unit, fact.voided ? "" : value_of(fact), fact.at});
    };
    note(facts.readings);
    note(facts.inspections);
    Judged judged;
    if (outside.empty()) {
        judged = judge(point, facts);
    } else {
        Facts inside = facts;
        std::erase_if(inside.readings, proves_nothing);
        std::erase_if(inside.inspections, proves_nothing);
        judged = judge(point, inside);
    }
    for (Finding& finding : judged.findings) {
        for (const auto& sentence : told_of_unit(point, window, outside, finding.unit)) append_sentence(finding.detail, sentence);
        if (finding.verdict > Verdict::within || window.unrecorded.empty()) continue;
        finding.verdict = Verdict::unproven;
        append_sentence(finding.detail, "Nobody recorded " + window.unrecorded + ", from which on it counts");
    }
    if (!judged.findings.empty()) return judged;
    auto wanted = told_of_unit(point, window, outside, "");
    if (!window.unrecorded.empty() && is_read(point, facts)) wanted.push_back("record " + window.unrecorded + ", from which on it counts");
    if (!judged.next.empty()) wanted.insert(wanted.begin(), judged.next);
    judged.next = joined(wanted, "; ");
    return judged;
}

}  // namespace peelbook::judge
