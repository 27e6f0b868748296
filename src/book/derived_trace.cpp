// Everything that a trace shows, in a handful of statements over the reach. The reach is kept in a table of the connection's own:
// walking it again for each of them costs more than all the rest.
#include <sqlite3.h>

#include "book/derived_impl.h"

namespace peelbook::book {
namespace {

// Rows read through the plain C handle: SQLiteCpp counts a shared pointer up and down at each column, and a trace reads a million.
class Rows {
  public:
    Rows(Sql& sql, const std::string& text) : sql_(sql) {
        const int code = sqlite3_prepare_v2(sql.handle(), text.c_str(), static_cast<int>(text.size()), &row_, nullptr);
        if (code != SQLITE_OK) sql.fail(code);
    }
    ~Rows() { sqlite3_finalize(row_); }
    Rows(const Rows&) = delete;
    Rows& operator=(const Rows&) = delete;

    bool step() {
        const int code = sqlite3_step(row_);
        if (code != SQLITE_ROW && code != SQLITE_DONE) sql_.fail(code);
        return code == SQLITE_ROW;
    }
    Int number(int column) const { return sqlite3_column_int64(row_, column); }
    std::optional<Int> maybe(int column) const {
        if (sqlite3_column_type(row_, column) == SQLITE_NULL) return {};
        return number(column);
    }
    std::string_view text(int column) const {
        const auto* data = static_cast<const char*>(sqlite3_column_blob(row_, column));
        if (data == nullptr) return {};
        return {data, static_cast<std::size_t>(sqlite3_column_bytes(row_, column))};
    }

