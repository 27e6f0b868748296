#pragma once
// What was there when the book began.
#include "fold/ledger.h"

namespace peelbook::fold {

// A lot of before the first adoption, written down before the first shift after it began (where the plan has no shifts: on that
// production day). Whoever adopted the plan signed for it as it stood, and no point of the plan is judged of it; what is written
// down later, of whatever time, is judged by that plan.
bool stood_before_the_plan(Ledger& ledger, const book::Lot& lot);

}  // namespace peelbook::fold
