#pragma once
// Measured values with the unit a person typed. What must add up is an integer:
//   temperature  thousandths of a degree Celsius      mass      milligrams        duration  milliseconds
//   percent      thousandths of a percent             ph        thousandths       water_activity  millionths
//   length       micrometres                          pressure  pascals           pieces    pieces
//   per_million  thousandths of a mg/kg (1 ppm)        speed     thousandths of a turn a minute
// The typed number is kept exactly (millionths of the typed unit), so that 70 F meets a limit of 70 F although it is
// 21.111 C. Exact factors: 1 lb = 453,592.37 mg x 1000, 1 oz = lb/16, 1 in = 25,400 um; C = (F - 32) x 5/9.
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/instant.h"
#include "base/result.h"

namespace peelbook {

enum class Dimension { temperature, mass, duration, percent, ph, water_activity, length, pressure, pieces, per_million, speed };

// clang-format off
enum class Unit { celsius, fahrenheit, mg, g, kg, tonne, lb, oz, ms, second, minute, hour, day, percent, ph,
                  water_activity, um, mm, cm, metre, inch, pascal, hpa, kpa, pieces, per_million, rpm, mg_per_kg };
// clang-format on

Dimension dimension_of(Unit unit);
std::string_view symbol(Unit unit);     // as typed: "C", "kg", "min", "%", "pcs", "ppm", "mg/kg"
std::string_view name_of(Dimension d);  // "temperature"
std::vector<std::string_view> symbols_of(Dimension d);
std::optional<Unit> unit_from_symbol(std::string_view symbol);  // case counts only where it must: "kg", "KG", "c", "C" all work

struct Measure {
    std::int64_t value = 0;        // canonical integer of the dimension, rounded half away from zero
    std::int64_t typed_micro = 0;  // the number as typed, in millionths of `unit`
    Unit unit = Unit::celsius;

    Dimension dimension() const { return dimension_of(unit); }
    bool operator==(const Measure&) const = default;
};

// "93.4C" "200F" "-18 C" "90kg" "1,5kg" is refused (decimal point only) "10min" "8h30min" "2h" "2.5%" "5.6pH" "0.93aw"
// "240pcs". Spaces between number and unit are allowed. Absolute zero is the lowest temperature; other negative values
// parse for temperature only. Refused: no unit (the units that fit are listed), an unknown unit (nearest offered), more
// than 6 decimals, a size beyond 10^12 of the unit.
Result<Measure> parse_measure(std::string_view text);
// As above, and of this dimension. A bare number is taken as the dimension's only unit for percent, ph, water_activity
// and pieces ("240"); for the others a unit is wanted.
Result<Measure> parse_measure(std::string_view text, Dimension wanted);

// From a canonical integer; typed_micro is exact where the unit allows, else rounded.
Measure measure_of(std::int64_t canonical, Unit unit);

std::string to_text(const Measure& m);                                 // as typed: "93.4C", "200lb"
std::string to_text(std::int64_t canonical, Unit unit, int decimals);  // converted and rounded: "21.1C"
double in_unit(std::int64_t canonical, Unit unit);                     // for charts and workbooks only, never for a verdict
std::int64_t to_canonical(double number, Unit unit);                   // rounds half away from zero; |number| must fit

// Of a difference, not a point on the scale ("1F" is 5/9 of a degree C, not -17.2C): in millionths of `unit`, or canonical.
std::int64_t difference_in(const Measure& difference, Unit unit);
std::int64_t canonical_difference(const Measure& difference);

// Shorthands for what is used all over.
struct Mass {
    std::int64_t mg = 0;
    auto operator<=>(const Mass&) const = default;
};
constexpr Mass operator+(Mass a, Mass b) { return {a.mg + b.mg}; }
constexpr Mass operator-(Mass a, Mass b) { return {a.mg - b.mg}; }
Result<Duration> parse_duration(std::string_view text);  // "15min", "8h30min", "30days"
std::string mass_text(std::int64_t mg);                  // shortest exact: "90kg", "1.25kg", "12.5g", "3mg"

// The part of `total` that belongs to pieces [from, to) of `pieces`: cumulative integer division, so that the parts of any
// split sum to the whole. Needs 0 <= from <= to <= pieces and pieces > 0.
std::int64_t share_of(std::int64_t total, std::int64_t from, std::int64_t to, std::int64_t pieces);

}  // namespace peelbook
