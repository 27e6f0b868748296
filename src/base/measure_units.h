#pragma once
// The table of units behind measure.h: exact conversion from millionths of the typed unit to the dimension's integer.
#include <cstdint>
#include <string_view>
#include <vector>

#include "base/measure.h"

namespace peelbook {

// 128 bits hold 10^18 millionths times any factor below.
__extension__ typedef __int128 Wide;

// canonical = typed_micro * up / down + offset / down, rounded half away from zero; up and down are positive.
struct UnitRow {
    Unit unit;
    Dimension dimension;
    std::string_view symbol;
    std::vector<std::string_view> also;  // other spellings; compared without case unless `exact_case`
    std::int64_t up;
    std::int64_t down;
    std::int64_t offset;
    bool exact_case = false;
};

const UnitRow& row_of(Unit unit);
const std::vector<UnitRow>& all_units();

// n / d, rounded half away from zero; d > 0.
Wide divided(Wide n, Wide d);

// Absent when the result does not fit in 64 bits.
std::optional<std::int64_t> canonical_of(std::int64_t typed_micro, const UnitRow& row);
std::optional<std::int64_t> micro_of(std::int64_t canonical, const UnitRow& row);

}  // namespace peelbook
