// Effectiveness checks: 21 CFR 7.42(b)(3), levels A to E, percentages from memory. Rounding up is the
// project's choice.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "trace/recall.h"
#include "trace/splitmix.h"

using namespace peelbook;
using namespace peelbook::trace;

namespace {

std::vector<std::string> consignees(int n) {
    std::vector<std::string> codes;
    for (int i = 0; i < n; ++i) codes.push_back("C" + std::to_string(1'000 + i));
    return codes;
}

std::size_t asked(int n, CheckLevel level, std::int64_t percent_b = 0) {
    return effectiveness_sample(consignees(n), level, percent_b, 7).value().size();
}

}  // namespace

TEST_CASE("of 500 consignees level A asks 500, B what is set, C 50, D 10, E none") {
    CHECK(asked(500, CheckLevel::a) == 500);
    CHECK(asked(500, CheckLevel::b, 25'000) == 125);
    CHECK(asked(500, CheckLevel::c) == 50);
    CHECK(asked(500, CheckLevel::d) == 10);
    CHECK(asked(500, CheckLevel::e) == 0);
}

TEST_CASE("Parts of a consignee are rounded up") {
    CHECK(asked(501, CheckLevel::c) == 51);
    CHECK(asked(1, CheckLevel::d) == 1);
    CHECK(asked(51, CheckLevel::d) == 2);
    CHECK(asked(50, CheckLevel::d) == 1);
    CHECK(asked(3, CheckLevel::b, 33'333) == 1);
    CHECK(asked(3, CheckLevel::b, 33'334) == 2);
    CHECK(asked(0, CheckLevel::a) == 0);
    CHECK(*effectiveness_count(4'000'000'000'000'000, CheckLevel::c) == 400'000'000'000'000);
}

TEST_CASE("Level B wants a percentage above 10 and below 100") {
    for (const std::int64_t wrong : {0, 10'000, 100'000, -5}) {
        const auto refused = effectiveness_count(500, CheckLevel::b, wrong);
        REQUIRE_FALSE(refused.ok());
        CHECK(refused.refusal().wanted == "a percentage above 10 and below 100");
        CHECK(refused.refusal().next == "set the percentage for this case, or choose level A (all) or C (10 %)");
    }
    CHECK(effectiveness_count(500, CheckLevel::b, 10'001).ok());
    CHECK(effectiveness_count(500, CheckLevel::b, 99'999).ok());
}

TEST_CASE("Levels are read in either case, others refused") {
    CHECK(*parse_check_level("A") == CheckLevel::a);
    CHECK(*parse_check_level(" e ") == CheckLevel::e);
    for (const char* wrong : {"", "F", "AB", "1"}) CHECK_FALSE(parse_check_level(wrong).ok());
    CHECK(parse_check_level("F").refusal().given == "effectiveness check level 'F'");
}

TEST_CASE("A sample is repeatable, free of order and repeats, and follows its seed") {
    auto codes = consignees(200);
    const auto first = effectiveness_sample(codes, CheckLevel::c, 0, 42).value();
    CHECK(first.size() == 20);
    CHECK(std::is_sorted(first.begin(), first.end()));
    CHECK(std::adjacent_find(first.begin(), first.end()) == first.end());
    std::reverse(codes.begin(), codes.end());
    codes.push_back(codes.front());
    CHECK(effectiveness_sample(codes, CheckLevel::c, 0, 42).value() == first);
    CHECK(effectiveness_sample(codes, CheckLevel::c, 0, 43).value() != first);
}

TEST_CASE("Every consignee has the same chance") {
    std::map<std::string, int> times;
    for (std::uint64_t seed = 0; seed < 4'000; ++seed) {
        const std::vector<std::string> sample = effectiveness_sample(consignees(20), CheckLevel::c, 0, seed).value();
        for (const std::string& code : sample) ++times[code];
    }
    // 2 of 20 in 4,000 draws: 400 each; six standard deviations of the binomial are 6 x sqrt(4000 x 0.1 x
    // 0.9) = 114.
    REQUIRE(times.size() == 20);
    for (const auto& [code, n] : times) {
        CHECK(n > 400 - 114);
        CHECK(n < 400 + 114);
    }
}

// The first outputs for seed 1234567, as published with the algorithm's public descriptions; from memory.
TEST_CASE("splitmix64 gives its published numbers") {
    SplitMix64 random(1234567);
    for (const std::uint64_t wanted :
         {6457827717110365317u, 3203168211198807973u, 9817491932198370423u, 4593380528125082431u, 16408922859458223821u}) {
        CHECK(random.next() == wanted);
    }
    for (int i = 0; i < 1'000; ++i) CHECK(random.below(7) < 7);
    CHECK(random.below(1) == 0);
}
