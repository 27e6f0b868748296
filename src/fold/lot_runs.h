#pragma once
// Where a lot ran: which pieces of equipment it touched, and when.
#include <vector>

#include "fold/lot_facts.h"

namespace peelbook::fold {

// Of all that is gathered of the lot; empty for what is no goods, or on no line.
std::vector<book::Run> runs_of(Ledger& ledger, const LotFacts& lot);

}  // namespace peelbook::fold
