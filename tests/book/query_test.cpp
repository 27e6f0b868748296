#include <catch2/catch.hpp>

#include "support.h"

using namespace peelbook;
using namespace peelbook::book;

namespace {

struct Asked {
    Book book = Book::in_memory();
    Asked() { record_step(book); }

    Cell one(const std::string& sql, const std::vector<Book::Parameter>& parameters = {}) {
        const Result<Table> table = book.query(sql, parameters);
        INFO(sql);
        if (!table) FAIL(table.refusal().wanted);
        return table->rows.at(0).at(0);
    }
    Refusal refused(const std::string& sql, const std::vector<Book::Parameter>& parameters = {}) {
        const Result<Table> table = book.query(sql, parameters);
        if (table) FAIL("answered: " << sql);
        return table.refusal();
    }
};

}  // namespace

TEST_CASE_METHOD(Asked, "A question is answered with names and values") {
    const Result<Table> table = book.query(
        "SELECT seq AS n, kind, 1.5 AS half, NULL AS none, x'0aff' AS bytes FROM fact WHERE kind = :kind -- "
        "all",
        {{"kind", std::string("step-done")}, {"unused", std::int64_t{1}}});
    REQUIRE(table);
    CHECK(table->columns == std::vector<std::string>{"n", "kind", "half", "none", "bytes"});
    REQUIRE(table->rows.size() == 1);
    CHECK(table->rows[0] == std::vector<Cell>{std::int64_t{1}, std::string("step-done"), 1.5, std::monostate{}, std::string("0aff")});
    CHECK(one("WITH RECURSIVE n (i) AS (SELECT 1 UNION SELECT i + 1 FROM n WHERE i < 5) SELECT sum(i) FROM "
              "n") == Cell{std::int64_t{15}});
}

TEST_CASE_METHOD(Asked, "What would write or reach outside is refused") {
    for (const std::string sql : {"DELETE FROM lot", "INSERT INTO lot (id) VALUES (1)", "UPDATE fact SET late = 1", "DROP TABLE lot",
                                  "CREATE TABLE x (a)", "CREATE TEMP TABLE x (a)", "ATTACH ':memory:' AS other", "PRAGMA user_version = 5",
                                  "PRAGMA user_version", "BEGIN", "VACUUM", "REINDEX", "ANALYZE"}) {
        const Refusal refusal = refused(sql);
        CHECK(refusal.given == "the question '" + sql + "'");
        CHECK(refusal.wanted == "a question that only reads");
        CHECK(refusal.next == "ask with one SELECT over the tables that 'export csv' writes");
    }
    CHECK(refused("SELECT load_extension('x')").wanted == "SQL that can be run: not authorized to use function: load_extension");
    CHECK(refused("SELECT 1; SELECT 2").wanted == "one SELECT at a time");
    CHECK(refused("SELECT 1; DELETE FROM lot").wanted == "one SELECT at a time");
    CHECK(refused("  ").wanted == "a SELECT");
    CHECK(refused("SELECT * FROM bread").wanted == "SQL that can be run: no such table: bread");
    CHECK(refused("SELEC 1").wanted == "SQL that can be run: near \"SELEC\": syntax error");
    CHECK(one("SELECT count(*) FROM fact") == Cell{std::int64_t{1}});
    // After a question the book is written as before.
    CHECK(record_step(book) == 2);
}

TEST_CASE_METHOD(Asked, "A question without end is ended") {
    book.set_longest_question(std::chrono::milliseconds(20));
    const Refusal refusal = refused("WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT max(i) FROM n");
    CHECK(refusal.wanted == "an answer in the time that a question may take");
    CHECK(refusal.next == "narrow it with WHERE, or join on the key columns");
    CHECK(one("SELECT 1") == Cell{std::int64_t{1}});
}

