// What was read of a lot: measurements, rows of a logger's file, inspections.
#include <algorithm>

#include "base/units.h"
#include "fold/gatherer.h"
#include "fold/instrument_state.h"
#include "fold/logger/series.h"

namespace peelbook::fold {

// Taken back at once by whoever typed it: as if it had not been typed.
bool Gatherer::undone() const {
    if (!entry_->voided_by) return false;
    const auto* says = std::get_if<record::Statement>(&ledger_.entry(*entry_->voided_by).payload);
    const auto* voided = says ? std::get_if<record::Voided>(says) : nullptr;
    return voided && voided->undo;
}

void Gatherer::add_reading(const std::string& point, const Measure& value, const std::string& unit, const std::string& instrument,
                           std::int64_t row, Instant at) {
    book::Reading reading;
    reading.seq = entry_->seq;
    reading.row = row;
    reading.lot = id_;
    reading.point = point;
    reading.unit = unit;
    reading.instrument = instrument;
    reading.value = value.value;
    reading.symbol = std::string(symbol(value.unit));
    reading.typed = to_text(value);
    reading.happened = at.ms;
    reading.by = entry_->by;
    reading.voided_by = entry_->voided_by;
    if (!as_it_stood()) out_.readings.push_back(std::move(reading));
    if (undone()) return;
    judge::ReadingFact fact;
    fact.in = in_;
    fact.seq = entry_->seq;
    fact.row = row;
    fact.at = at;
    fact.point = point;
    fact.value = value;
    fact.unit = unit;
    fact.instrument = instrument_state(ledger_, point_named(point), instrument, at);
    const auto governing = ledger_.plan_at(at);
    if (const auto* known = governing.plan->instrument(instrument)) {
        fact.tolerance = known->tolerance;
        fact.guard = known->uncertainty ? known->uncertainty : known->tolerance;
    }
    fact.by = entry_->by;
    fact.voided = voided();
    out_.facts.readings.push_back(std::move(fact));
}

// An amendment states a reading better; it was typed when it was first stated. Who has countersigned it vouches for the time.
std::optional<Instant> Gatherer::typed_at() const {
    const Instant written = ledger_.entry(entry_->seq).written;
    if (written - entry_->happened <= out_.facts.late_after) return written;
    const auto waited = ledger_.rows().waiting(entry_->seq);
    return waited && waited->decided_by && waited->refused == 0 ? std::nullopt : std::optional(written);
}

void Gatherer::operator()(const record::ReadingTaken& s) {
    if (!is_of_this(s.subject)) return;
    add_reading(s.point, s.value, s.unit, s.instrument, 0, entry_->happened);
    if (!as_it_stood()) out_.readings.back().slip = s.slip;
    if (undone()) return;
    out_.facts.readings.back().written = typed_at();
    out_.facts.readings.back().slip = s.slip;
}

// In order of time; of doubled rows one counts.
void Gatherer::operator()(const record::SeriesTaken& s) {
    if (!is_of_this(s.subject)) return;
    const auto unit = unit_from_symbol(s.value_unit).value_or(Unit::celsius);
    std::vector<LoggerRow> rows;
    auto check = read_series(ledger_, *entry_, most_rows_of_a_lot, [&](const LoggerRow& row) { rows.push_back(row); });
    std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    const bool told = check.in_order();
    if (!told) check.begin_time();
    std::int64_t number = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (!told) check.in_time(rows[i].at, rows[i].line, *rows[i].value);
        if (i > 0 && rows[i].at == rows[i - 1].at && rows[i].value == rows[i - 1].value) continue;
        add_reading(s.point, as_logged(*rows[i].value, unit), s.unit, s.instrument, number++, rows[i].at);
        if (check.hour_unclear() && rows[i].again > Duration{}) out_.facts.readings.back().or_at = rows[i].at + rows[i].again;
        out_.facts.readings.back().logged = true;
    }
    if (as_it_stood()) return;
    out_.series.push_back(series_row_of(*entry_, s));
    out_.series.back().lot = id_;
    check.tell(out_.series.back());
    for (auto& fault : check.faults(entry_->seq)) out_.series_faults.push_back(std::move(fault));
}

void Gatherer::operator()(const record::Inspected& s) {
    if (!is_of_this(s.subject)) return;
    book::Reading reading;
    reading.seq = entry_->seq;
    reading.lot = id_;
    reading.point = s.point;
    reading.unit = s.unit;
    reading.instrument = s.instrument;
    reading.value = s.passed ? 1 : 0;
    reading.typed = s.passed ? "yes" : "no";
    reading.slip = s.slip;
    reading.happened = entry_->happened.ms;
    reading.by = entry_->by;
    reading.voided_by = entry_->voided_by;
    if (!as_it_stood()) out_.readings.push_back(std::move(reading));
    if (undone()) return;
    out_.facts.inspections.push_back({entry_->seq, entry_->happened, s.point, s.unit, s.passed,
                                      instrument_state(ledger_, point_named(s.point), s.instrument, entry_->happened), voided(), typed_at(),
                                      s.slip, in_});
}

}  // namespace peelbook::fold
