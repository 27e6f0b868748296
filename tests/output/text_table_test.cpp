#include "output/text_table.h"

#include <catch2/catch.hpp>
#include <sstream>

using namespace peelbook;
using namespace peelbook::output;

TEST_CASE("A text table puts text left and numbers right") {
    const Table table{{"lot", "kg", "note"}, {{"RYE-1", 90.5, "old dough"}, {"WHEAT-12", 1200LL, {}}, {"S-3", {}, "held"}}};
    CHECK(text_table(table) ==
          "lot         kg  note\n"
          "--------  ----  ---------\n"
          "RYE-1     90.5  old dough\n"
          "WHEAT-12  1200\n"
          "S-3             held\n");
    CHECK(text_table(table, {.indent = 2, .headings = false}) ==
          "  RYE-1     90.5  old dough\n"
          "  WHEAT-12  1200\n"
          "  S-3             held\n");
    CHECK(text_table(table, {"Lot", "Mass, kg", "Note"}, {}) ==
          "Lot       Mass, kg  Note\n"
          "--------  --------  ---------\n"
          "RYE-1         90.5  old dough\n"
          "WHEAT-12      1200\n"
          "S-3                 held\n");
    CHECK(text_table(Table{}) == "");
    CHECK(text_table(Table{{"a"}, {}}) == "a\n-\n");
}

TEST_CASE("Columns are as wide as what a person sees") {
    // Widths from Unicode 15.0 EastAsianWidth.txt: U+7C73 is W (two cells); U+0308 is Mn (none).
    CHECK(display_width("Br\xc3\xb6tchen") == 8);
    CHECK(display_width("Bro\xcc\x88tchen") == 8);
    CHECK(display_width("\xe7\xb1\xb3") == 2);
    CHECK(display_width("\xff") == 1);
    const Table table{{"name", "n"}, {{"\xe7\xb1\xb3\xe7\xb2\x89", 1LL}, {"Br\xc3\xb6t", 2LL}}};
    CHECK(text_table(table, {.headings = false}) == "\xe7\xb1\xb3\xe7\xb2\x89  1\nBr\xc3\xb6t  2\n");
}

TEST_CASE("A terminal is sent nothing that it would obey") {
    const Table table{{"note"}, {{"red\x1b[31m bell\a caf\xe9"}}};
    CHECK(text_table(table, {.headings = false}) == "red?[31m bell? caf?\n");
}

TEST_CASE("Long text is cut where that is asked for, and says so") {
    const Table table{{"note"}, {{"twelve chars"}, {"thirteen char"}}};
    CHECK(text_table(table, {.most_width = 12, .headings = false}) == "twelve chars\nthirteen ...\n");
}

TEST_CASE("A table from columns is as wide as its cells and its headings") {
    const auto column = [](const char* heading, std::initializer_list<const char*> cells, bool right) {
        TextColumn made(heading, 10);
        for (const char* cell : cells) made.add(cell);
        made.right = right;
        return made;
    };
    std::ostringstream out;
    write_text_table(out, {column("lot", {"A", "LONGER-1"}, false), column("n", {"1", "1200"}, true)}, {.indent = 1});
    CHECK(out.str() ==
          " lot          n\n"
          " --------  ----\n"
          " A            1\n"
          " LONGER-1  1200\n");
}

TEST_CASE("Pairs line up") { CHECK(text_pairs({{"site", "Brook"}, {"entries", "12"}}, 2) == "  site     Brook\n  entries  12\n"); }

TEST_CASE("Text is broken at blanks") {
    CHECK(wrapped("cool to 21 C within two hours", 12) == std::vector<std::string>{"cool to 21 C", "within two", "hours"});
    CHECK(wrapped("one\ntwo", 10) == std::vector<std::string>{"one", "two"});
    CHECK(wrapped("unbreakablelongword a", 5) == std::vector<std::string>{"unbreakablelongword", "a"});
}
