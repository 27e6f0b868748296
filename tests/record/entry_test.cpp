// The canonical bytes of an entry: a worked example, the escapes, and what is refused.
#include "record/entry.h"

#include <catch2/catch.hpp>

using namespace peelbook;
using namespace peelbook::record;

namespace {

const std::string first_body =
    R"({"at":1795500000000,"by":"AB","format":1,"kind":"opened","says":{"name":"Example Bakery"},"seq":1,"written":1795500000000})";
const std::string second_body =
    R"({"at":1795502400000,"by":"AB","format":1,"kind":"reading","says":{"instrument":"T-2","note":"crust \"pale\"",)"
    R"("point":"bake-core","subject":"RYE-1124-1","unit":"oven-1","value":{"typed":"93.4C","value":93400}},"seq":2,)"
    R"("token":"k7","written":1795502460000})";

Entry first_entry() { return {1, {1795500000000}, {1795500000000}, "AB", "", Statement{Opened{"Example Bakery"}}}; }

Entry second_entry() {
    ReadingTaken reading{"RYE-1124-1", "bake-core", *parse_measure("93.4C"), "oven-1", "T-2", "crust \"pale\""};
    return {2, {1795502400000}, {1795502460000}, "AB", "k7", Statement{reading}};
}

// `body` with the first `from` replaced by `to`, read: what was wanted instead.
std::string wanted_of(std::string body, const std::string& from, const std::string& to) {
    const std::size_t at = body.find(from);
    REQUIRE(at != std::string::npos);
    body.replace(at, from.size(), to);
    const Result<Entry> read = from_body(body);
    return read ? "nothing: it was read" : read.refusal().wanted;
}

std::string body_with_note(const std::string& note) { return to_body({3, {0}, {0}, "AB", "", Statement{StepDone{"L", "mix", note}}}); }

}  // namespace

// The hashes were worked out with coreutils' sha256sum, over 32 zero bytes and the first body, and over that
// hash's 32 bytes and the second body:
//   (head -c 32 /dev/zero; printf '%s' "$body1") | sha256sum
//   (printf '%s' "$hash1" | xxd -r -p; printf '%s' "$body2") | sha256sum
TEST_CASE("Two entries worked out by hand") {
    CHECK(to_body(first_entry()) == first_body);
    CHECK(to_body(second_entry()) == second_body);
    const Hash first = chained(no_hash, first_body);
    CHECK(to_hex(first) == "5b5ae7ff36289109990a34bd0637d10c18f13e3bfe2dac8d363d882c5102cef9");
    CHECK(to_hex(chained(first, second_body)) == "fa0785bff5bd00a2cd5fb86fe9320d2f5adde57475c279ae03447a38ced2e4d4");
}

TEST_CASE("Reading the bytes gives back what was stated") {
    const Result<Entry> read = from_body(second_body);
    REQUIRE(read);
    CHECK(read->seq == 2);
    CHECK(read->happened.ms == 1795502400000);
    CHECK(read->written.ms == 1795502460000);
    CHECK(read->by == "AB");
    CHECK(read->token == "k7");
    const auto& reading = std::get<ReadingTaken>(std::get<Statement>(read->payload));
    CHECK(reading.subject == "RYE-1124-1");
    CHECK(reading.note == "crust \"pale\"");
    CHECK(reading.value == *parse_measure("93.4C"));
}

TEST_CASE("An amendment holds the whole new statement") {
    Amended amended{2, "read the wrong probe", std::get<Statement>(second_entry().payload), Instant{1795502000000}};
    std::get<ReadingTaken>(amended.statement).note.clear();
    const std::string body = to_body({3, {5}, {6}, "CD", "", amended});
    CHECK(body == R"({"at":5,"by":"CD","format":1,"kind":"amended","says":{"happened":1795502000000,"statement":{"kind":"reading",)"
                  R"("says":{"instrument":"T-2","point":"bake-core","subject":"RYE-1124-1","unit":"oven-1",)"
                  R"("value":{"typed":"93.4C","value":93400}}},"target":2,"why":"read the wrong probe"},"seq":3,"written":6})");
    const Result<Entry> read = from_body(body);
    REQUIRE(read);
    const auto& back = std::get<Amended>(read->payload);
    CHECK(back.target == 2);
    CHECK(back.happened == Instant{1795502000000});
    CHECK(kind_of(back.statement).name == "reading");
    CHECK(kind_of(read->payload).name == "amended");
}

