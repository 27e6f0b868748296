// Source: RFC 4180, section 2, rules 1 to 7.
#include "output/csv.h"

#include <catch2/catch.hpp>

using namespace peelbook;
using namespace peelbook::output;

TEST_CASE("CSV as RFC 4180 writes it") {
    SECTION("RFC 4180, rules 1 to 4: CR LF, a header line, commas, blanks kept") {
        CHECK(to_csv({{"aaa", "bbb", "ccc"}, {{"zzz", " yyy ", 7LL}, {0.1, {}, -1.5}}}) == "aaa,bbb,ccc\r\nzzz, yyy ,7\r\n0.1,,-1.5\r\n");
    }
    SECTION("RFC 4180, rules 5 to 7: line breaks, quotes and commas in quotes, quotes doubled") {
        CHECK(to_csv({{"aaa", "bbb", "ccc"}, {{"a\"aa", "b\r\nbb", "c,c"}}}) == "aaa,bbb,ccc\r\n\"a\"\"aa\",\"b\r\nbb\",\"c,c\"\r\n");
    }
    SECTION("a line of one empty field is not an empty line") { CHECK(to_csv({{"note"}, {{{}}, {""}}}) == "note\r\n\"\"\r\n\"\"\r\n"); }
    SECTION("cells are unchanged") { CHECK(to_csv({{"note"}, {{"=1+1"}}}) == "note\r\n=1+1\r\n"); }
    SECTION("numbers read back the same") {
        CHECK(to_csv({{"n"}, {{0.1 + 0.2}, {std::int64_t{9'007'199'254'740'993}}}}) == "n\r\n0.30000000000000004\r\n9007199254740993\r\n");
    }
}
