#include "base/measure.h"

#include <cassert>
#include <cmath>

#include "base/text.h"
#include "base/units.h"

namespace peelbook {
namespace {

// "8h30min" for 510 min and "2min30s" for 150 s; absent when the plain form ("90kg", "120min") says it as
// well.
std::optional<std::string> compound_text(const Measure& m) {
    constexpr std::int64_t one = 1'000'000;
    const bool in_seconds = m.unit == Unit::second;
    if ((!in_seconds && m.unit != Unit::minute) || m.typed_micro < 60 * one || m.typed_micro % (60 * one) == 0 || m.typed_micro % one != 0)
        return std::nullopt;
    const std::int64_t count = m.typed_micro / one;
    const std::int64_t whole_minutes = in_seconds ? count / 60 : count;
    std::string text;
    if (whole_minutes >= 60) text += std::to_string(whole_minutes / 60) + "h";
    if (whole_minutes % 60 != 0) text += std::to_string(whole_minutes % 60) + "min";
    if (in_seconds) text += std::to_string(count % 60) + "s";
    return text;
}

}  // namespace

Dimension dimension_of(Unit unit) { return row_of(unit).dimension; }

std::string_view symbol(Unit unit) { return row_of(unit).symbol; }

std::string_view name_of(Dimension d) {
    switch (d) {
        case Dimension::temperature:
            return "temperature";
        case Dimension::mass:
            return "mass";
        case Dimension::duration:
            return "duration";
        case Dimension::percent:
            return "percentage";
        case Dimension::ph:
            return "pH";
        case Dimension::water_activity:
            return "water activity";
        case Dimension::length:
            return "length";
        case Dimension::pressure:
            return "pressure";
        case Dimension::pieces:
            return "number of pieces";
        case Dimension::per_million:
            return "content in mg/kg";
        case Dimension::speed:
            return "speed";
    }
    assert(false);
    return "";
}

std::vector<std::string_view> symbols_of(Dimension d) {
    std::vector<std::string_view> symbols;
    for (const UnitRow& row : all_units())
        if (row.dimension == d) symbols.push_back(row.symbol);
    return symbols;
}

std::optional<Unit> unit_from_symbol(std::string_view symbol) {
    const std::string wanted = lowered(symbol);
    if (wanted.empty()) return std::nullopt;
    for (const UnitRow& row : all_units()) {
        if (lowered(row.symbol) == wanted) return row.unit;
        for (const std::string& spelling : split(row.also, ' '))
            if (spelling == wanted) return row.unit;
    }
    return std::nullopt;
}

Measure measure_of(std::int64_t canonical, Unit unit) {
    const Wide micro = scaled_of(canonical, row_of(unit), 6);
    assert(fits_int64(micro));
    return {canonical, static_cast<std::int64_t>(micro), unit};
}

std::string to_text(const Measure& m) {
    if (const auto compound = compound_text(m)) return *compound;
    return decimal_text(m.typed_micro, 6, true) + std::string(symbol(m.unit));
}

std::string to_text(std::int64_t canonical, Unit unit, int decimals) {
    return decimal_text(scaled_of(canonical, row_of(unit), decimals), decimals, false) + std::string(symbol(unit));
}

double in_unit(std::int64_t canonical, Unit unit) {
    const UnitRow& row = row_of(unit);
    const Wide above = Wide{canonical} * row.down - row.offset;
    return static_cast<double>(static_cast<long double>(above) / (1e6L * static_cast<long double>(row.up)));
}

std::int64_t to_canonical(double number, Unit unit) {
    assert(std::isfinite(number) && std::abs(number) < 1e18);
    const long double micro = std::round(static_cast<long double>(number) * 1e6L);
    const bool narrow = micro > -1e18L && micro < 1e18L;  // the way to 128 bits is a long one
    const Wide canonical = canonical_of(narrow ? Wide{static_cast<std::int64_t>(micro)} : static_cast<Wide>(micro), row_of(unit));
    assert(fits_int64(canonical));
    return static_cast<std::int64_t>(canonical);
}

std::int64_t difference_in(const Measure& difference, Unit unit) {
    if (difference.unit == unit) return difference.typed_micro;
    const UnitRow& from = row_of(difference.unit);
    const UnitRow& to = row_of(unit);
    const Wide micro = divided(Wide{difference.typed_micro} * from.up * to.down, Wide{from.down} * to.up);
    assert(fits_int64(micro));
    return static_cast<std::int64_t>(micro);
}

std::int64_t canonical_difference(const Measure& difference) {
    const UnitRow& row = row_of(difference.unit);
    const Wide canonical = divided(Wide{difference.typed_micro} * row.up, row.down);
    assert(fits_int64(canonical));
    return static_cast<std::int64_t>(canonical);
}

std::string mass_text(std::int64_t mg) {
    const Wide size = mg < 0 ? -Wide{mg} : Wide{mg};
    if (size >= 1'000'000 || size == 0) return decimal_text(mg, 6, true) + "kg";
    if (size >= 1'000) return decimal_text(mg, 3, true) + "g";
    return decimal_text(mg, 0, true) + "mg";
}

std::int64_t share_of(std::int64_t total, std::int64_t from, std::int64_t to, std::int64_t pieces) {
    assert(pieces > 0 && 0 <= from && from <= to && to <= pieces);
    return static_cast<std::int64_t>(Wide{total} * to / pieces - Wide{total} * from / pieces);
}

}  // namespace peelbook