  private:
    Sql& sql_;
    sqlite3_stmt* row_ = nullptr;
};

constexpr const char* lot_columns =
    "SELECT l.id, l.code, l.kind, l.item, l.vessel, l.happened, l.made_mg, l.made_pieces, l.partner, l.supplier_lot, l.label, "
    "l.printed_code, EXISTS (SELECT 1 FROM hold h WHERE h.lot = l.id AND h.released_seq IS NULL), s.lot, s.made_mg, s.used_mg, "
    "s.out_mg, s.gap_mg, s.on_hand_mg, s.returned_mg, s.made_pieces, s.used_pieces, s.out_pieces, s.gap_pieces, "
    "s.on_hand_pieces, s.returned_pieces FROM temp.reached r CROSS JOIN lot l ON l.id = r.lot LEFT JOIN stock s ON s.lot = l.id "
    "ORDER BY r.lot";

void read_stock(const Rows& row, Stock& s) {
    if (!row.maybe(13)) return;
    s.lot = row.number(13);
    s.made_mg = row.number(14);
    s.used_mg = row.number(15);
    s.out_mg = row.number(16);
    s.gap_mg = row.number(17);
    s.on_hand_mg = row.number(18);
    s.returned_mg = row.number(19);
    s.made_pieces = row.maybe(20);
    s.used_pieces = row.number(21);
    s.out_pieces = row.number(22);
    s.gap_pieces = row.number(23);
    s.on_hand_pieces = row.number(24);
    s.returned_pieces = row.number(25);
}

std::vector<Derived::Traced::Lot> lots_of(Sql& sql, std::size_t count) {
    std::vector<Derived::Traced::Lot> found;
    found.reserve(count);
    for (Rows row(sql, lot_columns); row.step();) {
        auto& lot = found.emplace_back();
        lot.id = row.number(0);
        lot.code = row.text(1);
        lot.kind = row.text(2);
        lot.item = row.text(3);
        lot.vessel = row.text(4);
        lot.happened = row.number(5);
        lot.made_mg = row.maybe(6);
        lot.made_pieces = row.maybe(7);
        lot.partner = row.text(8);
        lot.supplier_lot = row.text(9);
        lot.label = row.text(10);
        lot.printed_code = row.text(11);
        lot.held = row.number(12) != 0;
        read_stock(row, lot.stock);
    }
    return found;
}

// Room is taken at once: moving rows that are read already costs more than what stays empty.
constexpr std::size_t uses_a_lot = 8, moves_a_lot = 4;

std::vector<Derived::Traced::Use> uses_of(Sql& sql, const char* tail, std::size_t room) {
    const std::string text =
        std::string("SELECT u.into_lot, u.from_lot, u.seq, u.mass_mg, u.pieces, u.largest_mg, u.sure, u.happened, u.ended_by "
                    "FROM temp.reached r CROSS JOIN use u ") + tail;
    Rows row(sql, text);
    std::vector<Derived::Traced::Use> found;
    found.reserve(room);
    while (row.step()) {
        auto& use = found.emplace_back();
        use.into_lot = row.number(0);
        use.from_lot = row.number(1);
        use.seq = row.number(2);
        use.mass_mg = row.maybe(3);
        use.pieces = row.maybe(4);
        use.largest_mg = row.maybe(5);
        use.sure = row.number(6) != 0;
        use.happened = row.number(7);
        use.ended_by = row.maybe(8);
    }
    return found;
}

std::vector<Move> ways_out(Sql& sql, std::size_t room) {
    Rows row(
        sql,
        "SELECT m.lot, m.seq, m.way, m.partner, m.mass_mg, m.pieces, m.of_returned, m.happened, m.sure, m.document "
        "FROM temp.reached r CROSS JOIN move m ON m.lot = r.lot ORDER BY r.lot, m.seq");
    std::vector<Move> found;
    found.reserve(room);
    while (row.step()) {
        Move& move = found.emplace_back();
        move.lot = row.number(0);
        move.seq = row.number(1);
        move.way = row.text(2);
        move.partner = row.text(3);
        move.mass_mg = row.maybe(4);
        move.pieces = row.maybe(5);
        move.of_returned = row.number(6);
        move.happened = row.number(7);
        move.sure = row.number(8);
        move.document = row.text(9);
    }
    return found;
}

// UNION, not UNION ALL: a lot is reached once however many ways lead to it, and a circle ends.
void fill_reached(Sql& sql, const std::string& start, bool forward) {
    sql.run("CREATE TEMP TABLE IF NOT EXISTS reached (lot INTEGER PRIMARY KEY); DELETE FROM temp.reached");
    const std::string next = forward ? "u.into_lot FROM reached_lot r CROSS JOIN use u ON u.from_lot = r.lot"
                                     : "u.from_lot FROM reached_lot r CROSS JOIN use u ON u.into_lot = r.lot";
    sql.prepared("INSERT INTO temp.reached WITH RECURSIVE reached_lot (lot) AS (SELECT value FROM json_each(?1) UNION SELECT " +
                 next + " WHERE u.ended_by IS NULL) SELECT lot FROM reached_lot")
        .with(start)
        .run();
}

}  // namespace

Derived::Traced Derived::traced(const std::vector<LotId>& start, bool forward) const {
    Sql& sql = impl_->sql;
    std::string list = "[";
    for (const LotId id : start) list += (list.size() > 1 ? "," : "") + std::to_string(id);
    fill_reached(sql, list + "]", forward);
    Traced out;
    const auto count = static_cast<std::size_t>(sql.number("SELECT count(*) FROM temp.reached"));
    out.lots = lots_of(sql, count);
    out.uses = uses_of(sql, "ON u.into_lot = r.lot WHERE u.ended_by IS NULL ORDER BY r.lot, u.from_lot, u.seq", uses_a_lot * count);
    out.ended = uses_of(sql, forward ? "ON u.from_lot = r.lot WHERE u.ended_by IS NOT NULL ORDER BY r.lot, u.into_lot, u.seq"
                                     : "ON u.into_lot = r.lot WHERE u.ended_by IS NOT NULL ORDER BY r.lot, u.from_lot, u.seq", 0);
    out.moves = ways_out(sql, moves_a_lot * count);
    return out;
}

}  // namespace peelbook::book
