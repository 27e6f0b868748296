#pragma once
// One's own slip, taken back at once and without a second person: the last entry of a person, within some minutes of writing it. An
// event always; a measurement only if nothing came of it, for what was bad stays recorded.
#include "site/record/admit.h"

namespace peelbook::site {

// The last entry of this person in the book; holds that the program wrote for them are passed over. 0: none.
Seq last_of(fold::Ledger& ledger, const std::string& by);
Check may_be_taken_back(const Request& r, Seq target);
// Asked once it is derived. `changed` are the findings that the entry changed.
Check raised_nothing(fold::Ledger& ledger, const record::Voided& undo, Seq seq, const std::vector<book::Finding>& changed);

}  // namespace peelbook::site
