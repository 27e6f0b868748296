#include <algorithm>
#include <limits>

#include "fold/fold.h"
#include "fold/instrument_state.h"
#include "fold/ratchet/waiting.h"
#include "judge/judge.h"

namespace peelbook::fold {

// Spans are made anew; every lot and place read within a span that changed is judged again, so that a failed calibration reaches the
// findings since the last good one.
Subjects fold_instrument(Derivation& d, const std::string& instrument) {
    auto& rows = d.ledger.rows();
    std::vector<judge::ServiceFact> service;
    std::vector<judge::CalibrationFact> calibrations;
    std::vector<std::pair<book::Int, Seq>> moments;
    Instant last{};
    for (const auto& entry : d.ledger.effective_touching(book::SubjectKind::instrument, instrument)) {
        const Effective e = as_it_counts(d.ledger, entry);
        if (e.voided_by) continue;
        moments.emplace_back(e.happened.ms, e.seq);
        last = std::max(last, e.happened);
        if (const auto* s = std::get_if<record::ServiceChanged>(&e.says)) service.push_back({e.happened, s->in_service});
        if (const auto* c = std::get_if<record::Calibrated>(&e.says)) {
            if (const auto shown = calibration_shows(d.ledger, *c, e.happened)) calibrations.push_back({e.happened, *shown});
        }
    }
    const auto governing = d.ledger.plan_at(last);
    const auto* known = governing.plan->instrument(instrument);
    const auto spans = judge::instrument_spans(known ? known->calibrate_every : std::nullopt, service, calibrations);
    std::vector<book::InstrumentSpan> now;
    for (const auto& span : spans) {
        book::InstrumentSpan row{instrument, span.from.ms, {}, span.state, 0};
        if (span.until) row.until_ms = span.until->ms;
        for (const auto& [happened, seq] : moments) {
            if (happened <= span.from.ms) row.seq = seq;
        }
        if (row.seq == 0 && !moments.empty()) row.seq = moments.front().second;
        now.push_back(row);
    }
    const auto before = rows.spans(instrument);
    rows.set_spans(instrument, now);
    book::Int from = for_ever;  // the earliest moment whose state differs
    const auto differs = [](const auto& list, const auto& row) {
        return std::none_of(list.begin(), list.end(), [&](const auto& other) {
            return other.from_ms == row.from_ms && other.until_ms == row.until_ms && other.state == row.state;
        });
    };
    for (const auto& row : before) {
        if (differs(now, row)) from = std::min(from, row.from_ms);
    }
    for (const auto& row : now) {
        if (differs(before, row)) from = std::min(from, row.from_ms);
    }
    if (from == for_ever) return {};
    Subjects dirtied;
    for (const auto& at : rows.places_read_by(instrument, from)) {
        dirtied.push_back({Rank::checks, 0, at.place, at.point, {at.first}, {at.last}});
    }
    for (book::LotId lot : rows.lots_read_by(instrument, from, for_ever)) dirtied.push_back(Subject::of_lot(Rank::findings, lot));
    return dirtied;
}

}  // namespace peelbook::fold
