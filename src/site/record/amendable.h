#pragma once
#include "fold/ledger.h"

namespace peelbook::site {

// Refused: an entry that is not there, of a kind that stands for ever (a plan adoption, a hold, a release, a review, a seal, another
// correction), already voided; for a void also one that later entries build on, which are listed.
Check may_be_corrected(fold::Ledger& ledger, Seq target, bool void_it);

// Refused: another kind; another code for the lot the entry made, whose identity never changes; and another lot in place of one that
// was sent out although the book refused it.
Check same_identity(const fold::Effective& was, const record::Statement& instead);

}  // namespace peelbook::site
