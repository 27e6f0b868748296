#pragma once
// When a product that cools gets where it must: the readings of a lot, the room it cools in, and
// judge/cooling_ahead.h in local time. Nothing of it is kept: it is asked for and told.
#include "fold/ledger.h"
#include "judge/facts.h"
#include "site/site.h"

namespace peelbook::site {

// One a unit of the point with readings enough that has not got there; empty for points that cool nothing.
// The room is the plan's, else the last reading of the plan's room point before the lot's last reading, not
// older than oldest_room; else fitted.
inline constexpr Duration oldest_room = hours(4);
std::vector<Outlook> outlook_of(fold::Ledger& ledger, const book::Lot& lot, const std::string& point);
// The same where the lot's facts are at hand.
std::vector<Outlook> outlook_of(fold::Ledger& ledger, const book::Lot& lot, const plan::Point& point, const judge::Facts& facts);

// What a baker reads of one outlook on a line of its own: the point, the prediction, and that it is no
// verdict.
std::string outlook_line(const Outlook& outlook);

}  // namespace peelbook::site