TEST_CASE("What holds nothing is not written") {
    CHECK(to_body({1, {0}, {0}, "AB", "", Statement{Held{{}, "", {}}}}) ==
          R"({"at":0,"by":"AB","format":1,"kind":"held","says":{},"seq":1,"written":0})");
    CHECK(to_body({1, {0}, {0}, "AB", "", Statement{ServiceChanged{"T-2", false, "broken"}}}) ==
          R"({"at":0,"by":"AB","format":1,"kind":"service","says":{"instrument":"T-2","why":"broken"},"seq":1,"written":0})");
    const Result<Entry> out_of_service =
        from_body(R"({"at":0,"by":"AB","format":1,"kind":"service","says":{"instrument":"T-2"},"seq":1,"written":0})");
    REQUIRE(out_of_service);
    CHECK_FALSE(std::get<ServiceChanged>(std::get<Statement>(out_of_service->payload)).in_service);
}

// RFC 8785, section 3.2.2.2 (string of the sample in 3.2.2): the short escapes, lower-case \u00xx for other
// control characters, everything else as it is, the solidus among them.
TEST_CASE("Strings are escaped as RFC 8785 says") {
    const std::string sample = "\u20ac$\x0f\nA'B\"\\\\\"/";
    const std::string body = body_with_note(sample);
    CHECK(body.find("\"note\":\"\u20ac$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"") != std::string::npos);
    CHECK(body_with_note("\b\t\n\f\r").find(R"("note":"\b\t\n\f\r")") != std::string::npos);
    CHECK(body_with_note(std::string("\x1f\x7f")).find("\"note\":\"\\u001f\x7f\"") != std::string::npos);
    const Result<Entry> read = from_body(body);
    REQUIRE(read);
    CHECK(std::get<StepDone>(std::get<Statement>(read->payload)).note == sample);
}

TEST_CASE("Bytes that are not canonical are refused with what was wanted") {
    CHECK(wanted_of(first_body, "\"by\":", "\"by\": ") == "the one canonical form; byte 26 is the first that differs from it");
    CHECK(wanted_of(first_body, "Bakery", "\\u0042akery") == "the one canonical form; byte 82 is the first that differs from it");
    CHECK(wanted_of(first_body, "\"seq\":1", "\"seq\":-0") == "the one canonical form; byte 97 is the first that differs from it");
    CHECK(wanted_of(first_body, "\"at\":1795500000000,\"by\":\"AB\"", "\"by\":\"AB\",\"at\":1795500000000") ==
          "keys in byte order, and 'at' follows 'by'");
    CHECK(wanted_of(first_body, "\"by\":\"AB\"", "\"by\":\"AB\",\"by\":\"CD\"") == "each key once, and 'by' stands twice");
    CHECK(wanted_of(second_body, "\"token\":\"k7\"", "\"token\":\"\"") ==
          "the one canonical form; byte 219 is the first that differs from it");
    CHECK(wanted_of(first_body, "}", "} ") == "the one canonical form; byte 90 is the first that differs from it");
}

TEST_CASE("Numbers that not every reader holds exactly are refused") {
    // RFC 7493, section 2.2: integers of magnitude up to 2^53 - 1 are exact everywhere.
    CHECK(wanted_of(first_body, "1795500000000", "1795500000000.5") ==
          "whole numbers below 2^53 only, and '1795500000000.5' is not (at 'at')");
    CHECK(wanted_of(first_body, "1795500000000", "1e3") == "whole numbers below 2^53 only, and '1e3' is not (at 'at')");
    CHECK(wanted_of(first_body, "1795500000000", "9007199254740992") == "numbers below 2^53 (at 'at')");
    CHECK(wanted_of(first_body, "1795500000000", "-9007199254740992") == "numbers below 2^53 (at 'at')");
    CHECK(wanted_of(first_body, "1795500000000", "9007199254740991") == "nothing: it was read");
    CHECK(wanted_of(first_body, "1795500000000", "null") == "no null (at 'at')");
    CHECK_THROWS_AS(to_body({1, {std::int64_t{1} << 53}, {0}, "AB", "", Statement{Opened{"E"}}}), std::logic_error);
}

TEST_CASE("Bytes that are not JSON in UTF-8 are refused") {
    // RFC 3629: an overlong form, half of a surrogate pair, a sequence cut short.
    for (const std::string bad : {"\xc0\xaf", "\xed\xa0\x80", "\xe2\x82"})
        CHECK(wanted_of(first_body, "Bakery", bad).starts_with("valid JSON in UTF-8; it breaks off at byte "));
    CHECK(wanted_of(first_body, "Bakery", "\\ud800").starts_with("valid JSON in UTF-8; it breaks off at byte "));
    CHECK(wanted_of(first_body, "}", "").starts_with("valid JSON in UTF-8; it breaks off at byte "));
    CHECK_FALSE(from_body(""));
    CHECK_THROWS_AS(body_with_note("\xc0\xaf"), std::logic_error);
}

TEST_CASE("What the program does not know is refused, never passed over") {
    CHECK(wanted_of(first_body, "\"opened\"", "\"unheard-of\"") == "a known kind of entry, and 'unheard-of' is none");
    CHECK(wanted_of(first_body, "\"format\":1", "\"format\":2") == "format 1, and it is 2");
    CHECK(wanted_of(first_body, "\"name\":", "\"city\":\"X\",\"name\":") == "known keys only in 'says': 1 of its 2 are not");
    CHECK(wanted_of(first_body, "\"by\":\"AB\"", "\"by\":\"AB\",\"colour\":\"red\"") == "known keys only in '': 1 of its 8 are not");
    CHECK(wanted_of(first_body, "\"written\":1795500000000", "\"x\":1") == "the key 'written'");
    CHECK(wanted_of(first_body, "\"AB\"", "7") == "a text at 'by', and it is a whole number");
    CHECK(wanted_of(second_body, "\"value\":{\"typed\":\"93.4C\",\"value\":93400}", "\"value\":93400") ==
          "an object at 'value', and it is a whole number");
    CHECK(wanted_of(second_body, ",\"value\":{\"typed\":\"93.4C\",\"value\":93400}", "") == "the key 'value'");
}

TEST_CASE("A measure means what was typed") {
    CHECK(wanted_of(second_body, "93.4C", "93.4 grades") == "a measure at 'value', and '93.4 grades' is none");
    CHECK(wanted_of(second_body, "93400", "93500") == "a value that '93.4C' means at 'value', and it is 93500");
    // The rest of a lot in a unit that does not divide it: the integer counts, the text is it, rounded.
    const Measure rest = measure_of(1'234'567'891, Unit::tonne);
    const Result<Entry> read = from_body(to_body({1, {0}, {0}, "AB", "", Statement{Finished{"L", 0, rest, ""}}}));
    REQUIRE(read);
    CHECK(std::get<Finished>(std::get<Statement>(read->payload)).mass->value == 1'234'567'891);
}

TEST_CASE("A refusal of bytes says what was given and what to do") {
    const Result<Entry> read = from_body("{}");
    REQUIRE_FALSE(read);
    CHECK(read.refusal().given == "an entry of 2 bytes");
    CHECK(read.refusal().wanted == "the key 'format'");
    CHECK(read.refusal().next == "these bytes were not written by this program, or by a later one");
}
