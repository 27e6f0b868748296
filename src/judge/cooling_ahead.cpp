#include "judge/cooling_ahead.h"

#include <algorithm>
#include <cmath>

#include "calc/cooling.h"
#include "calc/forecast.h"
#include "judge/by_unit.h"
#include "judge/compare.h"
#include "judge/cooling_proof.h"
#include "judge/limits.h"

namespace peelbook::judge {
namespace {

using Readings = std::vector<const ReadingFact*>;

// Common practice: where the plan does not say, bread cools in the bakery, and what has to get colder than this in a chiller.
constexpr std::int64_t coldest_in_the_bakery_milli_c = 15'000;
constexpr calc::Rooms bakery{12, 32}, chiller{-20, 8};
constexpr double off_the_stated_room = 3;  // the air round a product

constexpr std::size_t past_the_knee_to_warn = 3;

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
        const calc::CoreReading one{static_cast<double>(((*r)->at - readings.front()->at).ms) / ms_a_minute,
                                    static_cast<double>((*r)->value.value) * celsius_in_milli};
        if (!out.empty() && one.minute <= out.back().minute)
            out.back() = one;
        else
            out.push_back(one);
    }
    return out;
}

// ... and from the knee on: a core lags behind at first, so its curve begins where it falls fastest. A degree and a minute are what a
// reading by hand may be off by.
std::vector<calc::CoreReading> past_the_knee(std::vector<calc::CoreReading> falling) {
    std::size_t knee = 0;
    double fastest = 0;
    for (std::size_t i = 0; i + 1 < falling.size(); ++i) {
        const double pace = (falling[i].temperature - falling[i + 1].temperature - 1) / (falling[i + 1].minute - falling[i].minute + 1);
        if (pace > fastest) fastest = pace, knee = i;
    }
    falling.erase(falling.begin(), falling.begin() + static_cast<std::ptrdiff_t>(knee));
    return falling;
}

// `room_c` is null where no room is stated.
std::optional<CoolingAhead> ahead_of(const Readings& readings, const plan::Bound& target, calc::Rooms unstated, const double* room_c) {
    const auto falling = past_the_knee(falling_part(readings));
    if (falling.size() < least_readings_to_predict) return std::nullopt;
    const double target_c = static_cast<double>(target.first.value) * celsius_in_milli;
    std::optional<calc::Forecast> forecast;
    if (room_c) forecast = calc::forecast_cooling(falling, target_c, {*room_c - off_the_stated_room, *room_c + off_the_stated_room});
    CoolingAhead out;
    out.room_fitted = !forecast;  // none is stated, or it is not that room's curve
    if (!forecast) forecast = calc::forecast_cooling(falling, target_c, unstated);
    out.settled = falling.size() > past_the_knee_to_warn;
    if (!forecast || (!forecast->expected && !out.settled)) return std::nullopt;
    out.target = target;
    out.readings = falling.size();
    out.room_c = out.room_fitted ? forecast->room : *room_c;
    const auto moment = [&](std::optional<double> minute) -> std::optional<Instant> {
        if (!minute) return std::nullopt;
        return readings.front()->at + Duration{std::llround(*minute * ms_a_minute)};
    };
    out.at = moment(forecast->expected);
    out.earliest = moment(forecast->earliest);
    out.latest = moment(forecast->latest);
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
    calc::Rooms rooms = bakery;  // where such a product cools, if the plan does not say
};

// What the unit still has to reach; empty when it has, or no clock has started.
std::optional<Wanted> wanted_of(const plan::Point& point, const Facts& facts, const Readings& readings) {
    if (const auto* packing = std::get_if<plan::BeforePackingLimit>(&point.limit)) {
        if (readings.back()->value.value <= packing->most.first.value) return std::nullopt;
        return Wanted{packing->most, std::nullopt, bakery};
    }
    const auto* cooling = std::get_if<plan::CoolingLimit>(&point.limit);
    if (!cooling) return std::nullopt;
    const auto due = due_of(point, *cooling, facts, readings);
    if (!due) return std::nullopt;
    const bool chilled = cooling->stages.back().to.first.value < coldest_in_the_bakery_milli_c;
    return Wanted{with_spare(point, due->to, readings), due->due, chilled ? chiller : bakery};
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
    const double room_c = room ? static_cast<double>(room->value) * celsius_in_milli : 0;
    for (const auto& unit : by_unit(point, facts.readings)) {
        if (unit.effective.size() < least_readings_to_predict) continue;
        const auto wanted = wanted_of(point, facts, unit.effective);
        if (!wanted) continue;
        auto ahead = ahead_of(unit.effective, wanted->target, wanted->rooms, room ? &room_c : nullptr);
        if (!ahead) continue;
        ahead->unit = unit.unit;
        ahead->limit = wanted->limit;
        all.push_back(std::move(*ahead));
    }
    return all;
}

}  // namespace peelbook::judge
