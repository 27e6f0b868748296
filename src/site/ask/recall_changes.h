#pragma once
#include <string>
#include <vector>

#include "site/ask/recall_scope.h"

namespace peelbook::site {

// What later entries added to the snapshot and took from it, each with the entries that did it.
struct ScopeChange {
    std::string what;      // "added" "removed" "surer" "less sure", of a lot; "delivery added" "delivery removed"
                           // "delivery changed"
    trace::LotId lot = 0;  // of a lot
    std::string text;      // the code, or the delivery in words
    std::vector<Seq> by;   // empty only when no single entry can be named
};
std::vector<ScopeChange> scope_changes(fold::Ledger& ledger, const book::Recall& recall, const trace::Snapshot& before,
                                       const RecallScope& now);

}  // namespace peelbook::site
