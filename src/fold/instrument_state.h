#pragma once
// What an instrument's word is worth at a moment.
#include <string>

#include "fold/ledger.h"
#include "judge/facts.h"

namespace peelbook::fold {

// `none` when no instrument is named; one that the plan does not know is out of service.
judge::InstrumentState instrument_state(Ledger& ledger, const std::string& instrument, Instant at);

}  // namespace peelbook::fold
