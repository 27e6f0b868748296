#pragma once
#include "fold/ledger.h"

namespace peelbook::site {

// SHA-256 over what a review of a lot ("PAN-261116-1") or a week ("2026-W47") looks at: its findings and effective entries, as
// rows; of a week also the checks of places that are overdue at its end, or at `now` while it runs. Refused: neither a lot nor a week.
Result<std::string> review_digest(fold::Ledger& ledger, const std::string& what, Instant now);

// "3 checks of 2026-W47 were owed and not done: ...", or that none was; empty when `what` is a lot.
std::string owed_and_not_done(fold::Ledger& ledger, const std::string& what, Instant now);

}  // namespace peelbook::site
