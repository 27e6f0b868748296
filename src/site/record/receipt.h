#pragma once
// What the person is told after the commit.
#include "fold/derivation.h"
#include "site/site.h"

namespace peelbook::site {

// One line: "bake-core 96.4C of PAN-261116-1", "used 12.5kg of F-1 into PAN-261116-1".
std::string summary(const record::Statement& says);

// That the entry waits for a countersign, where it does.
void add_waiting(fold::Ledger& ledger, Receipt& receipt);
ToldFinding told(fold::Ledger& ledger, const book::Finding& finding);

// Weigh sheet of a started batch, with lots on hand first-expired first.
void add_weigh_sheet(fold::Ledger& ledger, const record::Started& says, Seq seq, Receipt& receipt);

// What a logger's file holds and what is odd about it; of many findings the worst few.
void add_series(fold::Ledger& ledger, Seq seq, Receipt& receipt);

// What the point just read says now, and what is owed next on its lot or place. `judged`: what the folds told the judge.
void add_point_state(fold::Ledger& ledger, const std::map<book::LotId, judge::Facts>& judged, const record::Statement& says,
                     Receipt& receipt);

}  // namespace peelbook::site
