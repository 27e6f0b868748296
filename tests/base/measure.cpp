// Units, what people type, and shares.
#include "base/measure.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "said.h"

using namespace peelbook;

namespace {

std::int64_t canonical(std::string_view text) {
    const Result<Measure> measure = parse_measure(text);
    INFO(text);
    REQUIRE(measure);
    return measure->value;
}

std::string echoed(std::string_view text) {
    const Result<Measure> measure = parse_measure(text);
    INFO(text);
    REQUIRE(measure);
    return to_text(*measure);
}

constexpr int last_unit = static_cast<int>(Unit::rpm);

}  // namespace

// NIST Special Publication 811, appendix B.8: exact factors for pound, ounce, inch and degree Fahrenheit.
TEST_CASE("Exact factors of customary units") {
    CHECK(canonical("1lb") == 453'592);       // 453,592.37 mg
    CHECK(canonical("100lb") == 45'359'237);  // exact
    CHECK(canonical("200lb") == 90'718'474);  // exact
    CHECK(canonical("16oz") == 453'592);
    CHECK(canonical("1oz") == 28'350);  // 28,349.523125 mg
    CHECK(canonical("1in") == 25'400);
    CHECK(canonical("32F") == 0);
    CHECK(canonical("212F") == 100'000);
    CHECK(canonical("-40F") == -40'000);
    CHECK(canonical("70F") == 21'111);  // 21.1111...
    CHECK(canonical("41F") == 5'000);
    CHECK(canonical("135F") == 57'222);  // 57.2222...
    CHECK(canonical("0F") == -17'778);   // -17.7777... away from zero
    CHECK(canonical("200F") == 93'333);
}

// SI prefixes (BIPM SI Brochure, 9th edition, table 7) and units in use with the SI (table 8).
TEST_CASE("Decimal units") {
    CHECK(canonical("93.4C") == 93'400);
    CHECK(canonical("-18 C") == -18'000);
    CHECK(canonical("1mg") == 1);
    CHECK(canonical("12.5g") == 12'500);
    CHECK(canonical("90kg") == 90'000'000);
    CHECK(canonical("1.2t") == 1'200'000'000);
    CHECK(canonical("250ms") == 250);
    CHECK(canonical("2.5s") == 2'500);
    CHECK(canonical("10min") == 600'000);
    CHECK(canonical("2h") == 7'200'000);
    CHECK(canonical("30days") == 2'592'000'000);
    CHECK(canonical("2.5%") == 2'500);
    CHECK(canonical("5.6pH") == 5'600);
    CHECK(canonical("0.93aw") == 930'000);
    CHECK(canonical("7um") == 7);
    CHECK(canonical("1.5mm") == 1'500);
    CHECK(canonical("2cm") == 20'000);
    CHECK(canonical("1.5m") == 1'500'000);
    CHECK(canonical("3Pa") == 3);
    CHECK(canonical("1013.25hPa") == 101'325);
    CHECK(canonical("101.325kPa") == 101'325);
    CHECK(canonical("240pcs") == 240);
    CHECK(canonical("20ppm") == 20'000);
    CHECK(canonical("20mg/kg") == 20'000);                        // 1 mg in 10^6 mg: by definition of the SI prefixes
    CHECK(to_text(*parse_measure("19.9 mg/kg")) == "19.9mg/kg");  // shown back as it was typed
    CHECK(canonical("90rpm") == 90'000);
}

TEST_CASE("Halves are rounded away from zero") {
    CHECK(canonical("0.0005C") == 1);
    CHECK(canonical("-0.0005C") == -1);
    CHECK(canonical("0.0004C") == 0);
    CHECK(canonical("0.5mg") == 1);
    CHECK(to_text(500, Unit::celsius, 0) == "1C");
    CHECK(to_text(-500, Unit::celsius, 0) == "-1C");
    CHECK(to_text(-499, Unit::celsius, 0) == "0C");
    CHECK(to_text(21'111, Unit::celsius, 1) == "21.1C");
    CHECK(to_text(21'111, Unit::fahrenheit, 1) == "70.0F");
    CHECK(to_text(90'718'474, Unit::lb, 2) == "200.00lb");
    CHECK(to_canonical(70.0, Unit::fahrenheit) == 21'111);
    CHECK(to_canonical(93.4, Unit::celsius) == 93'400);
    CHECK(to_canonical(0.0005, Unit::celsius) == 1);
}

TEST_CASE("A measure is shown as it was typed") {
    for (const std::string text : {"93.4C", "200F", "-18C", "90kg", "200lb", "10min", "8h30min", "2h", "2.5%", "5.6pH", "0.93aw", "240pcs",
                                   "0.000001kg", "90s", "120min", "2min30s", "1h30min15s", "30d"}) {
        const bool minute_and_half = text == "90s";
        CHECK(echoed(text) == (minute_and_half ? "1min30s" : text));
    }
    CHECK(echoed(" 90 KG ") == "90kg");
    CHECK(echoed("4 \xC2\xB0"
                 "C") == "4C");
    CHECK(echoed("007.50 lbs") == "7.5lb");
    CHECK(echoed("1h 30 min") == "1h30min");
    CHECK(echoed("1d2h") == "26h");
    CHECK(parse_measure("8h30min")->unit == Unit::minute);
    CHECK(parse_measure("8h30min")->typed_micro == 510'000'000);
    CHECK(parse_measure("70F")->typed_micro == 70'000'000);
}

TEST_CASE("A bare number where only one unit can be meant") {
    CHECK(parse_measure("240", Dimension::pieces)->value == 240);
    CHECK(parse_measure("2.5", Dimension::percent)->unit == Unit::percent);
    CHECK(parse_measure("4.6", Dimension::ph)->value == 4'600);
    CHECK(parse_measure("0.85", Dimension::water_activity)->value == 850'000);
    CHECK(parse_duration("8h30min")->ms == 30'600'000);
    CHECK(parse_duration("15min")->ms == 900'000);
}

TEST_CASE("What a person typed wrong is answered in full") {
    const std::string again = " | type the number first, then the unit";
    const std::string wanted = " | a number with its unit, like 93.4C, 90kg or 8h30min";
    CHECK(said(parse_measure("")) == "''" + wanted + again);
    CHECK(said(parse_measure("warm")) == "'warm'" + wanted + again);
    CHECK(said(parse_measure("kg90")) == "'kg90'" + wanted + again);
    CHECK(said(parse_measure("-")) == "'-'" + wanted + again);
    CHECK(said(parse_measure("nan C")) == "'nan C'" + wanted + again);
    CHECK(said(parse_measure(".5kg")) == "'.5kg'" + wanted + again);
    CHECK(said(parse_measure("1,5kg")) == "'1,5kg' | a decimal point, no comma | type it with a point, like 1.5kg");
    CHECK(said(parse_measure("5.kg")) == "'5.kg' | digits after the decimal point | type it again, like 1.5kg");
    CHECK(said(parse_measure("1.0000001kg")) == "'1.0000001kg' | at most 6 decimals | round it or take a smaller unit");
    CHECK(said(parse_measure("90", Dimension::mass)) ==
          "'90' | a unit after the number: mg, g, kg, t, lb, oz | type the unit too, like 90kg");
    CHECK(said(parse_measure("93.4", Dimension::temperature)) == "'93.4' | a unit after the number: C, F | type the unit too, like 93.4C");
    CHECK(said(parse_measure("90")) ==
          "'90' | a unit after the number: C, F, mg, g, kg, t, lb, oz, ms, s, min, h, d, %, pH, aw, um, mm, "
          "cm, m, in, "
          "Pa, hPa, kPa, pcs, ppm, rpm, mg/kg | type the unit too, like 90kg");
    CHECK(said(parse_measure("90kgs", Dimension::mass)) ==
          "unit 'kgs' in '90kgs' | one of mg, g, kg, t, lb, oz | type it again with one of these units | kg");
    CHECK(said(parse_measure("8huors", Dimension::duration)) ==
          "unit 'huors' in '8huors' | one of ms, s, min, h, d | type it again with one of these units | hours");
    CHECK(said(parse_measure("90kg", Dimension::temperature)) == "'90kg', a mass | a temperature in C, F | check what is asked for");
    CHECK(said(parse_duration("10m")) == "'10m', a length | a duration in ms, s, min, h, d | check what is asked for");
    CHECK(said(parse_measure("30min8h")) ==
          "'30min8h' | one number and one unit; only a duration has parts, like 1d2h or 8h30min | type it "
          "again");
    CHECK(said(parse_measure("1kg500g")) ==
          "'1kg500g' | one number and one unit; only a duration has parts, like 1d2h or 8h30min | type it "
          "again");
    CHECK(said(parse_measure("8h-30min")) ==
          "'8h-30min' | one number and one unit; only a duration has parts, like 1d2h or 8h30min | type it "
          "again");
    CHECK(said(parse_measure("-3kg")) == "'-3kg' | a mass that is not negative | check the sign");
    CHECK(said(parse_measure("-10min")) == "'-10min' | a duration that is not negative | check the sign");
    CHECK(said(parse_measure("2.5pcs")) == "'2.5pcs' | a whole number of pieces | count whole pieces, or weigh the part");
    CHECK(said(parse_measure("1000000000001g")) == "'1000000000001g' | a number up to 10^12 | check the number and its unit");
    CHECK(said(parse_measure("99999999999999999999999999999999999999999999999999kg")) ==
          "'99999999999999999999999999999999999999999999999999kg' | a number up to 10^12 | check the number "
          "and its unit");
    CHECK(said(parse_measure("1000000000000t")) == "'1000000000000t' | at most 9007199t | check the number and its unit");
}

// Absolute zero is -273.15 C by the definition of the Celsius scale (SI Brochure, 9th edition, 2.3.1),
// -459.67 F.
TEST_CASE("Absolute zero is the lowest temperature") {
    CHECK(canonical("-273.15C") == -273'150);
    CHECK(canonical("-459.67F") == -273'150);
    const std::string rest = " | a temperature not below absolute zero (-273.15C, -459.67F) | check the number";
    CHECK(said(parse_measure("-273.150001C")) == "'-273.150001C'" + rest);
    CHECK(said(parse_measure("-459.670001F")) == "'-459.670001F'" + rest);
}

TEST_CASE("Every unit is known by its symbol in any letter case, and belongs to its dimension") {
    for (int i = 0; i <= last_unit; ++i) {
        const Unit unit = static_cast<Unit>(i);
        CHECK(unit_from_symbol(symbol(unit)) == unit);
        CHECK(unit_from_symbol(uppered(symbol(unit))) == unit);
        CHECK(unit_from_symbol(lowered(symbol(unit))) == unit);
        const auto symbols = symbols_of(dimension_of(unit));
        CHECK(std::count(symbols.begin(), symbols.end(), symbol(unit)) == 1);
        CHECK_FALSE(name_of(dimension_of(unit)).empty());
    }
    CHECK_FALSE(unit_from_symbol(""));
    CHECK_FALSE(unit_from_symbol("stone"));
}

// Property: what is shown can be typed again and is the same measure, value and unit and number.
TEST_CASE("Typed, shown and typed again is the same") {
    std::mt19937_64 random(20261124);
    for (int round = 0; round < 20'000; ++round) {
        const Unit unit = static_cast<Unit>(random() % (last_unit + 1));
        const std::int64_t whole = static_cast<std::int64_t>(random() % 10'000);
        const std::int64_t fraction = unit == Unit::pieces ? 0 : static_cast<std::int64_t>(random() % 1'000'000);
        const bool below_zero = dimension_of(unit) == Dimension::temperature && whole < 273 && random() % 2 == 0;
        const std::int64_t micro = (whole * 1'000'000 + (random() % 2 == 0 ? 0 : fraction)) * (below_zero ? -1 : 1);
        const std::string text = to_text(Measure{0, micro, unit});
        const Result<Measure> parsed = parse_measure(text);
        INFO(text);
        REQUIRE(parsed);
        REQUIRE(parsed->typed_micro == micro);
        REQUIRE(parsed->unit == unit);
        REQUIRE(to_text(*parsed) == text);
    }
}

// Property: a canonical value survives the trip through any unit fine enough to hold it.
TEST_CASE("Canonical to unit and back") {
    std::mt19937_64 random(7);
    for (int round = 0; round < 20'000; ++round) {
        const Unit unit = static_cast<Unit>(random() % (last_unit + 1));
        const std::int64_t value = static_cast<std::int64_t>(random() % 1'000'000'000);
        const Measure measure = measure_of(value, unit);
        const std::string text = to_text(measure);
        INFO(text);
        const Result<Measure> parsed = parse_measure(text);
        REQUIRE(parsed);
        // A millionth of a tonne is a gram, of a day 86 ms, of an hour 3.6 ms; the other units hold every
        // value.
        const std::int64_t step = unit == Unit::tonne ? 1'000 : unit == Unit::day ? 87 : unit == Unit::hour ? 4 : 1;
        REQUIRE(std::abs(parsed->value - value) < step);
        REQUIRE(std::abs(in_unit(value, unit) - static_cast<double>(measure.typed_micro) / 1e6) < 1e-5);
        REQUIRE(to_canonical(in_unit(value, unit), unit) - value < step);
    }
}

TEST_CASE("Masses in their shortest exact form") {
    CHECK(mass_text(90'000'000) == "90kg");
    CHECK(mass_text(1'250'000) == "1.25kg");
    CHECK(mass_text(12'500) == "12.5g");
    CHECK(mass_text(3) == "3mg");
    CHECK(mass_text(0) == "0kg");
    CHECK(mass_text(90'718'474) == "90.718474kg");
    CHECK(mass_text(999'999) == "999.999g");
    CHECK(mass_text(-1'250'000) == "-1.25kg");
}

// Property: the parts of any split sum to the whole, and none is more than a milligram off its exact share.
TEST_CASE("Shares of a mass sum to the whole") {
    CHECK(share_of(100, 0, 1, 3) + share_of(100, 1, 2, 3) + share_of(100, 2, 3, 3) == 100);
    CHECK(share_of(0, 0, 5, 5) == 0);
    std::mt19937_64 random(240);
    for (int round = 0; round < 2'000; ++round) {
        const std::int64_t pieces = static_cast<std::int64_t>(random() % 5'000) + 1;
        const std::int64_t total = static_cast<std::int64_t>(random() % 9'000'000'000'000'000);
        std::int64_t from = 0;
        std::int64_t sum = 0;
        while (from < pieces) {
            const std::int64_t to = from + 1 + static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(pieces - from));
            const std::int64_t share = share_of(total, from, to, pieces);
            const long double exact =
                static_cast<long double>(total) * static_cast<long double>(to - from) / static_cast<long double>(pieces);
            REQUIRE(std::abs(static_cast<long double>(share) - exact) < 1.001L);
            sum += share;
            from = to;
        }
        REQUIRE(sum == total);
    }
}
