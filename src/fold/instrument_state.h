#pragma once
// What an instrument's word is worth at a moment.
#include <string>

#include "fold/ledger.h"
#include "judge/facts.h"

namespace peelbook::fold {

// `none` when no instrument is named; one that the plan does not know is out of service.
judge::InstrumentState instrument_state(Ledger& ledger, const std::string& instrument, Instant at);
// The same for a reading of this point, where it may be unfit; `point` may be null.
judge::InstrumentState instrument_state(Ledger& ledger, const plan::Point* point, const std::string& instrument, Instant at);

// judge::calibration_shows by the tolerance that the plan states at that moment.
std::optional<bool> calibration_shows(Ledger& ledger, const record::Calibrated& calibrated, Instant at);

}  // namespace peelbook::fold
