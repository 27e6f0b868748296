#include "plan/instruments.h"

#include <algorithm>

#include "base/text.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

struct Practice {
    Dimension read;
    std::int64_t widest;
    Unit unit;  // in which it is said
};
constexpr Practice practices[] = {{Dimension::temperature, 2'000, Unit::celsius},
                                  {Dimension::ph, 100, Unit::ph},
                                  {Dimension::water_activity, 20'000, Unit::water_activity}};
constexpr std::int64_t times_as_sure = 4;

std::string difference_text(std::int64_t canonical, Dimension read) {
    for (const Practice& practice : practices)
        if (practice.read == read) return to_text(measure_of(canonical, practice.unit));
    return "a quarter of its width";
}

}  // namespace

std::optional<std::int64_t> widest_tolerance(const Point& point, Dimension read) {
    std::optional<std::int64_t> widest;
    for (const Practice& practice : practices)
        if (practice.read == read) widest = practice.widest;
    const auto* range = std::get_if<RangeLimit>(&point.limit);
    if (!range || !range->least || !range->most) return widest;
    const std::int64_t quarter = (range->most->first.value - range->least->first.value) / times_as_sure;
    return widest ? std::min(*widest, quarter) : quarter;
}

std::string unfit_because(const Point& point, const Instrument& instrument) {
    if (!point.instrument_needed || !is_measured(point)) return "";
    if (!point.instruments.empty() && !among(point.instruments, instrument.id)) return "is none of " + joined(point.instruments, ", ");
    if (!instrument.tolerance) return "states no tolerance";
    const Dimension read = instrument.tolerance->dimension();
    if (!is_read_in(point, read)) return "reads a " + std::string(name_of(read));
    if (!instrument.place.empty() && instrument.place != point.place) return "stays at " + instrument.place;
    if (!instrument.calibrate_every) return "has no calibrate_every";
    const auto widest = widest_tolerance(point, read);
    if (!widest || canonical_difference(*instrument.tolerance) <= *widest) return "";
    return "may be off by " + to_text(*instrument.tolerance) + ", more than the " + difference_text(*widest, read) +
           " that the limit leaves";
}

}  // namespace peelbook::plan
