#pragma once
// Goods that a partner speaks of, by lot: the printed code is what can be read on the goods, and it may be on several lots.
#include "site/record/admit.h"

namespace peelbook::site {

// Fills in the parts as trace/outside.h spreads them over what went there and is not spoken of yet, and what is said beyond that. In a
// recall, what was returned is recorded as a return too (in a drill nothing moves). Refused: a code that the recall does not cover.
Result<Admitted> count_by_lot(const Request& r, const book::Recall& recall, record::RecallCounted s);

}  // namespace peelbook::site
