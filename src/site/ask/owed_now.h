#pragma once
// What is owed and not done at a moment: what `due`, `status`, `lot`, the week and its review ask.
#include <string>
#include <vector>

#include "fold/owed/duty.h"
#include "site/site.h"

namespace peelbook::site {

// Of places, instruments and lots, by when it is due, so overdue first; what is due after `until` is left out. Without outlooks.
std::vector<DueItem> owed_now(fold::Ledger& ledger, Instant now, Instant until);

// What a lot still owes before it may leave, a line each: its deadlines; critical points that no record shows yet, and those of what
// is in it that keep it; of a pack, devices and labels not shown to be good.
std::vector<std::string> owed_of_lot(fold::Ledger& ledger, const book::Lot& lot, Instant now);

// Checks of places that are overdue at the end of the week, or now while it runs. Not those whose gap is a finding of that week already.
std::vector<fold::Duty> gaps_of_week(fold::Ledger& ledger, IsoWeek week, Instant now);

// "chill-air of chill-room, never read", "chill-air of chill-room, last read 2026-11-16 05:00".
std::string gap_text(fold::Ledger& ledger, const fold::Duty& gap);

}  // namespace peelbook::site
