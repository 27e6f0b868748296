#include "base/units.h"

#include <fmt/compile.h>
#include <fmt/format.h>

#include <array>
#include <cassert>
#include <limits>

namespace peelbook {
namespace {

// Factors. Pound: 0.45359237 kg exactly, inch: 25.4 mm exactly (international yard and pound agreement of
// 1959; NIST SP 811, appendix B). Fahrenheit: C = (F - 32) x 5/9. The rest are decimal by definition of the
// SI prefixes.
constexpr std::array<UnitRow, 28> units{{
    {Unit::celsius, Dimension::temperature, "C",
     "\xC2\xB0"
     "c degc celsius",
     1, 1'000, 0},
    {Unit::fahrenheit, Dimension::temperature, "F",
     "\xC2\xB0"
     "f degf fahrenheit",
     5, 9'000, -160'000'000},
    {Unit::mg, Dimension::mass, "mg", "", 1, 1'000'000, 0},
    {Unit::g, Dimension::mass, "g", "gram grams", 1, 1'000, 0},
    {Unit::kg, Dimension::mass, "kg", "kilo kilos", 1, 1, 0},
    {Unit::tonne, Dimension::mass, "t", "tonne tonnes", 1'000, 1, 0},
    {Unit::lb, Dimension::mass, "lb", "lbs pound pounds", 45'359'237, 100'000'000, 0},
    {Unit::oz, Dimension::mass, "oz", "ounce ounces", 45'359'237, 1'600'000'000, 0},
    {Unit::ms, Dimension::duration, "ms", "", 1, 1'000'000, 0},
    {Unit::second, Dimension::duration, "s", "sec secs second seconds", 1, 1'000, 0},
    {Unit::minute, Dimension::duration, "min", "mins minute minutes", 3, 50, 0},
    {Unit::hour, Dimension::duration, "h", "hr hrs hour hours", 18, 5, 0},
    {Unit::day, Dimension::duration, "d", "day days", 432, 5, 0},
    {Unit::percent, Dimension::percent, "%", "percent", 1, 1'000, 0},
    {Unit::ph, Dimension::ph, "pH", "", 1, 1'000, 0},
    {Unit::water_activity, Dimension::water_activity, "aw", "", 1, 1, 0},
    {Unit::um, Dimension::length, "um", "\xC2\xB5m \xCE\xBCm", 1, 1'000'000, 0},
    {Unit::mm, Dimension::length, "mm", "", 1, 1'000, 0},
    {Unit::cm, Dimension::length, "cm", "", 1, 100, 0},
    {Unit::metre, Dimension::length, "m", "metre metres meter meters", 1, 1, 0},
    {Unit::inch, Dimension::length, "in", "inch inches", 127, 5'000, 0},
    {Unit::pascal, Dimension::pressure, "Pa", "", 1, 1'000'000, 0},
    {Unit::hpa, Dimension::pressure, "hPa", "mbar", 1, 10'000, 0},
    {Unit::kpa, Dimension::pressure, "kPa", "", 1, 1'000, 0},
    {Unit::pieces, Dimension::pieces, "pcs", "pc piece pieces", 1, 1'000'000, 0},
    {Unit::per_million, Dimension::per_million, "ppm", "", 1, 1'000, 0},
    {Unit::rpm, Dimension::speed, "rpm", "", 1, 1'000, 0},
    {Unit::mg_per_kg, Dimension::per_million, "mg/kg", "", 1, 1'000, 0},
}};

constexpr bool in_enum_order() {
    for (std::size_t i = 0; i < units.size(); ++i)
        if (static_cast<std::size_t>(units[i].unit) != i) return false;
    return true;
}
static_assert(in_enum_order());

Wide power_of_ten(int exponent) {
    Wide power = 1;
    for (int i = 0; i < exponent; ++i) power *= 10;
    return power;
}

}  // namespace

std::span<const UnitRow> all_units() { return units; }

const UnitRow& row_of(Unit unit) { return units.at(static_cast<std::size_t>(unit)); }

Wide divided(Wide n, Wide d) {
    assert(d > 0);
    const Wide whole = n / d;
    const Wide rest = n % d;
    const Wide twice = 2 * (rest < 0 ? -rest : rest);
    if (twice < d) return whole;
    return n < 0 ? whole - 1 : whole + 1;
}

Wide canonical_of(Wide typed_micro, const UnitRow& row) { return divided(typed_micro * row.up + row.offset, row.down); }

Wide scaled_of(std::int64_t canonical, const UnitRow& row, int decimals) {
    assert(decimals >= 0 && decimals <= 6);
    return divided(Wide{canonical} * row.down - row.offset, row.up * power_of_ten(6 - decimals));
}

bool fits_int64(Wide n) { return n >= std::numeric_limits<std::int64_t>::min() && n <= std::numeric_limits<std::int64_t>::max(); }

std::string decimal_text(Wide scaled, int decimals, bool shortest) {
    const Wide size = scaled < 0 ? -scaled : scaled;
    const Wide one = power_of_ten(decimals);
    std::string text = fmt::format(FMT_COMPILE("{}{}"), scaled < 0 ? "-" : "", size / one);
    if (decimals == 0) return text;
    text += fmt::format(FMT_COMPILE(".{:0{}}"), static_cast<std::int64_t>(size % one), decimals);
    if (!shortest) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

}  // namespace peelbook
