#include "judge/cooling_ahead.h"

#include <algorithm>
#include <cmath>

#include "calc/cooldown.h"
#include "calc/cooling.h"
#include "judge/by_unit.h"
#include "judge/compare.h"
#include "judge/cooling_proof.h"
#include "judge/limits.h"

namespace peelbook::judge {
namespace {

using Readings = std::vector<const ReadingFact*>;

constexpr double too_far_ahead_minutes = 7 * 24 * 60;  // nobody waits a week: the curve is flat there

// The falling limit of a point; a souring is one without a temperature.
std::optional<plan::CoolingLimit> falling(const plan::Point& point) {
    if (const auto* cooling = std::get_if<plan::CoolingLimit>(&point.limit)) return *cooling;
    const auto* souring = std::get_if<plan::SouringLimit>(&point.limit);
    return souring ? std::optional(falling_limit(*souring)) : std::nullopt;
}

// The first stage whose target is not reached and not proven late already, when its clock has started.
std::optional<StageDue> due_of(const plan::Point& point, const plan::CoolingLimit& limit, const Facts& facts, const Readings& readings) {
    if (!limit.starts_at.empty() && !facts.event(limit.starts_at)) return std::nullopt;
    const calc::CoolingResult result = proven(point, limit, facts, readings, point.guarded, std::nullopt);
    for (std::size_t i = 0; i < result.stages.size(); ++i) {
        const calc::StageResult& stage = result.stages[i];
        if (stage.end.by || stage.verdict == calc::StageVerdict::deviation) continue;
        if (!stage.start.after) return std::nullopt;
        return StageDue{*stage.start.after, *stage.start.after + limit.stages[i].within, limit.stages[i].to};
    }
    return std::nullopt;
}

// From the warmest reading on, one a moment; the last of equal ones.
std::vector<calc::CoreReading> falling_part(const Readings& readings) {
    const auto warmest =
        std::max_element(readings.rbegin(), readings.rend(), [](const auto* a, const auto* b) { return a->value.value < b->value.value; })
            .base() -
        1;
    std::vector<calc::CoreReading> out;
    for (auto r = warmest; r != readings.end(); ++r) {
        const calc::CoreReading one{static_cast<double>(((*r)->at - (*warmest)->at).ms) / ms_a_minute,
                                    static_cast<double>((*r)->value.value) * celsius_in_milli};
        if (!out.empty() && one.minute <= out.back().minute)
            out.back() = one;
        else
            out.push_back(one);
    }
    return out;
}

std::optional<CoolingAhead> ahead_of(const Readings& readings, const plan::Bound& target, std::optional<double> room_c) {
    const auto falling = falling_part(readings);
    if (falling.size() < least_readings_to_predict) return std::nullopt;
    const double target_c = static_cast<double>(target.first.value) * celsius_in_milli;
    auto fit = calc::fit_cooldown(falling, room_c);
    if (!fit && room_c) fit = calc::fit_cooldown(falling, std::nullopt);  // it is not that room's curve
    if (!fit) return std::nullopt;
    CoolingAhead out;
    out.target = target;
    out.readings = falling.size();
    out.room_c = fit->room;
    out.room_fitted = fit->room_fitted;
    if (target_c <= fit->room) return out;  // never in this room
    const auto arrival = calc::predict_arrival(*fit, target_c);
    if (!arrival || !(arrival->minute < too_far_ahead_minutes)) return std::nullopt;
    const Instant first = readings.back()->at - Duration{std::llround(falling.back().minute * ms_a_minute)};
    const auto moment = [&](double minute) { return first + Duration{std::llround(minute * ms_a_minute)}; };
    out.at = moment(arrival->minute);
    if (arrival->earliest) out.earliest = moment(*arrival->earliest);
    if (arrival->latest && *arrival->latest < too_far_ahead_minutes) out.latest = moment(*arrival->latest);
    return out;
}

// Where a reading shows the target: with guarded acceptance so far below it as the instruments used may be off.
plan::Bound with_spare(const plan::Point& point, const plan::Bound& target, const Readings& readings) {
    std::int64_t spare = 0;
    for (const ReadingFact* r : readings)
        if (point.guarded && r->guard && r->guard->dimension() == target.first.dimension())
            spare = std::max(spare, canonical_difference(*r->guard));
    if (spare == 0) return target;
    return {measure_of(target.first.value - spare, target.first.unit), std::nullopt};
}

struct Wanted {
    plan::Bound target;
    std::optional<Instant> limit;
};

// What the unit still has to reach; empty when it has, or no clock has started.
std::optional<Wanted> wanted_of(const plan::Point& point, const Facts& facts, const Readings& readings) {
    if (const auto* packing = std::get_if<plan::BeforePackingLimit>(&point.limit)) {
        if (readings.back()->value.value <= packing->most.first.value) return std::nullopt;
        return Wanted{packing->most, std::nullopt};
    }
    const auto* cooling = std::get_if<plan::CoolingLimit>(&point.limit);
    if (!cooling) return std::nullopt;
    const auto due = due_of(point, *cooling, facts, readings);
    if (!due) return std::nullopt;
    return Wanted{with_spare(point, due->to, readings), due->due};
}

}  // namespace

std::optional<StageDue> next_stage(const plan::Point& point, const Facts& facts) {
    const auto limit = falling(point);
    if (!limit) return std::nullopt;
    std::optional<StageDue> first;
    for (const auto& unit : by_unit(point, facts.readings)) {
        const auto due = due_of(point, *limit, facts, unit.effective);
        if (due && (!first || due->due < first->due)) first = due;
    }
    return first;
}

std::vector<CoolingAhead> cooling_ahead(const plan::Point& point, const Facts& facts, const std::optional<Measure>& room) {
    std::vector<CoolingAhead> all;
    const std::optional<double> room_c = room ? std::optional(static_cast<double>(room->value) * celsius_in_milli) : std::nullopt;
    for (const auto& unit : by_unit(point, facts.readings)) {
        if (unit.effective.size() < least_readings_to_predict) continue;
        const auto wanted = wanted_of(point, facts, unit.effective);
        if (!wanted) continue;
        auto ahead = ahead_of(unit.effective, wanted->target, room_c);
        if (!ahead) continue;
        ahead->unit = unit.unit;
        ahead->limit = wanted->limit;
        all.push_back(std::move(*ahead));
    }
    return all;
}

}  // namespace peelbook::judge
