#pragma once
// One entry into the derived tables. Append, amendment, late entry and rebuild all go through here, one entry after the other in the
// order of the book, so what is derived step by step equals what is derived afresh by construction.
#include "fold/derivation.h"

namespace peelbook::fold {

// Writes the fact, the touches and all rows that follow from the entry. Inside a transaction; the entry is already appended.
void apply(Derivation& d, const record::Entry& entry);

}  // namespace peelbook::fold
