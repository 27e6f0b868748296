#pragma once
// How much time of a check's owed hours lies between two moments. Hours are the site's local ones; holidays owe nothing.
#include "base/zone.h"
#include "plan/plan.h"

namespace peelbook::fold {

Duration owed_between(const plan::Interval& interval, const plan::Site& site, const Zone& zone, Instant from, Instant until);

// The moment at which `interval.every` of owed time has gone by since `last`; looks at most 31 days ahead.
Instant owed_at(const plan::Interval& interval, const plan::Site& site, const Zone& zone, Instant last);

}  // namespace peelbook::fold
