// The least that keeping a logger's rows can cost: one prepared insert a row, all in one transaction, in a
// table of the same shape as the book's, durable at the end. Prints "milliseconds ELAPSED PROCESSOR".
//
//   raw_rows FILE ROWS
#include <sqlite3.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <string>

namespace {

void run(sqlite3* db, const char* sql) {
    if (sqlite3_exec(db, sql, nullptr, nullptr, nullptr) == SQLITE_OK) return;
    std::fprintf(stderr, "raw_rows: %s\n", sqlite3_errmsg(db));
    std::exit(2);
}

}  // namespace

int main(int count, char** words) {
    if (count != 3) return 2;
    const std::string file = words[1];
    for (const char* end : {"", "-wal", "-shm"}) std::filesystem::remove(file + end);
    const long long rows = std::atoll(words[2]);
    sqlite3* db = nullptr;
    sqlite3_open(file.c_str(), &db);
    run(db,
        "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;"
        "CREATE TABLE row (seq INTEGER NOT NULL, happened INTEGER NOT NULL, line INTEGER NOT NULL, value "
        "INTEGER NOT NULL,"
        " PRIMARY KEY (seq, happened, line)) STRICT, WITHOUT ROWID");
    const auto begin = std::chrono::steady_clock::now();
    const std::clock_t processor = std::clock();
    run(db, "BEGIN IMMEDIATE");
    sqlite3_stmt* insert = nullptr;
    sqlite3_prepare_v2(db, "INSERT INTO row VALUES (?1, ?2, ?3, ?4)", -1, &insert, nullptr);
    for (long long i = 0; i < rows; ++i) {
        sqlite3_bind_int64(insert, 1, 7);
        sqlite3_bind_int64(insert, 2, 1'735'689'600'000 + i * 60'000);
        sqlite3_bind_int64(insert, 3, i + 2);
        sqlite3_bind_int64(insert, 4, 3000 + i % 1500);
        if (sqlite3_step(insert) != SQLITE_DONE) return 2;
        sqlite3_reset(insert);
    }
    sqlite3_finalize(insert);
    run(db, "COMMIT");
    sqlite3_close(db);
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - begin;
    std::printf("milliseconds %.1f %.1f\n", took.count(), static_cast<double>(std::clock() - processor) * 1e3 / CLOCKS_PER_SEC);
    return 0;
}
