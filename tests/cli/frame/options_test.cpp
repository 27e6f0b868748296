// What a command line fills in, and whole messages where it cannot.
#include "cli/frame/options.h"

#include <catch2/catch.hpp>

using namespace peelbook;
using namespace peelbook::cli;

namespace {

struct Filled {
    std::string lot, into, why, status;
    std::vector<std::string> contains, parts;
    Amount amount;
    std::int64_t pieces = 0;
    std::optional<Measure> mass, temperature;
    std::optional<Date> date;
    bool possible = false;
};

Options options_of(Filled& f) {
    Options options;
    options.word(f.lot, "LOT", "the lot that goes in")
        .amount(f.amount, "AMOUNT", "how much", Need::optional)
        .text(f.into, "--into", "BATCH", "the batch it goes into", Need::wanted)
        .text(f.why, "--why", "TEXT", "the reason")
        .list(f.contains, "--contains", "allergens")
        .each(f.parts, "--part", "RACK=AMOUNT", "a rack")
        .pieces(f.pieces, "--pieces", "how many")
        .mass(f.mass, "--mass", "how much")
        .temperature(f.temperature, "--temperature", "at the door")
        .date(f.date, "--date", "the date")
        .one_of(f.status, "--status", {"accepted", "held", "refused"}, "what became of it")
        .flag(f.possible, "--possible", "nobody is sure");
    return options;
}

Filled filled(const std::vector<std::string>& words) {
    Filled f;
    const Check checked = options_of(f).parse(words);
    if (!checked.ok()) FAIL(checked.refusal().given + " / " + checked.refusal().wanted);
    return f;
}

std::string message(const std::vector<std::string>& words) {
    Filled f;
    const Check checked = options_of(f).parse(words);
    if (checked.ok()) return "taken";
    const Refusal& refusal = checked.refusal();
    std::string text = refusal.given + " | " + refusal.wanted + " | " + refusal.next;
    for (const std::string& name : refusal.nearest) text += " | " + name;
    return text;
}

}  // namespace

TEST_CASE("words and options are filled in, in any order") {
    const Filled f =
        filled({"--into",   "PAN-1",  "F-1", "--possible", "90kg", "--why=not weighed", "--contains", "wheat, milk", "--contains",
                "egg",      "--part", "A=4", "--part",     "B",    "--pieces",          "12",         "--date",      "2026-11-23",
                "--status", "held"});
    CHECK(f.lot == "F-1");
    CHECK(f.into == "PAN-1");
    CHECK(f.why == "not weighed");
    CHECK(f.possible);
    CHECK(f.amount.mass->value == 90'000'000);  // milligrams
    CHECK(f.contains == std::vector<std::string>{"wheat", "milk", "egg"});
    CHECK(f.parts == std::vector<std::string>{"A=4", "B"});
    CHECK(f.pieces == 12);
    CHECK(f.date == Date{2026, 11, 23});
    CHECK(f.status == "held");
}

TEST_CASE("a negative number is a value, not an option") {
    CHECK(filled({"F-1", "--into", "B", "--temperature", "-18C"}).temperature->value == -18'000);
    CHECK(filled({"F-1", "--into", "B", "--temperature=-18.5C"}).temperature->value == -18'500);
    CHECK(filled({"F-1", "--into", "B", "--why", "-5C in the van"}).why == "-5C in the van");
    std::string subject, value;
    Options two;
    two.word(subject, "SUBJECT", "of what").word(value, "VALUE", "the value");
    REQUIRE(two.parse({"freezer", "-18C"}).ok());
    CHECK(value == "-18C");
}

TEST_CASE("texts arrive as typed: empty, in brackets, with signs, in UTF-8") {
    CHECK(filled({"F-1", "--into", "B", "--why", ""}).why == "");
    CHECK(filled({"F-1", "--into", "B", "--why", "[a,b]"}).why == "[a,b]");
    CHECK(filled({"F-1", "--into", "B", "--why", "{x} %% = \"y\" 'z'"}).why == "{x} %% = \"y\" 'z'");
    CHECK(filled({"F-1", "--into", "B", "--why", "Gär­korb ß"}).why == "Gär­korb ß");
    CHECK(filled({"--into", "B", "--", "F-1"}).lot == "F-1");
}

TEST_CASE("the word rest stands for all that is left") {
    CHECK(filled({"F-1", "rest", "--into", "B"}).amount.rest);
    CHECK(filled({"F-1", "12pcs", "--into", "B"}).amount.pieces == 12);
}

TEST_CASE("what is missing is named with what it is for") {
    CHECK(message({"--into", "B"}) == "no LOT | the lot that goes in | add LOT; see the command's --help");
    CHECK(message({"F-1"}) == "no --into | the batch it goes into | add --into BATCH; see the command's --help");
    CHECK(message({"F-1", "--into"}) == "--into without a value | the batch it goes into | type it as --into BATCH");
    CHECK(message({"F-1", "--into", "--possible"}) == "--into without a value | the batch it goes into | type it as --into BATCH");
}

TEST_CASE("what is too much or unknown is named") {
    CHECK(message({"F-1", "--into", "A", "--into", "B"}) == "--into given 2 times | --into once | leave one of them out");
    CHECK(message({"F-1", "--into", "B", "--posible"}) ==
          "option '--posible' | an option of this command | see the command's --help | --possible");
    CHECK(message({"F-1", "90kg", "PAN", "--into", "B"}) ==
          "'PAN' | no further word here | put text with spaces in quotes, and a value behind its option");
    CHECK(message({"F-1", "--into", "B", "--possible=maybe"}) == "--possible with a value | --possible alone | leave the value out");
    CHECK(message({"F-1", "-z", "--into", "B"}) == "option '-z' | an option of this command | see the command's --help");
}

TEST_CASE("a value that does not fit is refused under its option's name") {
    CHECK(message({"F-1", "--into", "B", "--pieces", "-3"}) == "--pieces: '-3' | a whole number of pieces from 1 | type digits only");
    CHECK(message({"F-1", "--into", "B", "--pieces", "0"}) == "--pieces: '0' | a whole number of pieces from 1 | type digits only");
    CHECK(message({"F-1", "--into", "B", "--status", "hold"}) ==
          "--status: 'hold' | one of accepted, held, refused | type one of these words | held");
    const auto starts = [](const std::string& text, const std::string& with) { return text.starts_with(with); };
    CHECK(starts(message({"F-1", "--into", "B", "--mass", "90"}), "--mass: "));
    CHECK(starts(message({"F-1", "--into", "B", "--mass", "90C"}), "--mass: "));
    CHECK(starts(message({"F-1", "--into", "B", "--mass", "-90kg"}), "--mass: "));
    CHECK(starts(message({"F-1", "--into", "B", "--date", "2026-02-30"}), "--date: "));
    CHECK(starts(message({"F-1", "cold", "--into", "B"}), "AMOUNT: "));
}

TEST_CASE("parts: a code and how much of it") {
    CHECK(parse_part_amount("40")->pieces == 40);
    CHECK(parse_part_amount("12.5kg")->mass->value == 12'500'000);
    CHECK(parse_part_amount("rest")->rest);
    CHECK_FALSE(parse_part_amount("0"));
    CHECK_FALSE(parse_part_amount("93C"));
}
