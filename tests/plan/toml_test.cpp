// The TOML tree: values, order and positions. The grammar is TOML 1.0 (toml.io/en/v1.0.0).
#include "plan/toml.h"

#include <catch2/catch.hpp>

using namespace peelbook::plan;

namespace {

const TomlValue& at(const TomlValue& table, std::string_view key) {
    const TomlValue* value = table.find(key);
    REQUIRE(value != nullptr);
    return *value;
}

}  // namespace

TEST_CASE("each kind of value is told apart") {
    const TomlDocument d = parse_toml("a.toml",
                                      "text = \"x\"\nwhole = -7\nreal = 1.5\nflag = true\nday = 2026-11-24\n"
                                      "moment = 2026-11-24T05:40:00Z\nlist = [1, \"two\"]\ninline = { a = 1 }\n");
    REQUIRE_FALSE(d.broken);
    REQUIRE(at(d.root, "text").text == "x");
    REQUIRE(at(d.root, "whole").whole == -7);
    REQUIRE(at(d.root, "real").real == 1.5);
    REQUIRE(at(d.root, "flag").flag);
    REQUIRE(at(d.root, "day").is(TomlValue::Kind::date));
    REQUIRE(at(d.root, "day").text == "2026-11-24");
    REQUIRE(at(d.root, "moment").text == "2026-11-24T05:40:00Z");
    REQUIRE(at(d.root, "list").items.size() == 2);
    REQUIRE(at(d.root, "list").items[1].text == "two");
    REQUIRE(at(at(d.root, "inline"), "a").whole == 1);
    REQUIRE(d.root.find("missing") == nullptr);
}

TEST_CASE("keys keep the order of the file") {
    const TomlDocument d = parse_toml("a.toml", "zeta = 1\nalpha = 2\n[mid]\nb = 1\na = 2\n");
    REQUIRE(d.root.entries.size() == 3);
    REQUIRE(d.root.entries[0].key == "zeta");
    REQUIRE(d.root.entries[1].key == "alpha");
    REQUIRE(d.root.entries[2].key == "mid");
    REQUIRE(d.root.entries[2].value.entries[0].key == "b");
}

TEST_CASE("lines and columns count from one, columns in characters") {
    const TomlDocument d = parse_toml("a.toml", "\n  name = \"x\"\n\xC3\xA4 = { \"\xC3\xB6\" = 1, b = [ 2 ] }\n[[part]]\nid = 3\n");
    // The umlaut as a bare key is no TOML 1.0.
    REQUIRE(d.broken);
    REQUIRE(d.broken->at.line == 3);
    const TomlDocument e = parse_toml("a.toml", "\n  name = \"x\"\n\"\xC3\xA4\" = { \"\xC3\xB6\" = 1, b = [ 2 ] }\n[[part]]\nid = 3\n");
    REQUIRE_FALSE(e.broken);
    REQUIRE(e.root.entries[0].at == Position{2, 3});
    REQUIRE(e.root.entries[0].value.at == Position{2, 10});
    REQUIRE(e.root.entries[1].at == Position{3, 1});
    const TomlValue& table = e.root.entries[1].value;
    REQUIRE(table.at == Position{3, 7});
    REQUIRE(table.entries[0].value.at == Position{3, 15});
    REQUIRE(at(table, "b").at == Position{3, 22});
    REQUIRE(at(table, "b").items[0].at == Position{3, 24});
    REQUIRE(at(e.root, "part").items[0].at == Position{4, 1});
}

TEST_CASE("a syntax error is told with its place, and nothing is read") {
    const TomlDocument d = parse_toml("a.toml", "a = 1\nb = \n");
    REQUIRE(d.broken);
    REQUIRE(d.broken->at.line == 2);
    REQUIRE_FALSE(d.broken->what.empty());
    REQUIRE(d.root.entries.empty());
}

TEST_CASE("text that is no UTF-8 is a syntax error") {
    const TomlDocument d = parse_toml("a.toml", "a = \"\xFF\"\n");
    REQUIRE(d.broken);
    REQUIRE(d.broken->at.line == 1);
}

TEST_CASE("a key that stands twice is a syntax error") {
    const TomlDocument d = parse_toml("a.toml", "a = 1\na = 2\n");
    REQUIRE(d.broken);
    REQUIRE(d.broken->at.line == 2);
}

TEST_CASE("lines are handed back without their ends") {
    const TomlDocument d = parse_toml("a.toml", "a = 1\r\nb = 2\nc = 3");
    REQUIRE(d.line(1) == "a = 1");
    REQUIRE(d.line(2) == "b = 2");
    REQUIRE(d.line(3) == "c = 3");
    REQUIRE(d.line(4).empty());
    REQUIRE(d.line(0).empty());
}
