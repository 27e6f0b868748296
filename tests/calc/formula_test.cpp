#include "calc/formula.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <numeric>
#include <random>

#include "calc/apportion.h"
#include "calc/first_expired.h"

using namespace peelbook;
using namespace peelbook::calc;

namespace {

std::vector<FormulaLine> random_formula(std::mt19937& random) {
    const std::int64_t rye = static_cast<std::int64_t>(random() % 100'001);
    std::vector<FormulaLine> lines = {{"rye", rye, true, {}}, {"wheat", 100'000 - rye, true, {}}};
    const std::size_t others = random() % 6;
    for (std::size_t i = 0; i < others; ++i) {
        lines.push_back(
            {"other " + std::to_string(i), static_cast<std::int64_t>(random() % 90'000), false, {}});
    }
    return lines;
}

}  // namespace

TEST_CASE("a weigh sheet adds up to the milligram on every basis") {
    std::mt19937 random(100);
    for (int i = 0; i < 5'000; ++i) {
        const auto formula = random_formula(random);
        const std::int64_t mg = 1 + static_cast<std::int64_t>(random()) * 97;
        for (Basis basis : {Basis::added_flour, Basis::total_flour, Basis::dough}) {
            const auto sheet = weigh_sheet(formula, basis, mg);
            REQUIRE(sheet.ok());
            std::int64_t total = 0, flour = 0, percent = 0;
            for (std::size_t k = 0; k < formula.size(); ++k) {
                total += sheet->lines[k].mg;
                if (formula[k].flour) flour += sheet->lines[k].mg;
                percent += formula[k].percent_milli;
            }
            REQUIRE(total == sheet->total_mg);
            REQUIRE(flour == sheet->flour_mg);
            if (basis == Basis::dough) REQUIRE(total == mg);
            if (basis != Basis::dough) REQUIRE(flour == mg);
            for (std::size_t k = 0; k < formula.size();
                 ++k) {  // no line is off its share by two units or more
                const double share =
                    static_cast<double>(formula[k].percent_milli) / static_cast<double>(percent);
                const double exact = static_cast<double>(total) * share;
                REQUIRE(std::abs(static_cast<double>(sheet->lines[k].mg) - exact) < 2 + exact * 1e-12);
            }
        }
    }
}

TEST_CASE("what was weighed gives the formula back") {
    std::mt19937 random(5);
    for (int i = 0; i < 1'000; ++i) {
        const auto formula = random_formula(random);
        const auto sheet =
            weigh_sheet(formula, Basis::added_flour, 90'000'000'000);  // 90 t: no rounding to see
        std::vector<WeighedLine> weighed;
        for (std::size_t k = 0; k < formula.size(); ++k) {
            weighed.push_back({formula[k].name, sheet->lines[k].mg, formula[k].flour});
        }
        const auto back = percentages_of(weighed);
        for (std::size_t k = 0; k < formula.size(); ++k)
            REQUIRE((*back)[k].percent_milli == formula[k].percent_milli);
    }
}

TEST_CASE("true percentages of a dough with a leaven inside a leaven") {
    // By hand: 40 of dough leaven = 20 flour + 16 water + 4 seed; 4 seed = 2 flour + 2 water. All flour
    // 100+20+2 = 122.
    const std::vector<FormulaLine> seed = {{"rye", 100'000, true, {}}, {"water", 100'000, false, {}}};
    const std::vector<FormulaLine> leaven = {
        {"rye", 100'000, true, {}}, {"water", 80'000, false, {}}, {"seed", 20'000, false, seed}};
    const auto lines = true_percentages(
        {{"rye", 100'000, true, {}}, {"water", 60'000, false, {}}, {"leaven", 40'000, false, leaven}});
    REQUIRE(lines->size() == 2);
    CHECK((*lines)[0].percent_of_flour == Approx(100));
    CHECK((*lines)[1].percent_of_flour == Approx((60 + 16 + 2) / 122.0 * 100));
    CHECK((*lines)[0].percent_of_dough == Approx(122 / 200.0 * 100));
}

TEST_CASE("what a formula refuses") {
    CHECK(weigh_sheet({{"wheat", 90'000, true, {}}}, Basis::dough, 1).refusal().given ==
          "a formula with flour lines of 90 %");
    CHECK(weigh_sheet({{"wheat", 100'000, true, {}}, {"salt", -1, false, {}}}, Basis::dough, 1)
              .refusal()
              .given == "'salt' with -0.001 %");
    CHECK(weigh_sheet({{"wheat", 100'000, true, {}}}, Basis::dough, 0).refusal().given == "0 mg");
    const std::vector<FormulaLine> no_flour = {{"water", 100'000, false, {}}};
    CHECK(true_percentages({{"wheat", 100'000, true, {}}, {"scald", 10'000, false, no_flour}})
              .refusal()
              .given == "preferment 'scald' with flour lines of 0 %");
    CHECK(true_percentages({{"wheat", 100'000, true, no_flour}}).refusal().given ==
          "'wheat' as flour with a formula of its own");
    CHECK(percentages_of({{"water", 1, false}}).refusal().given == "weights without flour");
    CHECK(percentages_of({{"wheat", -1, true}}).refusal().given == "'wheat' of -1 mg");
}

TEST_CASE("was enough weighed: inclusive to the milligram") {
    CHECK(check_weight(1'000'000, 1'020'000, 2'000).within);  // 2 % of 1 kg is 20 g
    CHECK(check_weight(1'000'000, 980'000, 2'000).within);
    CHECK_FALSE(check_weight(1'000'000, 1'020'001, 2'000).within);
    CHECK_FALSE(check_weight(1'000'000, 979'999, 2'000).within);
    CHECK(check_weight(1'000'000, 979'999, 2'000).over_mg == -20'001);
    CHECK(check_weight(4'000'000'000'000'000, 4'000'000'000'000'001, 1).within);  // no overflow at 4,000 t
}

TEST_CASE("parts add up to the whole, and none is off by one") {
    CHECK(apportion(100, {1, 1, 1}) == std::vector<std::int64_t>{34, 33, 33});
    CHECK(apportion(0, {1, 2}) == std::vector<std::int64_t>{0, 0});
    std::mt19937 random(8);
    for (int i = 0; i < 2'000; ++i) {
        std::vector<std::int64_t> weights(1 + random() % 8);
        for (auto& w : weights) w = static_cast<std::int64_t>(random() % 1'000'000);
        weights[0] += 1;
        const auto total = static_cast<std::int64_t>(random()) * 1'000'000;
        const auto parts = apportion(total, weights);
        REQUIRE(std::accumulate(parts.begin(), parts.end(), std::int64_t{0}) == total);
        const auto whole = std::accumulate(weights.begin(), weights.end(), std::int64_t{0});
        for (std::size_t k = 0; k < parts.size(); ++k) {
            const long double exact = static_cast<long double>(total) * static_cast<long double>(weights[k]) /
                                      static_cast<long double>(whole);
            REQUIRE(std::abs(static_cast<long double>(parts[k]) - exact) < 1.0L + 1e-3L);
        }
    }
}

TEST_CASE("first expired, first out") {
    const auto day = [](int d) { return Date{2026, 12, d}; };
    std::vector<StockLot> lots = {{50, {}, Instant{1}, true},
                                  {40, day(9), Instant{3}, true},
                                  {30, day(5), Instant{2}, false},
                                  {20, day(9), Instant{2}, true},
                                  {0, day(1), Instant{0}, true}};
    const auto plan = take_first_expired(lots, 70);
    REQUIRE(plan.takes.size() == 3);
    CHECK((plan.takes[0].lot == 3 && plan.takes[0].mg == 20));  // same date: the earlier arrival
    CHECK((plan.takes[1].lot == 1 && plan.takes[1].mg == 40));
    CHECK((plan.takes[2].lot == 0 && plan.takes[2].mg == 10));  // no date comes last
    CHECK(plan.missing_mg == 0);
    CHECK(take_first_expired(lots, 200).missing_mg == 90);  // the held lot is not offered
    CHECK(take_first_expired({}, 5).missing_mg == 5);
}
