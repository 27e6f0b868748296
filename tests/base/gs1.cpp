// Check digits of the GS1 General Specifications.
#include "base/gs1.h"

#include <catch2/catch.hpp>
#include <random>

#include "said.h"

using namespace peelbook;

TEST_CASE("GS1 check digits as printed by GS1") {
    CHECK(gs1_check_digit("629104150021") == 3);  // GS1's own worked example, weighted sum 57
    CHECK(gs1_check_digit("890400021003") == 7);  // GS1 India, check digit page
    CHECK(gs1_check_digit("501234567890") == 0);  // GS1 UK guide
    CHECK(gs1_check_digit("03600024145") == 7);   // UPC-A, published worked example
}

TEST_CASE("Numbers of every length with a right check digit are accepted") {
    // Test vectors of the GS1 syntax dictionary's check digit linter.
    CHECK(check_gtin("02345673").ok());
    CHECK(check_gtin("416000336108").ok());
    CHECK(check_gtin("1234567890128").ok());
    CHECK(check_gtin("12345678901231").ok());
    CHECK(check_sscc("123456789012345675").ok());
    // The worked examples above, whole; as a location number one has the same 13 digits.
    CHECK(check_gtin("6291041500213").ok());
    CHECK(check_gtin("8904000210037").ok());
    CHECK(check_gtin("5012345678900").ok());
    CHECK(check_gtin("036000241457").ok());
    CHECK(check_gln("6291041500213").ok());
    // The GTIN-13 of the first example with indicator 1, computed by hand.
    CHECK(check_gtin("16291041500210").ok());
    // Published SSCC examples (the first quoted from memory, its digit recomputed by hand).
    CHECK(check_sscc("106141412345678908").ok());
    CHECK(check_sscc("157035381410375177").ok());
    CHECK(check_sscc("376130321109103420").ok());
}

TEST_CASE("A wrong check digit is refused and the right one named") {
    // The failing vectors of the same linter.
    const std::string next = " | compare each digit with the label: one is wrong or two are swapped";
    CHECK(said(check_gtin("12345673")) == "GTIN '12345673' | check digit 0; this ends in 3" + next);
    CHECK(said(check_gtin("416000336109")) == "GTIN '416000336109' | check digit 8; this ends in 9" + next);
    CHECK(said(check_gtin("1234567890129")) == "GTIN '1234567890129' | check digit 8; this ends in 9" + next);
    CHECK(said(check_gtin("12345678901232")) == "GTIN '12345678901232' | check digit 1; this ends in 2" + next);
    CHECK(said(check_sscc("123456789012345670")) == "SSCC '123456789012345670' | check digit 5; this ends in 0" + next);
    CHECK(said(check_gln("6291041500214")) == "GLN '6291041500214' | check digit 3; this ends in 4" + next);
}

TEST_CASE("Wrong lengths and other characters are refused") {
    const std::string next = " | compare it with the label or the document";
    CHECK(said(check_gtin("123456789")) == "GTIN '123456789' | 8, 12, 13 or 14 digits; this has 9" + next);
    CHECK(said(check_gln("16291041500210")) == "GLN '16291041500210' | 13 digits; this has 14" + next);
    CHECK(said(check_sscc("1234567890128")) == "SSCC '1234567890128' | 18 digits; this has 13" + next);
    const std::string plain = " | type it again without spaces or dashes";
    CHECK(said(check_gtin("")) == "GTIN '' | 8, 12, 13 or 14 digits and nothing else" + plain);
    CHECK(said(check_gln("629104150021-3")) == "GLN '629104150021-3' | 13 digits and nothing else" + plain);
}

// GS1 General Specifications 7.9: modulo 10 with weights 3 and 1 finds every single wrong digit.
TEST_CASE("Every single wrong digit is found") {
    std::mt19937_64 random(19);
    std::uniform_int_distribution<int> digit(0, 9);
    for (int round = 0; round < 200; ++round) {
        std::string number;
        for (int i = 0; i < 13; ++i) number += static_cast<char>('0' + digit(random));
        number += static_cast<char>('0' + gs1_check_digit(number));
        REQUIRE(check_gtin(number).ok());
        for (char& c : number) {
            const char right = c;
            c = static_cast<char>('0' + (c - '0' + 1 + digit(random) % 9) % 10);
            INFO(number);
            REQUIRE_FALSE(check_gtin(number).ok());
            c = right;
        }
    }
}
