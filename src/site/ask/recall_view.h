#pragma once
#include "base/result.h"
#include "fold/ledger.h"
#include "site/ask/recall.h"
#include "site/ask/recall_scope.h"

namespace peelbook::site {

RecallView recall_view(fold::Ledger& ledger, const book::Recall& recall, Instant now);

// The parts of it, in this order; `view` has its recall, lots and steps.
// What left the house, what is said of it, and whether it adds up.
trace::Outside add_accounts(fold::Ledger& ledger, const RecallScope& scope, RecallView& view);
// Who has it, by code, who was told of what, and whom the effectiveness check asks; `before`: the snapshot.
void add_partners(fold::Ledger& ledger, const trace::Outside& outside, const trace::Snapshot& before, RecallView& view);
// When each step was done, against the plan's deadlines.
void add_timings(const plan::Plan& plan, Instant now, RecallView& view);

// Lots covered that are spoken of by a code: ours, else the one printed on them.
std::vector<trace::LotId> lots_of_code(const RecallView& view, const std::string& code);

// Refused with the nearest codes.
Result<book::Recall> known_recall(fold::Ledger& ledger, const std::string& code);

// "12 pieces, 3.1kg"; empty when all is accounted for.
std::string not_accounted_text(std::int64_t mg, std::int64_t pieces);

// "this; that; and 5 more"
std::string first_of(const std::vector<std::string>& all, std::size_t most);

}  // namespace peelbook::site
