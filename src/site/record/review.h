#pragma once
#include "fold/ledger.h"

namespace peelbook::site {

// SHA-256 over what a review of a lot ("PAN-261116-1") or a week ("2026-W47") looks at: its findings and effective entries, as
// rows. Refused: neither a lot nor a week.
Result<std::string> review_digest(fold::Ledger& ledger, const std::string& what);

}  // namespace peelbook::site
