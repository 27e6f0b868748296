#pragma once
// The lots that a finding of a place is about: what passed a device (rule 12), what lay in a room.
#include <string>
#include <vector>

#include "fold/ledger.h"

namespace peelbook::site {

// The place's point checks a device that lines run through.
bool is_of_device(fold::Ledger& ledger, const book::Finding& f);

// Of a check that failed or proves nothing: every batch of its lines between start and last packing since the last good check, up to the
// next good one. Of a time without a check: the packs of that time, and of the time since the last good check before it.
std::vector<book::LotId> passed_device(fold::Ledger& ledger, const book::Finding& f);

// Of a reading that deviates: every lot that lay there between the last good reading before it and the next good one; of a logger's day,
// on that day; of a time without a check, in that time. A reading with the unit "max" or "min" is of the time since the last good
// reading of an earlier production day.
std::vector<book::LotId> stored_there(fold::Ledger& ledger, const book::Finding& f);

// For the receipt: "lay in chill-room then: MK-1, CU-1", and who has what left the house and no hold names.
std::vector<std::string> stored_lines(fold::Ledger& ledger, const book::Finding& f);

}  // namespace peelbook::site
