#pragma once
// A point that a lot will never reach itself, because part of it leaves its line before, travels to the receiver: old dough is baked
// in the new batch. The receiver must still have one as strict before it.
#include "fold/ledger.h"

namespace peelbook::fold {

// Shown by the same step, of the same thing, in the same window, with bounds no wider.
bool as_strict(const plan::Point& wanted, const plan::Point& other);
// An open point of a lot that goes into a batch, which has one as strict open too.
bool travels(Ledger& ledger, const book::Unsettled& open, book::LotId into);

}  // namespace peelbook::fold
