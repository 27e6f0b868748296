#pragma once
// A batch and its racks: what is judged on which of them, once the stock is known.
#include "fold/lot_facts.h"

namespace peelbook::fold {

// The masses that the stock of its inputs gave what was stated in pieces, as they stand in the book by now.
void weigh(Ledger& ledger, LotFacts& lot);

// Whether a point is judged on this lot: once a batch is in racks, its later steps are judged on each rack instead, and on the batch
// itself as long as some of it is on none.
bool judged_here(const LotFacts& lot, const plan::Point& point);

}  // namespace peelbook::fold