TEST_CASE_METHOD(Asked, "A parameter without a value is asked for") {
    const Refusal refusal = refused("SELECT :week", {{"weak", std::int64_t{1}}});
    CHECK(refusal.wanted == "a value for its parameter ':week'");
    CHECK(refusal.next == "given were: weak");
    CHECK(refusal.nearest == std::vector<std::string>{"weak"});
}

TEST_CASE_METHOD(Asked, "Local times as the site gives them") {
    CHECK(refused("SELECT local_time(0)").wanted == "SQL that can be run: no such function: local_time");
    book.set_local([](std::int64_t ms) { return ms == 0 ? "2027-01-03 01:00" : "2026-12-28 00:30"; });
    CHECK(one("SELECT local_time(0)") == Cell{std::string("2027-01-03 01:00")});
    CHECK(one("SELECT local_day(0)") == Cell{std::string("2027-01-03")});
    // ISO 8601: 3 January 2027 is the Sunday of week 53 of 2026, which began on 28 December.
    CHECK(one("SELECT iso_week(0)") == Cell{std::string("2026-W53")});
    CHECK(one("SELECT iso_week(1)") == Cell{std::string("2026-W53")});
    CHECK(one("SELECT local_time(NULL)") == Cell{std::monostate{}});
}

TEST_CASE_METHOD(Asked, "Temporary tables are read and replaced") {
    book.set_temporary("curve", {{"at", "value"}, {{std::int64_t{1}, 2.5}, {std::int64_t{2}, std::monostate{}}}});
    CHECK(one("SELECT sum(value) FROM curve") == Cell{2.5});
    book.set_temporary("curve", {{"name"}, {{std::string("x")}}});
    CHECK(one("SELECT name FROM curve") == Cell{std::string("x")});
    CHECK_THROWS_AS(book.set_temporary("lot", {{"a"}, {}}), std::logic_error);
    CHECK_THROWS_AS(book.set_temporary("entry", {{"a"}, {}}), std::logic_error);
    CHECK_THROWS_AS(book.set_temporary("x; DROP TABLE lot", {{"a"}, {}}), std::logic_error);
    CHECK(verify(book).empty());
}

TEST_CASE_METHOD(Asked, "A whole table comes in the order of its key") {
    {
        Book::Work work = book.begin();
        book.derived().put(lot_of(10, "B"));
        book.derived().put(lot_of(9, "A"));
        work.commit();
    }
    const Table lots = book.whole_table("lot");
    CHECK(lots.columns.front() == "id");
    REQUIRE(lots.rows.size() == 2);
    CHECK(lots.rows[0][0] == Cell{std::int64_t{9}});
    CHECK_THROWS_AS(book.whole_table("entry"), std::logic_error);
}

TEST_CASE_METHOD(Asked, "The view of readings in force says what the instrument was worth") {
    {
        Book::Work work = book.begin();
        Derived& rows = book.derived();
        rows.set_spans("T-1", {{"T-1", 100, 200, InstrumentState::valid, 1}, {"T-1", 200, {}, InstrumentState::lapsed, 1}});
        Reading voided{5, 0, {}, "room", "air", "", "T-1", 1, "C", "", 150, "AB", 9};
        rows.set_reading_rows(1, {{1, 0, {}, "room", "air", "", "T-1", 1, "C", "", 199, "AB", {}}});
        rows.set_reading_rows(2, {{2, 0, {}, "room", "air", "", "T-1", 1, "C", "", 200, "AB", {}}});
        rows.set_reading_rows(3, {{3, 0, {}, "room", "air", "", "T-1", 1, "C", "", 99, "AB", {}}});
        rows.set_reading_rows(4, {{4, 0, {}, "room", "air", "", "", 1, "C", "", 150, "AB", {}}});
        rows.set_reading_rows(5, {voided});
        work.commit();
    }
    CHECK(one("SELECT group_concat(state) FROM (SELECT state FROM reading_in_force ORDER BY seq)") ==
          Cell{std::string("valid,lapsed,never-calibrated,none named")});
}
