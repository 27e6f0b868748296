// Readings, findings, holds, actions, allergens, instruments, what is owed.
#include <set>

#include "book/derived_impl.h"

namespace peelbook::book {

void Derived::set_readings(LotId lot, const std::vector<Reading>& rows) { make_equal(impl_->sql, readings(lot), rows); }

void Derived::set_reading_rows(Seq seq, const std::vector<Reading>& rows) {
    make_equal(impl_->sql, select<Reading>(impl_->sql, "WHERE seq = ?1", seq), rows);
}

std::vector<Reading> Derived::readings(LotId lot) const {
    return select<Reading>(impl_->sql, "WHERE lot = ?1 ORDER BY happened, seq, row", lot);
}

std::optional<Reading> Derived::reading_before(const std::string& place, const std::string& point, Int at, Seq not_seq) const {
    return select_one<Reading>(impl_->sql,
                               "WHERE place = ?1 AND place <> '' AND point = ?2 AND happened <= ?3 AND seq <> ?4 "
                               "AND voided_by IS NULL ORDER BY happened DESC, seq DESC, row DESC LIMIT 1",
                               place, point, at, not_seq);
}

std::optional<Reading> Derived::reading_after(const std::string& place, const std::string& point, Int at, Seq not_seq) const {
    return select_one<Reading>(impl_->sql,
                               "WHERE place = ?1 AND place <> '' AND point = ?2 AND happened > ?3 AND seq <> ?4 "
                               "AND voided_by IS NULL ORDER BY happened, seq, row LIMIT 1",
                               place, point, at, not_seq);
}

std::vector<Reading> Derived::readings_of_place(const std::string& place, const std::string& point, Int from, Int until) const {
    return select<Reading>(impl_->sql,
                           "WHERE place = ?1 AND place <> '' AND point = ?2 AND happened >= ?3 AND happened < ?4 "
                           "ORDER BY happened, seq, row",
                           place, point, from, until);
}

std::vector<ChartReading> Derived::readings_to_chart(const std::string& item, const std::string& point, Int from, Int until) const {
    Statement rows = impl_->sql.prepared(
        "SELECT r.seq, l.code, l.item, r.unit, r.instrument, r.by, r.value, r.happened "
        "FROM lot l JOIN reading r ON r.lot = l.id "
        "WHERE l.item = ?1 AND l.happened >= ?3 AND l.happened < ?4 AND r.point = ?2 AND r.voided_by IS NULL "
        "AND r.symbol <> '' AND NOT EXISTS (SELECT 1 FROM series s WHERE s.seq = r.seq) "
        "ORDER BY r.happened, r.seq, r.row");
    rows.with(item, point, from, until);
    std::vector<ChartReading> readings;
    while (rows.step())
        readings.push_back({rows.number(0), std::string(rows.text(1)), std::string(rows.text(2)), std::string(rows.text(3)),
                            std::string(rows.text(4)), std::string(rows.text(5)), rows.number(6), rows.number(7)});
    return readings;
}

std::vector<Derived::ChartFigure> Derived::figures_to_chart(const std::string& item, const std::string& point, Int from, Int until) const {
    Statement rows = impl_->sql.prepared(
        "SELECT f.anchor, l.code, l.item, f.unit, l.by, f.figure, f.happened, f.plan_seq "
        "FROM lot l JOIN finding f ON f.lot = l.id "
        "WHERE l.item = ?1 AND l.happened >= ?3 AND l.happened < ?4 AND f.point = ?2 AND f.figure IS NOT NULL "
        "ORDER BY f.happened, f.anchor, f.ord");
    rows.with(item, point, from, until);
    std::vector<ChartFigure> figures;
    while (rows.step())
        figures.push_back({{rows.number(0), std::string(rows.text(1)), std::string(rows.text(2)), std::string(rows.text(3)), "",
                            std::string(rows.text(4)), rows.number(5), rows.number(6)},
                           rows.number(7)});
    return figures;
}

std::vector<LotId> Derived::lots_read_by(const std::string& instrument, Int from, Int until) const {
    Statement statement = impl_->sql.prepared(
        "SELECT DISTINCT lot FROM reading WHERE instrument = ?1 AND instrument <> '' AND happened >= ?2 "
        "AND happened < ?3 AND lot IS NOT NULL ORDER BY lot");
    statement.with(instrument, from, until);
    std::vector<LotId> lots;
    while (statement.step()) lots.push_back(statement.number(0));
    return lots;
}

std::vector<Derived::PlaceRead> Derived::places_read_by(const std::string& instrument, Int from) const {
    Statement rows = impl_->sql.prepared(
        "SELECT place, point, min(begins), max(ends) FROM ("
        "SELECT place, point, happened AS begins, happened AS ends FROM reading "
        "WHERE instrument = ?1 AND instrument <> '' AND happened >= ?2 AND place <> '' UNION ALL "
        "SELECT place, point, max(first_ms, ?2), last_ms FROM series "
        "WHERE instrument = ?1 AND last_ms >= ?2 AND place <> '' AND voided_by IS NULL) GROUP BY place, point ORDER BY place, point");
    rows.with(instrument, from);
    std::vector<PlaceRead> places;
    while (rows.step()) places.push_back({std::string(rows.text(0)), std::string(rows.text(1)), rows.number(2), rows.number(3)});
    return places;
}

std::vector<Finding> Derived::findings(LotId lot) const {
    return select<Finding>(impl_->sql, "WHERE lot = ?1 ORDER BY happened, anchor, point, ord", lot);
}

std::vector<Finding> Derived::findings_at(Seq anchor) const {
    return select<Finding>(impl_->sql, "WHERE anchor = ?1 ORDER BY point, ord", anchor);
}

std::vector<Finding> Derived::findings_between(Seq anchor, const std::string& point, Int from, Int until) const {
    return select<Finding>(impl_->sql, "WHERE anchor = ?1 AND point = ?2 AND ord >= ?3 AND ord < ?4 ORDER BY ord", anchor, point, from,
                           until);
}

std::vector<Finding> Derived::findings_of_week(Int week) const {
    return select<Finding>(impl_->sql, "WHERE week = ?1 ORDER BY happened, anchor, point, ord", week);
}

std::optional<Finding> Derived::finding(Seq anchor, const std::string& point, Int ord) const {
    return select_one<Finding>(impl_->sql, "WHERE anchor = ?1 AND point = ?2 AND ord = ?3", anchor, point, ord);
}

void Derived::put(const Finding& f) { put_row(impl_->sql, f); }

void Derived::erase_finding(Seq anchor, const std::string& point, Int ord) {
    impl_->sql.prepared("DELETE FROM finding WHERE anchor = ?1 AND point = ?2 AND ord = ?3").with(anchor, point, ord).run();
}

std::vector<Finding> Derived::open_findings() const {
    return select<Finding>(impl_->sql, "WHERE verdict > 0 AND cleared_by IS NULL ORDER BY happened, anchor, point, ord");
}

std::vector<Finding> Derived::undecided_findings() const {
    return select<Finding>(impl_->sql, "WHERE verdict > 0 AND cleared_by IS NULL AND decided = '' ORDER BY happened, anchor, point, ord");
}

void Derived::set_waits(const Finding& of, const std::vector<Seq>& entries) {
    std::vector<Waits> before, now;
    for (const Seq entry : waits(of.anchor, of.point, of.ord)) before.push_back({of.anchor, of.point, of.ord, entry});
    for (const Seq entry : entries) now.push_back({of.anchor, of.point, of.ord, entry});
    make_equal(impl_->sql, before, now);
}

std::vector<Seq> Derived::waits(Seq anchor, const std::string& point, Int ord) const {
    std::vector<Seq> out;
    for (const auto& row : select<Waits>(impl_->sql, "WHERE anchor = ?1 AND point = ?2 AND ord = ?3 ORDER BY entry", anchor, point, ord))
        out.push_back(row.entry);
    return out;
}

std::vector<Finding> Derived::waiting_for(Seq entry) const {
    std::vector<Finding> out;
    for (const auto& row : select<Waits>(impl_->sql, "WHERE entry = ?1 ORDER BY anchor, point, ord", entry)) {
        if (auto f = finding(row.anchor, row.point, row.ord)) out.push_back(std::move(*f));
    }
    return out;
}

void Derived::put(const Waiting& w) { put_row(impl_->sql, w); }

std::optional<Waiting> Derived::waiting(Seq entry) const { return select_one<Waiting>(impl_->sql, "WHERE entry = ?1", entry); }

std::optional<Waiting> Derived::waiting_on(Seq target) const {
    return select_one<Waiting>(impl_->sql, "WHERE target = ?1 AND entry <> ?1 AND decided_by IS NULL", target);
}

std::vector<Seq> Derived::all_waiting() const {
    std::set<Seq> entries;
    for (const auto& row : select<Waiting>(impl_->sql, "WHERE decided_by IS NULL")) entries.insert(row.entry);
    for (const auto& row : select<Waits>(impl_->sql, "ORDER BY entry")) {
        const auto known = waiting(row.entry);
        if (!known || !known->decided_by) entries.insert(row.entry);
    }
    return {entries.begin(), entries.end()};
}

std::vector<Waiting> Derived::alone() const { return select<Waiting>(impl_->sql, "WHERE alone = 1 ORDER BY entry"); }

// --- holds and actions

void Derived::set_holds(LotId lot, const std::vector<Hold>& rows) { make_equal(impl_->sql, holds(lot), rows); }

std::vector<Hold> Derived::holds(LotId lot) const { return select<Hold>(impl_->sql, "WHERE lot = ?1 ORDER BY seq", lot); }

bool Derived::is_held(LotId lot) const {
    return impl_->sql.prepared("SELECT 1 FROM hold WHERE lot = ?1 AND released_seq IS NULL LIMIT 1").with(lot).step();
}

bool Derived::has_hold_for(Seq anchor, const std::string& point, Int ord) const {
    Statement statement = impl_->sql.prepared(
        "SELECT 1 FROM hold WHERE cause_anchor = ?1 AND cause_anchor IS NOT NULL AND cause_point = ?2 "
        "AND cause_ord = ?3 LIMIT 1");
    return statement.with(anchor, point, ord).step();
}

bool Derived::is_held_for(LotId lot, Seq anchor, const std::string& point, Int ord) const {
    Statement statement = impl_->sql.prepared(
        "SELECT 1 FROM hold WHERE lot = ?1 AND released_seq IS NULL AND cause_anchor = ?2 AND cause_point = ?3 AND cause_ord = ?4 LIMIT 1");
    return statement.with(lot, anchor, point, ord).step();
}

bool Derived::set_unsettled(const std::vector<Unsettled>& before, const std::vector<Unsettled>& now) {
    return make_equal(impl_->sql, before, now);
}

std::vector<Unsettled> Derived::open_points() const {
    return select<Unsettled>(impl_->sql, "WHERE source = lot AND verdict IS NULL ORDER BY lot, point");
}

std::vector<Unsettled> Derived::unsettled(LotId lot) const {
    return select<Unsettled>(impl_->sql, "WHERE lot = ?1 ORDER BY source, anchor, point, ord", lot);
}

std::vector<Hold> Derived::open_holds() const { return select<Hold>(impl_->sql, "WHERE released_seq IS NULL ORDER BY seq, lot"); }

void Derived::put(const Action& a) { put_row(impl_->sql, a); }

void Derived::erase_action(Seq seq) { impl_->sql.prepared("DELETE FROM action WHERE seq = ?1").with(seq).run(); }

std::vector<Action> Derived::actions(Seq anchor, const std::string& point, Int ord) const {
    return select<Action>(impl_->sql, "WHERE anchor = ?1 AND point = ?2 AND ord = ?3 ORDER BY seq", anchor, point, ord);
}

// --- allergens, instruments, what is owed

void Derived::set_allergens(LotId lot, const std::vector<LotAllergen>& rows) { make_equal(impl_->sql, allergens(lot), rows); }

std::vector<LotAllergen> Derived::allergens(LotId lot) const {
    return select<LotAllergen>(impl_->sql, "WHERE lot = ?1 ORDER BY allergen", lot);
}

void Derived::set_runs(LotId lot, const std::vector<Run>& rows) { make_equal(impl_->sql, runs(lot), rows); }

std::vector<Run> Derived::runs(LotId lot) const { return select<Run>(impl_->sql, "WHERE lot = ?1 ORDER BY at, equipment", lot); }

std::vector<Run> Derived::runs_on(const std::string& equipment, Int from, Int until) const {
    return select<Run>(impl_->sql, "WHERE equipment = ?1 AND at >= ?2 AND at < ?3 ORDER BY at, lot", equipment, from, until);
}

std::optional<Run> Derived::run_before(const std::string& equipment, Int at) const {
    return select_one<Run>(impl_->sql, "WHERE equipment = ?1 AND at < ?2 ORDER BY at DESC, lot DESC LIMIT 1", equipment, at);
}

std::vector<Residue> Derived::residues_after(const std::string& equipment, Int at) const {
    return select<Residue>(impl_->sql,
                           "WHERE (equipment = ?1 AND until_ms IS NULL) OR (equipment = ?1 AND until_ms > ?2) "
                           "ORDER BY from_ms, allergen",
                           equipment, at);
}

void Derived::set_residues_after(const std::string& equipment, Int at, const std::vector<Residue>& rows) {
    make_equal(impl_->sql, residues_after(equipment, at), rows);
}

std::vector<CarryOver> Derived::carry_over_on(const std::string& equipment, Int from) const {
    return select<CarryOver>(impl_->sql, "WHERE equipment = ?1 AND at >= ?2 ORDER BY at, lot, allergen", equipment, from);
}

void Derived::set_carry_over_on(const std::string& equipment, Int from, const std::vector<CarryOver>& rows) {
    make_equal(impl_->sql, carry_over_on(equipment, from), rows);
}

std::vector<CarryOver> Derived::carry_over(LotId lot) const {
    return select<CarryOver>(impl_->sql, "WHERE lot = ?1 ORDER BY at, equipment, allergen", lot);
}

void Derived::set_spans(const std::string& instrument, const std::vector<InstrumentSpan>& rows) {
    make_equal(impl_->sql, spans(instrument), rows);
}

std::vector<InstrumentSpan> Derived::spans(const std::string& instrument) const {
    return select<InstrumentSpan>(impl_->sql, "WHERE instrument = ?1 ORDER BY from_ms", instrument);
}

std::optional<InstrumentSpan> Derived::span_at(const std::string& instrument, Int at) const {
    auto span =
        select_one<InstrumentSpan>(impl_->sql, "WHERE instrument = ?1 AND from_ms <= ?2 ORDER BY from_ms DESC LIMIT 1", instrument, at);
    if (span && span->until_ms && *span->until_ms <= at) return {};
    return span;
}

void Derived::set_outages(Seq seq, const std::vector<Outage>& rows) { make_equal(impl_->sql, outages(seq), rows); }

std::vector<Outage> Derived::outages(Seq seq) const { return select<Outage>(impl_->sql, "WHERE seq = ?1 ORDER BY place", seq); }

std::vector<Outage> Derived::outages_at(const std::string& place, Int from, Int until) const {
    return select<Outage>(impl_->sql, "WHERE until_ms > ?2 AND from_ms < ?3 AND place IN ('', ?1) ORDER BY from_ms, seq, place", place,
                          from, until);
}

void Derived::set_owed(SubjectKind kind, const std::string& subject, const std::vector<Owed>& rows) {
    make_equal(impl_->sql, owed_by(kind, subject), rows);
}

std::vector<Owed> Derived::owed_by(SubjectKind kind, const std::string& subject) const {
    return select<Owed>(impl_->sql, "WHERE subject_kind = ?1 AND subject = ?2 ORDER BY point, ord", kind, subject);
}

std::vector<Owed> Derived::owed_until(Int until) const {
    return select<Owed>(impl_->sql, "WHERE opens <= ?1 ORDER BY due, subject, point, ord", until);
}

}  // namespace peelbook::book
