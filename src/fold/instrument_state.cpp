#include "fold/instrument_state.h"

#include "judge/judge.h"
#include "plan/instruments.h"

namespace peelbook::fold {

judge::InstrumentState instrument_state(Ledger& ledger, const std::string& instrument, Instant at) {
    if (instrument.empty()) return judge::InstrumentState::none;
    if (const auto span = ledger.rows().span_at(instrument, at.ms)) return span->state;
    const auto governing = ledger.plan_at(at);
    const auto* known = governing.plan->instrument(instrument);
    if (!known) return judge::InstrumentState::out_of_service;
    return known->calibrate_every ? judge::InstrumentState::uncalibrated : judge::InstrumentState::valid;
}

judge::InstrumentState instrument_state(Ledger& ledger, const plan::Point* point, const std::string& instrument, Instant at) {
    const auto governing = ledger.plan_at(at);
    const auto* known = governing.plan->instrument(instrument);
    if (point && known && !plan::unfit_because(*point, *known).empty()) return judge::InstrumentState::unfit;
    return instrument_state(ledger, instrument, at);
}

std::optional<bool> calibration_shows(Ledger& ledger, const record::Calibrated& calibrated, Instant at) {
    const auto governing = ledger.plan_at(at);
    const auto* known = governing.plan->instrument(calibrated.instrument);
    return judge::calibration_shows(calibrated.passed, calibrated.read, calibrated.reference, known ? known->tolerance : std::nullopt);
}

}  // namespace peelbook::fold
