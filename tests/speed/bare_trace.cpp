// The least that a forward trace can cost: one recursive statement, joined to the shipping lines, every row read. No shares, no
// certainty, no balances, no words.
//
//   bare_trace BOOK.db LOT
#include <sqlite3.h>

#include <cstdio>

int main(int count, char** words) {
    if (count != 3) return 2;
    sqlite3* db = nullptr;
    if (sqlite3_open_v2(words[1], &db, SQLITE_OPEN_READONLY, nullptr) != SQLITE_OK) return 2;
    constexpr const char* sql =
        "WITH RECURSIVE reached (lot) AS (SELECT id FROM lot WHERE code = ?1 "
        "UNION SELECT u.into_lot FROM reached r JOIN use u ON u.from_lot = r.lot) "
        "SELECT r.lot, m.partner, m.pieces, m.mass_mg FROM reached r LEFT JOIN move m ON m.lot = r.lot";
    sqlite3_stmt* row = nullptr;
    if (sqlite3_prepare_v2(db, sql, -1, &row, nullptr) != SQLITE_OK) {
        std::fprintf(stderr, "bare_trace: %s\n", sqlite3_errmsg(db));
        return 2;
    }
    sqlite3_bind_text(row, 1, words[2], -1, SQLITE_STATIC);
    long long rows = 0, lines = 0, pieces = 0, letters = 0;
    while (sqlite3_step(row) == SQLITE_ROW) {
        ++rows;
        if (sqlite3_column_type(row, 1) == SQLITE_NULL) continue;
        ++lines;
        letters += sqlite3_column_bytes(row, 1);
        pieces += sqlite3_column_int64(row, 2);
    }
    std::printf("%lld rows, %lld shipping lines, %lld pieces, %lld letters\n", rows, lines, pieces, letters);
    sqlite3_finalize(row);
    sqlite3_close(db);
}
