// Text tools and the cells of a table.
#include "base/text.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "base/table.h"
#include "said.h"

using namespace peelbook;
using Names = std::vector<std::string>;

TEST_CASE("Trimming, splitting, joining and letter case") {
    CHECK(trimmed(" \t rye flour\r\n") == "rye flour");
    CHECK(trimmed("  ") == "");
    CHECK(split("a,,b,", ',') == Names{"a", "", "b", ""});
    CHECK(split("", ',') == Names{""});
    CHECK(joined({"a", "", "b"}, ", ") == "a, , b");
    CHECK(joined({}, ", ") == "");
    CHECK(lowered("Rye-7 \xC3\x84") == "rye-7 \xC3\x84");
    CHECK(uppered("rye-7 \xC3\xA4") == "RYE-7 \xC3\xA4");
}

// RFC 3629, sections 3, 4 and 7: the well-formed sequences at the edges of each length, and the forms it
// forbids.
TEST_CASE("UTF-8 as RFC 3629 defines it") {
    const Names well_formed{
        "",
        "flour",
        "\x7F",
        "\xC2\x80",
        "\xDF\xBF",
        "\xE0\xA0\x80",
        "\xED\x9F\xBF",
        "\xEE\x80\x80",
        "\xEF\xBF\xBF",
        "\xF0\x90\x80\x80",
        "\xF4\x8F\xBF\xBF",
        "A\xE2\x89\xA2\xCE\x91.",                // section 7, first example
        "\xE6\x97\xA5\xE6\x9C\xAC\xE8\xAA\x9E",  // section 7, third example
        "\xEF\xBB\xBF\xF0\xA3\x8E\xB4",          // section 7, fourth example
    };
    for (const std::string& text : well_formed) CHECK(is_utf8(text));
    CHECK(is_utf8(std::string_view("a\0b", 3)));

    const Names broken{
        "\x80",
        "\xBF",
        "abc\x80",  // continuation without a lead
        "\xC0\x80",
        "\xC1\xBF",
        "\xE0\x9F\xBF",
        "\xF0\x8F\xBF\xBF",  // overlong
        "\xED\xA0\x80",
        "\xED\xBF\xBF",  // surrogates D800 and DFFF
        "\xF4\x90\x80\x80",
        "\xF5\x80\x80\x80",
        "\xFF",  // beyond U+10FFFF
        "\xC3",
        "\xE2\x89",
        "\xF0\x90\x80",  // cut off
        "\xC3(",
        "\xE2(\xA1",
        "\xE2\x82(",
        "\xF0\x90\x80(",
    };
    for (const std::string& text : broken) {
        INFO(text.size());
        CHECK_FALSE(is_utf8(text));
    }
}

TEST_CASE("Free text") {
    CHECK(said(check_text("note", "crust too pale, 4\xC2\xB0 low", longest_note, true)) == "(accepted)");
    CHECK(said(check_text("note", "", longest_note, false)) == "(accepted)");
    CHECK(said(check_text("reason", "  ", longest_note, true)) == "an empty reason | a reason that says something | type the reason");
    CHECK(said(check_text("note", "oven\x1B[2J", longest_note, true)) ==
          "note 'oven?[2J' | one line of text without tabs or other control characters | type it again on "
          "one line");
    CHECK(said(check_text("note", "a\nb", longest_note, true)) ==
          "note 'a?b' | one line of text without tabs or other control characters | type it again on one line");
    CHECK(said(check_text("note", "a\xC2\x85", longest_note, true)) ==
          "note 'a?' | one line of text without tabs or other control characters | type it again on one line");
    CHECK(said(check_text("name", "M\xFCller", longest_name, true)) ==
          "name 'M?ller' | valid UTF-8 text | type it again, or save the file it came from as UTF-8");
    CHECK(said(check_text("name", std::string(120, 'x'), longest_name, true)) == "(accepted)");
    CHECK(said(check_text("name", std::string(121, 'x'), longest_name, true)) == "name of 121 bytes | at most 120 bytes | shorten it");
    CHECK(shown(std::string(80, 'x')) == std::string(60, 'x') + "...");
}

TEST_CASE("Codes") {
    CHECK(said(check_code("lot", "F-2026/11_a.7#2")) == "(accepted)");
    CHECK(said(check_code("lot", std::string(60, 'A'))) == "(accepted)");
    CHECK(said(check_code("lot", std::string(61, 'A'))) == "lot of 61 characters | 1 to 60 characters | shorten it");
    CHECK(said(check_code("lot", "")) == "an empty lot | 1 to 60 characters | type the lot");
    for (const std::string code : {"F 12", "F:12", "F\xC3\xBC", "a'b", "a*"})
        CHECK(said(check_code("lot", code)) ==
              "lot '" + code + "' | letters A-Z a-z, digits and - _ . / # only | leave out spaces and other signs");
}

// Restricted Damerau-Levenshtein distance; the pairs are the ones that textbooks use (from memory), counted
// by hand.
TEST_CASE("Edit distance") {
    CHECK(edit_distance("kitten", "sitting") == 3);
    CHECK(edit_distance("saturday", "sunday") == 3);
    CHECK(edit_distance("flaw", "lawn") == 2);
    CHECK(edit_distance("ca", "abc") == 3);
    CHECK(edit_distance("R-12", "R-21") == 1);
    CHECK(edit_distance("rye", "RYE") == 0);
    CHECK(edit_distance("", "rye") == 3);
    CHECK(edit_distance("", "") == 0);
}

TEST_CASE("The nearest known names") {
    const Names lots{"RYE-101", "RYE-102", "WHEAT-7", "MALT-3", "RYE-110"};
    CHECK(nearest("rye-101", lots, 1) == Names{"RYE-101"});
    CHECK(nearest("RYE-1O1", lots) == Names{"RYE-101", "RYE-102", "RYE-110"});
    CHECK(nearest("RYE-011", lots, 2) == Names{"RYE-101", "RYE-102"});
    CHECK(nearest("WHAET-7", lots) == Names{"WHEAT-7"});
    CHECK(nearest("whe", lots) == Names{"WHEAT-7"});
    CHECK(nearest("BUTTER", lots).empty());
    CHECK(nearest("", lots).empty());
    CHECK(nearest("RYE-101", {}).empty());
}

TEST_CASE("Cells of a table as text") {
    CHECK(to_text(Cell{}) == "");
    CHECK(to_text(Cell{std::numeric_limits<std::int64_t>::min()}) == "-9223372036854775808");
    CHECK(to_text(Cell{0.1}) == "0.1");
    CHECK(to_text(Cell{2.5}) == "2.5");
    CHECK(to_text(Cell{std::string("rye")}) == "rye");
}
