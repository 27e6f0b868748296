#pragma once
// What a typed line tries to do, for the judge and for the count of cells.
#include "simulate/judge.h"

namespace peelbook::simulate {

// Empty: the line is no act that the gate knows.
std::vector<Attempt> attempts_of(const std::string& typed, Instant clock, const Facts& facts, const Zone& zone);

}  // namespace peelbook::simulate
