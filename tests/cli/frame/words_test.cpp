// How a replay file's line is taken apart: the quoting rules of cli/frame/words.h, which are those of the POSIX
// shell (XCU 2.2) for blanks, '...', "...", backslash and '#', without expansions.
#include "cli/frame/words.h"

#include <catch2/catch.hpp>

using peelbook::cli::split_words;
using Words = std::vector<std::string>;

TEST_CASE("words are parted by blanks, quotes keep them together") {
    CHECK(*split_words("  reading PAN-1\tbake-core 96.4C\r") == Words{"reading", "PAN-1", "bake-core", "96.4C"});
    CHECK(*split_words("hold A --why 'too warm' --by QA") == Words{"hold", "A", "--why", "too warm", "--by", "QA"});
    CHECK(*split_words(R"(x --why="too warm" 'a'"b"c)") == Words{"x", "--why=too warm", "abc"});
    CHECK(*split_words(R"("a \" b" "c \\ d" "e \n f")") == Words{"a \" b", "c \\ d", "e \\n f"});
    CHECK(*split_words(R"('a \ b' a\ b)") == Words{"a \\ b", "a b"});
    CHECK(*split_words("a '' \"\"") == Words{"a", "", ""});
}

TEST_CASE("a '#' begins a comment only where a word begins") {
    CHECK(*split_words("# nothing here") == Words{});
    CHECK(*split_words("due # of the night") == Words{"due"});
    CHECK(*split_words("lot A#1 '#2'") == Words{"lot", "A#1", "#2"});
}

TEST_CASE("an open quote is refused with the line") {
    const auto open = split_words("hold A --why 'too warm");
    REQUIRE_FALSE(open);
    CHECK(open.refusal().given == "'hold A --why 'too warm'");
    CHECK(open.refusal().wanted == "a closing '");
    CHECK_FALSE(split_words("a \""));
    CHECK_FALSE(split_words("a \\"));
}
