#pragma once
// What waits for another person: corrections, late entries, and what was decided alone.
#include "site/site.h"

namespace peelbook::site {

std::vector<WaitingEntry> waiting_entries(fold::Ledger& ledger);
WaitingEntry waiting_entry(fold::Ledger& ledger, Seq entry);
// SHA-256 in hexadecimal of what its countersigner sees: the entry, what it changes from and to, and each finding as it stands.
std::string digest_of(const WaitingEntry& entry);

}  // namespace peelbook::site
