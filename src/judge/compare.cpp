#include "judge/compare.h"

#include <algorithm>
#include <cassert>
#include <limits>

#include "base/units.h"
#include "calc/acceptance.h"

namespace peelbook::judge {
namespace {

int sign(std::int64_t a, std::int64_t b) { return a < b ? -1 : (a > b ? 1 : 0); }

}  // namespace

const Measure* stated_in(const plan::Bound& bound, Unit unit) {
    if (bound.first.unit == unit) return &bound.first;
    if (bound.second && bound.second->unit == unit) return &*bound.second;
    return nullptr;
}

const Measure& shown_in(const plan::Bound& bound, Unit unit) {
    const Measure* stated = stated_in(bound, unit);
    return stated ? *stated : bound.first;
}

int compare(const Measure& value, const plan::Bound& bound) {
    if (const Measure* stated = stated_in(bound, value.unit)) return sign(value.typed_micro, stated->typed_micro);
    return sign(value.value, bound.first.value);
}

std::string apart_text(const Measure& value, const plan::Bound& bound) {
    const Measure& shown = shown_in(bound, value.unit);
    const bool stated = shown.unit == value.unit;
    const Wide micro = stated ? value.typed_micro : measure_of(value.value, shown.unit).typed_micro;
    const Wide apart = micro - shown.typed_micro;
    return decimal_text(apart < 0 ? -apart : apart, 6, true) + std::string(symbol(shown.unit));
}

std::string value_text(const Measure& value, const plan::Bound& bound) {
    if (stated_in(bound, value.unit)) return to_text(value);
    return to_text(value) + " (" + to_text(measure_of(value.value, bound.first.unit)) + ")";
}

Sides sides_of(const std::optional<plan::Bound>& least, const std::optional<plan::Bound>& most) {
    return {least ? &*least : nullptr, most ? &*most : nullptr};
}

bool meets(const Measure& value, const Sides& sides) {
    return (!sides.least || compare(value, *sides.least) >= 0) && (!sides.most || compare(value, *sides.most) <= 0);
}

bool meets_guarded(const Measure& value, const Sides& sides, const std::optional<Measure>& guard) {
    if (!guard || guard->dimension() != value.dimension()) return false;
    const auto clear_of = [&](const plan::Bound* bound, bool least) {
        if (!bound) return true;
        const Measure* stated = stated_in(*bound, value.unit);
        const std::int64_t limit = stated ? stated->typed_micro : bound->first.value;
        const std::int64_t read = stated ? value.typed_micro : value.value;
        const std::int64_t band = stated ? difference_in(*guard, value.unit) : canonical_difference(*guard);
        const auto least_side = least ? std::optional<std::int64_t>(limit) : std::nullopt;
        const auto most_side = least ? std::nullopt : std::optional<std::int64_t>(limit);
        return calc::conformity(read, least_side, most_side, band) == calc::Conformity::meets;
    };
    return clear_of(sides.least, true) && clear_of(sides.most, false);
}

std::int64_t margin(const Measure& value, const Sides& sides) {
    std::int64_t smallest = std::numeric_limits<std::int64_t>::max();
    if (sides.least) smallest = std::min(smallest, value.value - shown_in(*sides.least, value.unit).value);
    if (sides.most) smallest = std::min(smallest, shown_in(*sides.most, value.unit).value - value.value);
    return smallest;
}

std::string sides_text(const Sides& sides, Unit typed) {
    const auto text = [&](const plan::Bound& bound) { return to_text(shown_in(bound, typed)); };
    if (sides.least && sides.most) return "from " + text(*sides.least) + " to " + text(*sides.most);
    if (sides.least) return "at least " + text(*sides.least);
    if (sides.most) return "at most " + text(*sides.most);
    return "";
}

std::string breach_text(const Measure& value, const Sides& sides, std::string_view limit) {
    const bool below = sides.least && compare(value, *sides.least) < 0;
    assert(below || (sides.most && compare(value, *sides.most) > 0));
    const plan::Bound& bound = below ? *sides.least : *sides.most;
    return value_text(value, bound) + " is " + apart_text(value, bound) + (below ? " below" : " above") + " the " + std::string(limit) +
           " of " + (below ? "at least " : "at most ") + to_text(shown_in(bound, value.unit));
}

}  // namespace peelbook::judge
