#pragma once
// What an open recall asks of every other entry: a second person for corrections, a hold on whatever else it
// comes to cover, and both reaches told after a correction. Drills ask nothing but are told of.
#include <map>
#include <set>
#include <string>
#include <vector>

#include "fold/ledger.h"
#include "site/record/holds.h"

namespace peelbook::site {

// Refused when a recall is open and `by` signed the target: someone may already be told what it says.
Check second_person(fold::Ledger& ledger, Seq target, const std::string& by);

// Holds to write after entry `seq`: all of a recall just opened; else what a lot of the entry made a recall
// cover. Empty, and cheap, while no recall is open.
std::vector<HoldToWrite> recall_holds(fold::Ledger& ledger, Seq seq);

// What each open recall and drill covers: lots by code, deliveries in words.
using RecallReaches = std::map<std::string, std::set<std::string>>;
RecallReaches recall_reaches(fold::Ledger& ledger);
// "RECALL-261120-1 reaches now, not before: PAN-1".
std::vector<std::string> recall_changes(const RecallReaches& before, const RecallReaches& now);

}  // namespace peelbook::site
