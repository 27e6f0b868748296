#include "base/units.h"

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

std::span<const UnitRow> all_units() {
    return units;
}

const UnitRow& row_of(Unit unit) {
    return units.at(static_cast<std::size_t>(unit));
}

Wide divided(Wide n, Wide d) {
    assert(d > 0);
    const Wide whole = n / d;
    const Wide rest = n - whole * d;  // a division of 128 bits is dear
    const Wide twice = 2 * (rest < 0 ? -rest : rest);
    if (twice < d) return whole;
    return n < 0 ? whole - 1 : whole + 1;
}

Wide canonical_of(Wide typed_micro, const UnitRow& row) {
    return divided(typed_micro * row.up + row.offset, row.down);
}

Wide scaled_of(std::int64_t canonical, const UnitRow& row, int decimals) {
    assert(decimals >= 0 && decimals <= 6);
    return divided(Wide{canonical} * row.down - row.offset, row.up * power_of_ten(6 - decimals));
}

bool fits_int64(Wide n) {
    return n >= std::numeric_limits<std::int64_t>::min() && n <= std::numeric_limits<std::int64_t>::max();
}

namespace {

// From the last digit to the first, ending before `end`.
template <class Number>
char* digits_before(char* end, Number size, int decimals, bool shortest) {
    char* at = end;
    for (int place = 0; place < decimals; ++place, size /= 10) {
        const auto digit = static_cast<char>('0' + static_cast<int>(size % 10));
        if (!shortest || digit != '0' || at != end) *--at = digit;
    }
    if (at != end) *--at = '.';
    do *--at = static_cast<char>('0' + static_cast<int>(size % 10));
    while ((size /= 10) != 0);
    return at;
}

}  // namespace

// Every reading, limit and finding is written with it: without a formatter it takes a tenth of the time.
std::string decimal_text(Wide scaled, int decimals, bool shortest) {
    std::array<char, 48> room;  // 2^127 has 39 digits
    char* const end = room.data() + room.size();
    const Wide size = scaled < 0 ? -scaled : scaled;
    char* at = fits_int64(size) ? digits_before(end, static_cast<std::int64_t>(size), decimals, shortest)
                                : digits_before(end, size, decimals, shortest);
    if (scaled < 0) *--at = '-';
    return {at, end};
}

}  // namespace peelbook
