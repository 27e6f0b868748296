#include "fold/instrument_state.h"

namespace peelbook::fold {

judge::InstrumentState instrument_state(Ledger& ledger, const std::string& instrument, Instant at) {
    if (instrument.empty()) return judge::InstrumentState::none;
    if (const auto span = ledger.rows().span_at(instrument, at.ms)) return span->state;
    const auto governing = ledger.plan_at(at);
    const auto* known = governing.plan->instrument(instrument);
    if (!known) return judge::InstrumentState::out_of_service;
    return known->calibrate_every ? judge::InstrumentState::lapsed : judge::InstrumentState::valid;
}

}  // namespace peelbook::fold
