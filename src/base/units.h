#pragma once
// The table of units behind measure.h: exact conversion between millionths of a unit and the dimension's
// integer.
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "base/measure.h"

namespace peelbook {

// 128 bits hold 10^18 millionths times any factor of the table.
__extension__ typedef __int128 Wide;

// canonical = (typed_micro * up + offset) / down, rounded half away from zero. `up` and `down` are positive.
struct UnitRow {
    Unit unit;
    Dimension dimension;
    std::string_view symbol;
    std::string_view also;  // other spellings, in lower case, a blank between them
    std::int64_t up;
    std::int64_t down;
    std::int64_t offset;
};

std::span<const UnitRow> all_units();  // in the order of enum Unit
const UnitRow& row_of(Unit unit);

Wide divided(Wide n, Wide d);  // n / d rounded half away from zero; d > 0
Wide canonical_of(Wide typed_micro, const UnitRow& row);
// Units times 10^decimals, rounded; decimals from 0 to 6. With 6 it is the inverse of canonical_of.
Wide scaled_of(std::int64_t canonical, const UnitRow& row, int decimals);

bool fits_int64(Wide n);

// `scaled` is a number times 10^decimals. With `shortest`, zeros at the end of the fraction are left out.
std::string decimal_text(Wide scaled, int decimals, bool shortest);

}  // namespace peelbook
