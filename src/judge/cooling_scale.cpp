#include "judge/cooling_scale.h"

#include <algorithm>

#include "judge/compare.h"

namespace peelbook::judge {
namespace {

using Readings = std::vector<const ReadingFact*>;

std::vector<const plan::Bound*> thresholds_of(const plan::CoolingLimit& limit) {
    std::vector<const plan::Bound*> thresholds{&limit.from};
    for (const auto& stage : limit.stages) thresholds.push_back(&stage.to);
    return thresholds;
}

// The unit that all readings were typed in and all thresholds state.
std::optional<Unit> common_unit(const std::vector<const plan::Bound*>& thresholds, const Readings& readings) {
    if (readings.empty()) return std::nullopt;
    const Unit unit = readings.front()->value.unit;
    const bool typed = std::all_of(readings.begin(), readings.end(), [&](const auto* r) { return r->value.unit == unit; });
    const bool stated = std::all_of(thresholds.begin(), thresholds.end(), [&](const auto* b) { return stated_in(*b, unit); });
    if (!typed || !stated) return std::nullopt;
    return unit;
}

// The canonical value, kept on the side of every threshold on which it is in the unit that was typed.
std::int64_t sided(const Measure& value, const std::vector<const plan::Bound*>& thresholds) {
    std::int64_t placed = value.value;
    for (const plan::Bound* threshold : thresholds) {
        const std::int64_t at = threshold->first.value;
        const int side = compare(value, *threshold);
        if (side == 0) return at;
        placed = side < 0 ? std::min(placed, at - 1) : std::max(placed, at + 1);
    }
    return placed;
}

std::int64_t smallest_tolerance(const Readings& readings, std::optional<Unit> unit) {
    std::optional<std::int64_t> smallest;
    for (const ReadingFact* r : readings) {
        std::int64_t of_reading = 0;
        if (r->tolerance) of_reading = unit ? difference_in(*r->tolerance, *unit) : canonical_difference(*r->tolerance);
        if (!smallest || of_reading < *smallest) smallest = of_reading;
    }
    return smallest.value_or(0);
}

// Two readings of one tray by hand, two spots of one leaven: common practice.
Measure scatter_of(Dimension dimension) {
    constexpr std::int64_t milli_c = 3'000, milli_ph = 200;
    return dimension == Dimension::ph ? measure_of(milli_ph, Unit::ph) : measure_of(milli_c, Unit::celsius);
}

std::optional<std::int64_t> guard_of(const ReadingFact& reading, std::optional<Unit> unit) {
    if (!reading.guard || reading.guard->dimension() != reading.value.dimension()) return std::nullopt;
    return unit ? difference_in(*reading.guard, *unit) : canonical_difference(*reading.guard);
}

}  // namespace

ScaledCooling scaled(const plan::CoolingLimit& limit, const Readings& readings) {
    const auto thresholds = thresholds_of(limit);
    const auto unit = common_unit(thresholds, readings);
    const auto place = [&](const plan::Bound& bound) { return unit ? stated_in(bound, *unit)->typed_micro : bound.first.value; };
    ScaledCooling scaled;
    scaled.rule.from = place(limit.from);
    scaled.rule.each_from_previous = limit.each_from_previous;
    for (const auto& stage : limit.stages) scaled.rule.stages.push_back({place(stage.to), stage.within, stage.fastest});
    for (const ReadingFact* r : readings)
        scaled.readings.push_back({r->at, unit ? r->value.typed_micro : sided(r->value, thresholds), guard_of(*r, unit)});
    scaled.tolerance = smallest_tolerance(readings, unit);
    const Measure scatter = scatter_of(limit.from.first.dimension());
    scaled.scatter = unit ? difference_in(scatter, *unit) : canonical_difference(scatter);
    return scaled;
}

}  // namespace peelbook::judge
