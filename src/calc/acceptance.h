#pragma once
// Does a measured value meet a limit, given what the instrument may be off by?
//   simple acceptance   the value as read decides: 5.0 C meets 5 C (guard 0)
//   guarded acceptance  the value must meet the limit with the guard band added; a value whose band straddles
//                       the limit
//                       shows neither
// Source: JCGM 106:2012, 8.2 (simple acceptance) and 8.3 (guarded; from memory). Integers in the unit of the
// limit; limits inclusive.
#include <cstdint>
#include <optional>

namespace peelbook::calc {

enum class Conformity { meets, straddles, fails };

// `guard` >= 0: the instrument's tolerance or expanded uncertainty; 0 for simple acceptance. A limit that is
// absent is met.
Conformity conformity(std::int64_t value, std::optional<std::int64_t> lower, std::optional<std::int64_t> upper, std::int64_t guard = 0);

}  // namespace peelbook::calc
