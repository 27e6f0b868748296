#pragma once
// The next moments at which a lot owes something: the deadlines of a cooling or of a time limit that is running.
#include "fold/derivation.h"
#include "judge/judge.h"

namespace peelbook::fold {

void owe_next(Derivation& d, const LotFacts& lot);

}  // namespace peelbook::fold
