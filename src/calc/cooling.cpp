#include "calc/cooling.h"

#include <algorithm>
#include <limits>
#include <string>

namespace peelbook::calc {
namespace {

// What a reading may truly have been: low <= value <= high.
struct BoundedReading {
    Instant at;
    std::int64_t low = 0, value = 0, high = 0;
};
using Readings = std::vector<BoundedReading>;

// Which of the three tells that a clock has started, and which that a target is reached.
struct TakenFor {
    std::int64_t BoundedReading::*start;
    std::int64_t BoundedReading::*end;
    bool guarded = false;
};
constexpr TakenFor as_read{&BoundedReading::value, &BoundedReading::value, false};
constexpr TakenFor worst_case{&BoundedReading::low, &BoundedReading::high, true};

constexpr std::int64_t hotter_than_any = std::numeric_limits<std::int64_t>::max();

BoundedReading bounded(const CoolingReading& r) {
    const std::int64_t guard = r.guard.value_or(0);
    return {r.at, r.value - guard, r.value, r.value + guard};
}

BoundedReading warmer_of(const BoundedReading& a, const BoundedReading& b) {
    return {a.at, std::max(a.low, b.low), std::max(a.value, b.value), std::max(a.high, b.high)};
}

// Without what was read once it was cold and its step was over: that is of the keeping.
CoolingInput of_the_cooling(const CoolingRule& rule, CoolingInput input) {
    auto& readings = input.readings;
    const auto cold = std::find_if(readings.begin(), readings.end(), [&](const auto& r) { return r.value <= rule.stages.back().to; });
    if (!input.ended || cold == readings.end()) return input;
    const Instant over = std::max(cold->at, *input.ended + input.clocks);
    std::erase_if(readings, [&](const CoolingReading& r) { return r.at > over; });
    return input;
}

// One reading an instant (the warmest), the known hot moment as a reading of its own.
Readings effective_readings(const CoolingRule& rule, const CoolingInput& input, const TakenFor& taken) {
    Readings kept;
    const auto hot = input.started ? input.started : input.known_hot_at;
    const bool reheated = hot && input.heated_again && *input.heated_again < *hot;
    bool hot_pending = hot.has_value();
    const auto keep_hot = [&] {
        kept.push_back({*hot, hotter_than_any, hotter_than_any, hotter_than_any});
        hot_pending = false;
    };
    for (const CoolingReading& given : input.readings) {
        if (input.started && given.at < *input.started) continue;
        if (taken.guarded && !given.guard) continue;
        const BoundedReading r = bounded(given);
        if (hot_pending && r.at >= *hot) keep_hot();
        if (hot_pending && r.*taken.start <= rule.from && !reheated) hot_pending = false;  // contradicts the readings
        const bool same_instant = !kept.empty() && kept.back().at == r.at && kept.back().value != hotter_than_any;
        if (same_instant) {
            kept.back() = warmer_of(kept.back(), r);
        } else {
            kept.push_back(r);
        }
    }
    if (hot_pending) keep_hot();
    return kept;
}

bool rises_over(std::int64_t value, std::int64_t threshold, std::int64_t tolerance) { return value > threshold + tolerance; }

// The last crossing: below once reached, above again only after a rise beyond the tolerance, from `kept_from` on beyond the scatter.
Crossing crossing_of(const Readings& readings, std::int64_t BoundedReading::*side, std::int64_t threshold, const CoolingInput& input,
                     std::optional<Instant> kept_from = {}) {
    const std::int64_t when_kept = std::max(input.tolerance, input.scatter);
    Crossing found;
    for (const BoundedReading& r : readings) {
        const std::int64_t value = r.*side;
        const bool below = found.by.has_value(), kept = kept_from && r.at > *kept_from;
        if (below && rises_over(value, threshold, kept ? when_kept : input.tolerance)) {
            found = {r.at, std::nullopt};
        } else if (!below && value > threshold) {
            found.after = r.at;
        } else if (!below) {
            if (value == threshold) found.after = r.at;
            found.by = r.at;
        }
    }
    return found;
}

bool exact(const Crossing& c) { return c.after && c.by && *c.after == *c.by; }

void judge_reached(StageResult& stage, Duration within) {
    if (stage.end.after && stage.start.by) {
        stage.shortest = std::max(Duration{}, *stage.end.after - *stage.start.by);
    }
    if (stage.start.after) stage.longest = *stage.end.by - *stage.start.after;
    const bool longer_than_shortest = !(exact(stage.start) && exact(stage.end));
    if (stage.longest && *stage.longest <= within) {
        stage.verdict = StageVerdict::within;
    } else if (stage.shortest > within || (stage.shortest == within && longer_than_shortest)) {
        stage.verdict = StageVerdict::deviation;
    } else {
        stage.verdict = StageVerdict::unproven;
    }
}

void judge_unreached(StageResult& stage, Duration within, bool ended) {
    stage.verdict = ended ? StageVerdict::unproven : StageVerdict::open;
    if (!stage.start.by) return;  // the clock has not started for certain
    // The last reading is above the target, so the stage takes longer than up to there.
    const Instant last_above = std::max(stage.end.after.value_or(*stage.start.by), *stage.start.by);
    stage.shortest = last_above - *stage.start.by;
    if (stage.shortest >= within) {
        stage.verdict = StageVerdict::deviation;
    } else if (!stage.start.after || last_above - *stage.start.after >= within) {
        stage.verdict = StageVerdict::unproven;
    }
}

StageResult judge_stage(const Crossing& start, const Crossing& end, Duration within, bool ended) {
    StageResult stage;
    stage.start = start;
    stage.end = end;
    if (start.after && start.by) stage.prove_by = *start.after + within;
    if (end.by && start.by) {
        judge_reached(stage, within);
    } else {
        judge_unreached(stage, within, ended);
    }
    return stage;
}

CoolingResult judge_readings(const CoolingRule& rule, const CoolingInput& input, const Readings& readings, const TakenFor& taken,
                             bool ended) {
    CoolingResult result;
    Crossing start = input.started ? Crossing{input.started, input.started} : crossing_of(readings, taken.start, rule.from, input);
    for (const CoolingStage& stage : rule.stages) {
        std::optional<Instant> kept_from;
        if (&stage == &rule.stages.back() && start.after) kept_from = *start.after + stage.within;
        result.stages.push_back(judge_stage(start, crossing_of(readings, taken.end, stage.to, input, kept_from), stage.within, ended));
        if (rule.each_from_previous) start = crossing_of(readings, taken.start, stage.to, input);
    }
    return result;
}

// A reheating gives a later crossing of `from`; what was broken before it stays broken. Each part from one
// reheating to the next is judged by itself: it begins above every threshold, so nothing before it changes
// its crossings.
void keep_earlier_deviations(CoolingResult& result, const CoolingRule& rule, const CoolingInput& input, const Readings& readings) {
    bool below = false;
    auto begin = readings.begin();
    for (auto r = readings.begin(); r != readings.end(); ++r) {
        if (r->value <= rule.from) below = true;
        if (!below || !rises_over(r->value, rule.from, input.tolerance)) continue;
        const CoolingResult earlier = judge_readings(rule, input, Readings(begin, r), as_read, false);
        for (std::size_t s = 0; s < result.stages.size(); ++s) {
            if (earlier.stages[s].verdict != StageVerdict::deviation) continue;
            if (result.stages[s].verdict == StageVerdict::deviation) continue;
            result.stages[s] = earlier.stages[s];
            result.stages[s].before_reheating = true;
        }
        below = false;
        begin = r;
    }
}

int severity(StageVerdict v) {
    switch (v) {
        case StageVerdict::within:
            return 0;
        case StageVerdict::open:
            return 1;
        case StageVerdict::unproven:
            return 2;
        case StageVerdict::deviation:
            return 3;
    }
    return 3;
}

}  // namespace

StageVerdict CoolingResult::worst() const {
    StageVerdict worst = StageVerdict::within;
    for (const StageResult& s : stages) {
        if (severity(s.verdict) > severity(worst)) worst = s.verdict;
    }
    return worst;
}

Check check(const CoolingRule& rule) {
    if (rule.stages.empty()) {
        return Refusal{"a cooling rule without a stage",
                       "at least one target and its time",
                       "add a stage: the temperature to reach and the time it may take",
                       {}};
    }
    std::int64_t above = rule.from;
    Duration earlier;
    for (std::size_t i = 0; i < rule.stages.size(); ++i) {
        const CoolingStage& stage = rule.stages[i];
        const std::string name = "cooling stage " + std::to_string(i + 1);
        if (stage.to >= above) {
            return Refusal{name + " with a target that is not below the one before",
                           "targets that fall from stage to stage",
                           "order the stages from hot to cold",
                           {}};
        }
        if (stage.within <= Duration{}) {
            return Refusal{name + " with no time", "a time above zero", "say how long the stage may take", {}};
        }
        if (!rule.each_from_previous && stage.within < earlier) {
            return Refusal{name + " with a total time shorter than the stage before",
                           "total times that grow, because this rule counts every stage from the start",
                           "correct the time, or count each stage from the previous one",
                           {}};
        }
        above = stage.to;
        earlier = stage.within;
    }
    return {};
}

CoolingResult judge_cooling(const CoolingRule& rule, const CoolingInput& given) {
    const CoolingInput input = of_the_cooling(rule, given);
    const Readings readings = effective_readings(rule, input, as_read);
    CoolingResult result = judge_readings(rule, input, readings, as_read, input.ended.has_value());
    if (!input.started) keep_earlier_deviations(result, rule, input, readings);
    result.contradiction = contradiction_in(rule, input);
    return result;
}

CoolingResult judge_cooling_guarded(const CoolingRule& rule, const CoolingInput& given) {
    CoolingResult result = judge_cooling(rule, given);
    const CoolingInput input = of_the_cooling(rule, given);
    const Readings readings = effective_readings(rule, input, worst_case);
    const CoolingResult worst = judge_readings(rule, input, readings, worst_case, input.ended.has_value());
    for (std::size_t i = 0; i < result.stages.size(); ++i) {
        StageResult guarded = worst.stages[i];
        guarded.by_guard = true;
        if (guarded.end.by) guarded.shortest = result.stages[i].shortest;
        if (guarded.verdict == StageVerdict::deviation) guarded.verdict = StageVerdict::unproven;
        const int step = severity(guarded.verdict) - severity(result.stages[i].verdict);
        if (step > 0 || (step == 0 && guarded.verdict == StageVerdict::open)) result.stages[i] = guarded;
    }
    return result;
}

}  // namespace peelbook::calc
