#pragma once
// What an open recall asks of corrections: a second person, and both reaches told. Drills ask nothing but are told of.
#include <map>
#include <set>
#include <string>
#include <vector>

#include "fold/ledger.h"

namespace peelbook::site {

// Refused when a recall is open and `by` signed the target: someone may already be told what it says.
// Who takes back their own last entry needs nobody, where it is about no lot that the recall covers.
Check second_person(fold::Ledger& ledger, Seq target, const std::string& by, bool undone = false);

// What each open recall and drill covers: lots by code, deliveries in words.
using RecallReaches = std::map<std::string, std::set<std::string>>;
RecallReaches recall_reaches(fold::Ledger& ledger);
// "RECALL-261120-1 reaches now, not before: PAN-1".
std::vector<std::string> recall_changes(const RecallReaches& before, const RecallReaches& now);

}  // namespace peelbook::site
