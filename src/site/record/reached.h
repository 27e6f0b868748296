#pragma once
// What a receipt says of goods that a finding reaches: what lay in a room meanwhile, and a recall to think of when some has left.
#include "site/site.h"

namespace peelbook::fold {
class Ledger;
}

namespace peelbook::site {

// Lines of `next`, the recalls first and of these the ones for an allergen.
void add_reached(fold::Ledger& ledger, Receipt& receipt);

}  // namespace peelbook::site
