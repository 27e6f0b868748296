#pragma once
// Findings as they stand after an entry.
#include <vector>

#include "fold/derivation.h"
#include "judge/judge.h"

namespace peelbook::fold {

// Merges what the judge says now with what was raised before. A finding once raised stays, as cleared by the entry that cleared it; one
// that the entry may not better by itself stays as it stood, and waits for it (ratchet/betters.h). `mine` are all findings of the
// subject now, `before` the rows that stand; `waits`, one for each of mine or empty, the entries that the judge says it waits for.
void merge_findings(Derivation& d, const std::vector<book::Finding>& before, const std::vector<book::Finding>& mine,
                    const std::vector<std::vector<Seq>>& waits = {});

}  // namespace peelbook::fold
