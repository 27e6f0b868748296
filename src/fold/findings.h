#pragma once
// Findings as they stand after an entry.
#include <vector>

#include "fold/derivation.h"
#include "judge/judge.h"

namespace peelbook::fold {

// Merges what the judge says now with what was raised before: a finding once raised stays, as cleared by the entry that cleared
// it; a void never clears. `mine` are all findings of the subject now; `before` the rows that stand.
void merge_findings(Derivation& d, const std::vector<book::Finding>& before, const std::vector<book::Finding>& mine,
                    const std::vector<bool>& on_voided);

}  // namespace peelbook::fold
