// The state of an instrument over time, from its calibrations and its service entries.
//
// A reading is trusted only between two good calibrations: when the one before it or the one after it failed, it
// is not. A calibration that is still to come counts as good until it is made.
#include <algorithm>
#include <cstdlib>

#include "judge/judge.h"

namespace peelbook::judge {
namespace {

struct History {
    std::optional<Duration> every;
    std::vector<ServiceFact> service;
    std::vector<CalibrationFact> calibrations;
};

template <class Fact> std::vector<Fact> in_time_order(std::vector<Fact> facts) {
    std::stable_sort(facts.begin(), facts.end(), [](const Fact& a, const Fact& b) { return a.at < b.at; });
    return facts;
}

// The first fact after `at`.
template <class Fact> auto first_after(const std::vector<Fact>& facts, Instant at) {
    return std::upper_bound(facts.begin(), facts.end(), at, [](Instant t, const Fact& fact) { return t < fact.at; });
}

// A spare lies in its drawer until somebody checks it: at four in the morning nobody is there to put it in service.
bool in_service(const History& history, Instant at) {
    const auto next = first_after(history.service, at);
    const ServiceFact* said = next == history.service.begin() ? nullptr : &*(next - 1);
    const bool checked_since = std::any_of(history.calibrations.begin(), history.calibrations.end(), [&](const CalibrationFact& check) {
        return check.passed && check.at <= at && (!said || said->at < check.at);
    });
    if (checked_since) return true;
    if (said) return said->in_service;
    return next == history.service.end() || !next->in_service;
}

InstrumentState state_at(const History& history, Instant at) {
    const auto& all = history.calibrations;
    const auto next = first_after(all, at);
    const CalibrationFact* last = next == all.begin() ? nullptr : &*(next - 1);
    if ((last && !last->passed) || (next != all.end() && !next->passed)) return InstrumentState::failed;
    if (!in_service(history, at)) return InstrumentState::out_of_service;
    if (!history.every) return InstrumentState::valid;
    if (!last) return InstrumentState::uncalibrated;
    return at - last->at > *history.every ? InstrumentState::lapsed : InstrumentState::valid;
}

// Every moment at which the state can change. A calibration is in date up to and including `every` after it.
std::vector<Instant> turning_points(const History& history) {
    std::vector<Instant> moments;
    for (const ServiceFact& fact : history.service) moments.push_back(fact.at);
    for (const CalibrationFact& fact : history.calibrations) {
        moments.push_back(fact.at);
        if (history.every) moments.push_back(fact.at + *history.every + Duration{1});
    }
    std::sort(moments.begin(), moments.end());
    return moments;
}

History history_of(std::optional<Duration> calibrate_every, const std::vector<ServiceFact>& service,
                   const std::vector<CalibrationFact>& calibrations) {
    return {calibrate_every, in_time_order(service), in_time_order(calibrations)};
}

}  // namespace

std::optional<bool> calibration_shows(bool said_passed, const std::optional<Measure>& read, const std::optional<Measure>& reference,
                                      const std::optional<Measure>& tolerance) {
    if (!said_passed) return false;
    if (!read || !reference || !tolerance) return std::nullopt;
    if (read->dimension() != reference->dimension() || read->dimension() != tolerance->dimension()) return std::nullopt;
    if (read->unit == reference->unit)
        return std::llabs(read->typed_micro - reference->typed_micro) <= difference_in(*tolerance, read->unit);
    return std::llabs(read->value - reference->value) <= canonical_difference(*tolerance);
}

std::vector<StateSpan> instrument_spans(std::optional<Duration> calibrate_every, const std::vector<ServiceFact>& service,
                                        const std::vector<CalibrationFact>& calibrations) {
    const History history = history_of(calibrate_every, service, calibrations);
    std::vector<StateSpan> spans;
    for (const Instant at : turning_points(history)) {
        const InstrumentState state = state_at(history, at);
        if (!spans.empty() && spans.back().state == state) continue;
        if (!spans.empty()) spans.back().until = at;
        spans.push_back({at, std::nullopt, state});
    }
    return spans;
}

InstrumentState instrument_state(std::optional<Duration> calibrate_every, const std::vector<ServiceFact>& service,
                                 const std::vector<CalibrationFact>& calibrations, Instant at) {
    return state_at(history_of(calibrate_every, service, calibrations), at);
}

}  // namespace peelbook::judge
