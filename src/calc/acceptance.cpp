#include "calc/acceptance.h"

namespace peelbook::calc {

Conformity conformity(std::int64_t value, std::optional<std::int64_t> lower, std::optional<std::int64_t> upper, std::int64_t guard) {
    if ((lower && value + guard < *lower) || (upper && value - guard > *upper)) return Conformity::fails;
    if ((lower && value - guard < *lower) || (upper && value + guard > *upper)) return Conformity::straddles;
    return Conformity::meets;
}

}  // namespace peelbook::calc
