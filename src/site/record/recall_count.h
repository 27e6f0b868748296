#pragma once
// Pieces that a partner speaks of, by lot: the printed code is what can be read on the goods, and it may be
// on several lots.
#include "site/record/admit.h"

namespace peelbook::site {

// Fills in the parts: lots that bear the code and went to the partner, first shipped first, each at most what
// went there and is not spoken of yet; what is more than that stands on the last, so that it shows as a
// surplus. The mass of pieces is their share of what was shipped, by cumulative division, so that the masses
// of all pieces sum to the shipped mass to the milligram. In a recall, what was returned is recorded as a
// return too (in a drill nothing moves). Refused: a code that the recall does not cover.
Result<Admitted> count_by_lot(const Request& r, const book::Recall& recall, record::RecallCounted s);

}  // namespace peelbook::site
