// schema/ and rows.h say the same, and schema/ says it to people too.
#include <catch2/catch.hpp>
#include <regex>
#include <set>

#include "support.h"

using namespace peelbook;
using namespace peelbook::book;

namespace {

struct Schema {
    Book book = Book::in_memory();

    std::vector<std::string> texts(const std::string& sql, const std::string& table = "") {
        const Result<Table> found = book.query(sql, {{"table", table}});
        REQUIRE(found);
        std::vector<std::string> all;
        for (const auto& row : found->rows) all.push_back(to_text(row.at(0)));
        return all;
    }
};

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::size_t from = 0;
    for (std::size_t at; (at = text.find('\n', from)) != std::string::npos; from = at + 1) lines.push_back(text.substr(from, at - from));
    return lines;
}

int count_of(const std::string& text, const std::string& part) {
    int count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
    return count;
}

}  // namespace

TEST_CASE_METHOD(Schema, "Every derived table is that of its struct, column by column") {
    const auto tables = texts("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT IN ('entry', 'attachment')");
    auto structs = Book::derived_tables();
    CHECK(std::set<std::string>(tables.begin(), tables.end()) == std::set<std::string>(structs.begin(), structs.end()));
    for (const std::string& table : structs) {
        const std::string sql = texts("SELECT sql FROM sqlite_master WHERE name = :table", table).at(0);
        std::vector<std::string> columns;
        for (const std::string& line : lines_of(sql)) {
            std::smatch match;
            if (!std::regex_search(line, match, std::regex("^    ([a-z0-9_]+) +(INTEGER|TEXT|BLOB)"))) continue;
            columns.push_back(match[1]);
            INFO(table << ": " << line);
            CHECK(line.find("-- ") != std::string::npos);  // each column says what it is
        }
        INFO(table);
        CHECK(columns == book.whole_table(table).columns);
    }
}

TEST_CASE_METHOD(Schema, "Tables are strict and their checks have names") {
    for (const std::string& sql : texts("SELECT sql FROM sqlite_master WHERE type = 'table'")) {
        INFO(sql);
        CHECK(sql.find("STRICT") != std::string::npos);
        CHECK(count_of(sql, "CHECK (") == count_of(sql, "CONSTRAINT "));
    }
}

TEST_CASE_METHOD(Schema, "An empty book breaks no rule") { CHECK(verify(book).empty()); }
