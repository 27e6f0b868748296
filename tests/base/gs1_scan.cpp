// Scans of GS1 symbols. Sources: GS1 General Specifications (sections beside the checks), the GS1 Barcode
// Syntax Dictionary, and the vectors of its linters.
#include "base/gs1_scan.h"

#include <catch2/catch.hpp>

#include "base/gs1.h"
#include "said.h"

using namespace peelbook;

namespace {

constexpr Date today{2026, 11, 24};

Result<Gs1Scan> read(const std::string& symbol) { return read_gs1_scan({symbol}, today); }
std::string date_of(std::string_view text) { return to_text(*parse_gs1_date(text, today)); }

}  // namespace

TEST_CASE("Dates as YYMMDD: day 00 is the last day of the month") {
    // Linter yymmd0 of the syntax dictionary: what passes and what fails; day 00 as GenSpecs 3.4.2 to 3.4.7
    // say.
    CHECK(date_of("200229") == "2020-02-29");
    CHECK(date_of("200200") == "2020-02-29");
    CHECK(date_of("210200") == "2021-02-28");
    CHECK(date_of("200400") == "2020-04-30");
    CHECK(date_of("201200") == "2020-12-31");
    CHECK(date_of("200100") == "2020-01-31");
    const std::string day = " | a day that the month has, or 00 for its last | read the date on the goods and type it";
    CHECK(said(parse_gs1_date("200230", today)) == "date '200230'" + day);
    CHECK(said(parse_gs1_date("200431", today)) == "date '200431'" + day);
    CHECK(said(parse_gs1_date("210229", today)) == "date '210229'" + day);
    const std::string month = " | a month from 01 to 12 in the middle (YYMMDD) | read the date on the goods and type it";
    CHECK(said(parse_gs1_date("201310", today)) == "date '201310'" + month);
    CHECK(said(parse_gs1_date("200010", today)) == "date '200010'" + month);
}

TEST_CASE("The century of a two-digit year") {
    // GenSpecs 7.12: 51 and more above the current year is the last century, 50 and more below the next.
    CHECK(date_of("760101") == "2076-01-01");                                 // 76 - 26 = 50: this century
    CHECK(date_of("770101") == "1977-01-01");                                 // 51
    CHECK(date_of("000101") == "2000-01-01");                                 // -26
    CHECK(to_text(*parse_gs1_date("450101", {2094, 1, 1})) == "2045-01-01");  // 45 - 94 = -49
    CHECK(to_text(*parse_gs1_date("440101", {2094, 1, 1})) == "2144-01-01");  // -50
    CHECK_FALSE(parse_gs1_date("000229", {2094, 1, 1}));                      // 2100 is no leap year
}

