// Lots, genealogy, ways out, counts, stock.
#include "book/derived_impl.h"

namespace peelbook::book {

bool Derived::put(const Lot& lot) { return put_row(impl_->sql, lot); }

void Derived::erase_lot(LotId id) {
    impl_->sql.prepared("DELETE FROM stock WHERE lot = ?1").with(id).run();
    impl_->sql.prepared("DELETE FROM lot WHERE id = ?1").with(id).run();
}

std::optional<Lot> Derived::lot(LotId id) const { return select_one<Lot>(impl_->sql, "WHERE id = ?1", id); }

std::optional<Lot> Derived::lot(const std::string& code) const { return select_one<Lot>(impl_->sql, "WHERE code = ?1", code); }

std::vector<Lot> Derived::lots_by_supplier(const std::string& supplier_lot) const {
    return select<Lot>(impl_->sql, "WHERE supplier_lot = ?1 AND supplier_lot <> '' ORDER BY happened, id", supplier_lot);
}

std::vector<Lot> Derived::lots_of_item(const std::string& item) const {
    return select<Lot>(impl_->sql, "WHERE item = ?1 ORDER BY happened, id", item);
}

std::vector<Lot> Derived::lots_with_printed_code(const std::string& code) const {
    return select<Lot>(impl_->sql, "WHERE printed_code = ?1 AND printed_code <> '' ORDER BY happened, id", code);
}

std::vector<LotId> Derived::ids_with_printed_code(const std::string& code) const {
    Statement statement = impl_->sql.prepared("SELECT id FROM lot WHERE printed_code = ?1 AND printed_code <> '' ORDER BY happened, id");
    statement.with(code);
    std::vector<LotId> ids;
    while (statement.step()) ids.push_back(statement.number(0));
    return ids;
}

std::vector<Lot> Derived::blends_of(const std::string& vessel) const {
    return select<Lot>(impl_->sql, "WHERE kind = 'blend' AND vessel = ?1 ORDER BY happened, id", vessel);
}

std::optional<Lot> Derived::blend_at(const std::string& vessel, Int at) const {
    return select_one<Lot>(impl_->sql, "WHERE kind = 'blend' AND vessel = ?1 AND happened <= ?2 ORDER BY happened DESC, id DESC LIMIT 1",
                           vessel, at);
}

std::vector<Lot> Derived::lots_started(Int from, Int until) const {
    return select<Lot>(impl_->sql, "WHERE kind = 'batch' AND happened >= ?1 AND happened < ?2 ORDER BY happened, id", from, until);
}

std::vector<Lot> Derived::lots_open(Int from, Int until) const {
    return select<Lot>(impl_->sql, "WHERE kind = 'batch' AND finished IS NULL AND happened >= ?1 AND happened < ?2 ORDER BY happened, id",
                       from, until);
}

std::vector<Lot> Derived::lots_made(Int from, Int until) const {
    return select<Lot>(impl_->sql,
                       "WHERE CASE kind WHEN 'batch' THEN finished ELSE happened END >= ?1 AND "
                       "CASE kind WHEN 'batch' THEN finished ELSE happened END < ?2 "
                       "ORDER BY CASE kind WHEN 'batch' THEN finished ELSE happened END, id",
                       from, until);
}

std::vector<LineFeed> Derived::line_feeds(const std::string& line, Int from, Int until) const {
    return select<LineFeed>(impl_->sql, "WHERE line = ?1 AND from_ms <= ?3 AND (until_ms IS NULL OR until_ms >= ?2) ORDER BY from_ms, seq",
                            line, from, until);
}

void Derived::set_line_feeds(const std::vector<LineFeed>& before, const std::vector<LineFeed>& now) { make_equal(impl_->sql, before, now); }

void Derived::set_stays(LotId lot, const std::vector<Stay>& rows) { make_equal(impl_->sql, stays(lot), rows); }

std::vector<Stay> Derived::stays(LotId lot) const { return select<Stay>(impl_->sql, "WHERE lot = ?1 ORDER BY from_ms, seq", lot); }

std::vector<LotId> Derived::lots_stored(const std::string& place, Int from, Int until) const {
    Statement rows = impl_->sql.prepared(
        "SELECT DISTINCT lot FROM stay WHERE place = ?1 AND from_ms <= ?3 AND (until_ms IS NULL OR until_ms >= ?2) ORDER BY lot");
    rows.with(place, from, until);
    std::vector<LotId> lots;
    while (rows.step()) lots.push_back(rows.number(0));
    return lots;
}

std::vector<std::string> Derived::codes_like(const std::string& prefix) const {
    // Codes are ASCII, so every code that starts so lies below the prefix followed by the highest character.
    Statement statement = impl_->sql.prepared(
        "SELECT code FROM lot WHERE code >= ?1 AND code < ?1 || char(1114111) UNION "
        "SELECT code FROM spent_code WHERE code >= ?1 AND code < ?1 || char(1114111) ORDER BY code");
    statement.with(prefix);
    std::vector<std::string> codes;
    while (statement.step()) codes.emplace_back(statement.text(0));
    return codes;
}

void Derived::put(const SpentCode& s) { put_row(impl_->sql, s); }

std::optional<SpentCode> Derived::spent_code(const std::string& code) const {
    return select_one<SpentCode>(impl_->sql, "WHERE code = ?1", code);
}

std::vector<std::string> Derived::all_codes(Int most) const {
    Statement statement = impl_->sql.prepared("SELECT code FROM lot ORDER BY id DESC LIMIT ?1");
    statement.with(most);
    std::vector<std::string> codes;
    while (statement.step()) codes.emplace_back(statement.text(0));
    return codes;
}

void Derived::set_uses_into(LotId into, const std::vector<Use>& rows) { set_uses_into(uses_into(into), rows); }

bool Derived::set_uses_into(const std::vector<Use>& before, const std::vector<Use>& rows) { return make_equal(impl_->sql, before, rows); }

std::vector<Use> Derived::uses_into(LotId into) const {
    return select<Use>(impl_->sql, "WHERE into_lot = ?1 ORDER BY happened, seq, from_lot", into);
}

std::vector<Use> Derived::uses_from(LotId from) const {
    return select<Use>(impl_->sql, "WHERE from_lot = ?1 ORDER BY happened, seq, into_lot", from);
}

// --- dates and ages

bool Derived::set_keeping(LotId lot, const std::vector<Keeping>& rows) { return make_equal(impl_->sql, keeping(lot), rows); }

std::vector<Keeping> Derived::keeping(LotId lot) const { return select<Keeping>(impl_->sql, "WHERE lot = ?1 ORDER BY kind", lot); }

bool Derived::set_clocks(LotId lot, const std::vector<Clock>& rows) { return make_equal(impl_->sql, clocks(lot), rows); }

std::vector<Clock> Derived::clocks(LotId lot) const { return select<Clock>(impl_->sql, "WHERE lot = ?1 ORDER BY happened, seq", lot); }

// --- leaving and stock

void Derived::set_moves(LotId lot, const std::vector<Move>& rows) { set_moves(moves(lot), rows); }

bool Derived::set_moves(const std::vector<Move>& before, const std::vector<Move>& rows) { return make_equal(impl_->sql, before, rows); }

std::vector<Move> Derived::moves(LotId lot) const { return select<Move>(impl_->sql, "WHERE lot = ?1 ORDER BY happened, seq", lot); }

std::vector<Move> Derived::moves_between(Int from, Int until) const {
    return select<Move>(impl_->sql, "WHERE happened >= ?1 AND happened < ?2 ORDER BY happened, seq, lot", from, until);
}

std::vector<Move> Derived::moves_of_round(const std::string& round, Int from, Int until) const {
    return select<Move>(impl_->sql, "WHERE round = ?1 AND round <> '' AND happened >= ?2 AND happened < ?3 ORDER BY happened, seq, lot",
                        round, from, until);
}

std::vector<std::string> Derived::rounds() const {
    Statement statement = impl_->sql.prepared("SELECT DISTINCT round FROM move WHERE round <> '' ORDER BY round");
    std::vector<std::string> out;
    while (statement.step()) out.emplace_back(statement.text(0));
    return out;
}

std::vector<Move> Derived::moves_to(const std::string& partner) const {
    return select<Move>(impl_->sql, "WHERE partner = ?1 AND partner <> '' ORDER BY happened, seq, lot", partner);
}

bool Derived::set_counts(LotId lot, const std::vector<StockCount>& rows) { return make_equal(impl_->sql, counts(lot), rows); }

std::vector<StockCount> Derived::counts(LotId lot) const {
    return select<StockCount>(impl_->sql, "WHERE lot = ?1 ORDER BY happened, seq", lot);
}

void Derived::put(const Stock& s) { put_row(impl_->sql, s); }

std::optional<Stock> Derived::stock(LotId lot) const { return select_one<Stock>(impl_->sql, "WHERE lot = ?1", lot); }

// --- the lot graph

namespace {

std::string as_json_list(const std::vector<LotId>& ids) {
    std::string list = "[";
    for (const LotId id : ids) list += (list.size() > 1 ? "," : "") + std::to_string(id);
    return list + "]";
}

// UNION, not UNION ALL: a lot is reached once however many ways lead to it, and a cycle ends.
Derived::Graph graph(Sql& sql, const std::string& reached, const std::string& start) {
    Derived::Graph found;
    found.lots = select<Lot>(sql, "WHERE id IN (" + reached + ") ORDER BY id", start);
    found.uses = select<Use>(sql, "WHERE into_lot IN (" + reached + ") AND ended_by IS NULL ORDER BY into_lot, from_lot, seq", start);
    return found;
}

}  // namespace

Derived::Graph Derived::forward(const std::vector<LotId>& start) const {
    return graph(impl_->sql,
                 "WITH RECURSIVE reached (lot) AS (SELECT value FROM json_each(?1) "
                 "UNION SELECT u.into_lot FROM reached r JOIN use u ON u.from_lot = r.lot AND u.ended_by IS NULL) SELECT lot FROM reached",
                 as_json_list(start));
}

Derived::Graph Derived::back(const std::vector<LotId>& start) const {
    return graph(impl_->sql,
                 "WITH RECURSIVE reached (lot) AS (SELECT value FROM json_each(?1) "
                 "UNION SELECT u.from_lot FROM reached r JOIN use u ON u.into_lot = r.lot AND u.ended_by IS NULL) SELECT lot FROM reached",
                 as_json_list(start));
}

}  // namespace peelbook::book
