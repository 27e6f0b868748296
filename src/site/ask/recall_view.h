#pragma once
#include "base/result.h"
#include "fold/ledger.h"
#include "site/ask/recall.h"

namespace peelbook::site {

RecallView recall_view(fold::Ledger& ledger, const book::Recall& recall, Instant now);

// Refused with the nearest codes.
Result<book::Recall> known_recall(fold::Ledger& ledger, const std::string& code);

// "12 pieces, 3.1kg"; empty when all is accounted for.
std::string not_accounted_text(std::int64_t mg, std::int64_t pieces);

}  // namespace peelbook::site