TEST_CASE("Net mass: the last digit of the identifier counts decimals") {
    // GenSpecs 3.6.2; the article is the syntax dictionary's GTIN-14.
    const auto scan = read("(01)12345678901231(3103)001250");
    REQUIRE(scan);
    CHECK(scan->net_mass->value == 1'250'000);  // mg
    CHECK(to_text(*scan->net_mass) == "1.25kg");
    CHECK(read("(01)12345678901231(3100)001250")->net_mass->value == 1'250'000'000);
    CHECK(read("(01)12345678901231(3105)000001")->net_mass->value == 10);
    CHECK(read("(01)12345678901231(3201)000010")->net_mass->value == 453'592);  // 1 lb = 453.59237 g
}

TEST_CASE("The same label with FNC1, with a symbology identifier and in brackets") {
    const std::string with_fnc1 =
        "0112345678901231"
        "3103001250"
        "10B-20\x1D"
        "15271200"
        "30"
        "12";
    for (const std::string& symbol : {with_fnc1, "]C1" + with_fnc1, "]d2" + with_fnc1, "]Q3" + with_fnc1, "\x1D" + with_fnc1,
                                      std::string("(01)12345678901231(3103)001250(10)B-20(15)271200(30)12"),
                                      std::string("[01]12345678901231[3103]001250[10]B-20[15]271200[30]12")}) {
        const auto scan = read(symbol);
        INFO(symbol);
        REQUIRE(scan);
        CHECK(scan->gtin == "12345678901231");
        CHECK(scan->lot == "B-20");
        CHECK(scan->best_before == Date{2027, 12, 31});
        CHECK(scan->count == 12);
        CHECK(scan->net_mass->value == 1'250'000);
        CHECK(scan->elements.size() == 5);
    }
}

TEST_CASE("Every identifier that fills something in") {
    const auto pallet = read_gs1_scan({"(00)106141412345678908(02)12345678901231(37)48", "(10)L7(11)261120(13)261121(17)261231(21)S9",
                                       "(410)6291041500213(412)6291041500213(417)6291041500213"},
                                      today);
    REQUIRE(pallet);
    CHECK(pallet->sscc == "106141412345678908");
    CHECK(pallet->content_gtin == "12345678901231");
    CHECK(pallet->contained == 48);
    CHECK(pallet->lot == "L7");
    CHECK(pallet->serial == "S9");
    CHECK(pallet->produced == Date{2026, 11, 20});
    CHECK(pallet->packed == Date{2026, 11, 21});
    CHECK(pallet->use_by == Date{2026, 12, 31});
    for (const int ai : {410, 412, 417}) CHECK(pallet->places.at(ai) == "6291041500213");
    // A value may hold brackets; the set of characters is GenSpecs fig. 7.11-1.
    CHECK(read("(01)12345678901231(10)A(2)b")->lot == "A(2)b");
    CHECK(read("(01)12345678901231(10)A(99)x")->elements.size() == 3);
}

TEST_CASE("A bare article number is one") {
    CHECK(read("6291041500213")->gtin == "06291041500213");
    CHECK(read("]E06291041500213")->gtin == "06291041500213");
    CHECK(read("]E402345673")->gtin == "00000002345673");
    CHECK(read("]I112345678901231")->gtin == "12345678901231");
}

TEST_CASE("Faults of a scan are explained") {
    const std::string swapped = " | compare each digit with the label: one is wrong or two are swapped";
    CHECK(said(read("(01)12345678901232")) == "scan: (01) GTIN '12345678901232' | check digit 1; this ends in 2" + swapped);
    CHECK(said(read("(00)123456789012345670")) == "scan: (00) SSCC '123456789012345670' | check digit 5; this ends in 0" + swapped);
    CHECK(said(read("(410)6291041500214")) == "scan: (410) GLN '6291041500214' | check digit 3; this ends in 4" + swapped);
    CHECK(said(read("6291041500214")) == "scan: GTIN '6291041500214' | check digit 3; this ends in 4" + swapped);
    CHECK(said(read("(01)12345678901231(15)200230")) ==
          "scan: (15) date '200230' | a day that the month has, or 00 for its last | read the date on the "
          "goods and type it");
    CHECK(said(read("]C1011234567890123110THIS-LOT-RUNS-ON15271231")) ==
          "scan: (10) lot 'THIS-LOT-RUNS-ON15271231' | 1 to 20 characters; this has 24 | the separator "
          "(FNC1) after it is missing: set "
          "the scanner to send it as ASCII 29, or type the values");
    CHECK(said(read("]C10112345")) ==
          "scan: (01) article number (GTIN) '12345' | 14 digits; this has 5 | scan it again; if it stays so "
          "the label is wrong: type "
          "the values, and tell who printed it");
    CHECK(said(read("(01)12345678901231(30)1x")) ==
          "scan: (30) count of pieces '1x' | 1 to 8 digits and nothing else | scan it again, or type the "
          "values");
    CHECK(said(read("(01)12345678901231(10)B\xC3\xA4r")) ==
          "scan: (10) lot 'B\xC3\xA4r' | letters A to Z, digits and the marks that GS1 allows | scan it again, or "
          "type the values");
    CHECK(said(read("]C0HELLO")) ==
          "scan: symbology ']C0' | a GS1 symbol: ]C1 GS1-128, ]e0 DataBar, ]d2 DataMatrix, ]Q3 QR, ]J1 "
          "DotCode, or an article number "
          "]E0 ]E4 ]I1 | this symbol follows the printer's own rules: scan another one of the label, or type "
          "the values");
    CHECK(said(read("(88)1")) ==
          "scan: application identifier '88' in '(88)1' | one that is read here: 00 01 02 10 11 13 15 17 21 "
          "30 310n 320n 37 410 to 417, "
          "or is passed over | type the values with the options of the command");
    CHECK(said(read("(3106)001250")) ==
          "scan: application identifier '3106' in '(3106)001250' | one that is read here: 00 01 02 10 11 13 "
          "15 17 21 30 310n 320n 37 "
          "410 to 417, or is passed over | type the values with the options of the command");
    CHECK(said(read(" ")) == "scan: nothing | what the scanner reads, or what stands below the bars | scan again");
}

TEST_CASE("Identifiers that exclude or want one another") {
    // The syntax dictionary: 01 ex=02; 02 req=37; 37 req=02; lot, dates, count and net mass req=01,02; one
    // 310n only.
    CHECK(said(read("(01)12345678901231(02)12345678901231(37)4")) ==
          "scan: (01) 12345678901231 and (02) 12345678901231 | one of the two: an article, or what a pallet "
          "holds | scan the label of one "
          "item at a time");
    const std::string more =
        " | the article and how many of it, together | scan the other symbol of the label too: --scan once "
        "more";
    CHECK(said(read("(02)12345678901231")) == "scan: (02) 12345678901231 without (37)" + more);
    CHECK(said(read("(37)4")) == "scan: (37) without (02)" + more);
    CHECK(said(read("(10)B-20")) ==
          "scan: (10) lot 'B-20' without an article number | (01) or (02) on the same label, which says what "
          "it is the lot of | scan the "
          "other symbol of the label too: --scan once more; or type the values");
    CHECK(said(read_gs1_scan({"(01)12345678901231(10)A", "(01)12345678901231(10)B"}, today)) ==
          "scan: (10) 'A' and (10) 'B' | one value of each kind on an item | scan the label of one item at a "
          "time");
    CHECK(said(read("(01)12345678901231(3102)000100(3103)001000")) ==
          "scan: (3102) '000100' and (3103) '001000' | one value of each kind on an item | scan the label of "
          "one item at a time");
    CHECK(read_gs1_scan({"(01)12345678901231(10)A", "(10)A(15)271200"}, today));
}

TEST_CASE("An SSCC of one's own: extension digit, company prefix, serial reference, check digit") {
    CHECK(make_sscc("0614141", 1234567890) == "106141412345678908");  // quoted from memory in GS1's texts, its digit recomputed by hand
    for (const std::string prefix : {"9520", "0614141", "952000012345"}) {
        for (const std::int64_t serial : {std::int64_t{0}, std::int64_t{7}, std::int64_t{98765}}) {
            const std::string sscc = make_sscc(prefix, serial);
            INFO(sscc);
            CHECK(check_sscc(sscc).ok());
            CHECK(sscc.substr(1, prefix.size()) == prefix);
        }
    }
    CHECK(said(check_company_prefix("952")) ==
          "company prefix '952' | 4 to 12 digits | copy it from the licence of your GS1 organisation; it is "
          "how your own numbers begin");
}
