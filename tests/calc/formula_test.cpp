#include "calc/formula.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <numeric>
#include <random>

#include "calc/apportion.h"

using namespace peelbook;
using namespace peelbook::calc;

namespace {

std::vector<FormulaLine> random_formula(std::mt19937& random) {
    const std::int64_t rye = static_cast<std::int64_t>(random() % 100'001);
    std::vector<FormulaLine> lines = {{"rye", rye, true}, {"wheat", 100'000 - rye, true}};
    const std::size_t others = random() % 6;
    for (std::size_t i = 0; i < others; ++i) {
        lines.push_back({"other " + std::to_string(i), static_cast<std::int64_t>(random() % 90'000), false});
    }
    return lines;
}

}  // namespace

TEST_CASE("a weigh sheet adds up to the milligram on every basis") {
    std::mt19937 random(100);
    for (int i = 0; i < 5'000; ++i) {
        const auto formula = random_formula(random);
        const std::int64_t mg = 1 + static_cast<std::int64_t>(random()) * 97;
        for (Basis basis : {Basis::added_flour, Basis::dough}) {
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
            for (std::size_t k = 0; k < formula.size(); ++k) {  // no line is off its share by two units or more
                const double share = static_cast<double>(formula[k].percent_milli) / static_cast<double>(percent);
                const double exact = static_cast<double>(total) * share;
                REQUIRE(std::abs(static_cast<double>(sheet->lines[k].mg) - exact) < 2 + exact * 1e-12);
            }
        }
    }
}

TEST_CASE("what a formula refuses") {
    CHECK(weigh_sheet({{"wheat", 90'000, true}}, Basis::dough, 1).refusal().given == "a formula with flour lines of 90 %");
    CHECK(weigh_sheet({{"wheat", 100'000, true}, {"salt", -1, false}}, Basis::dough, 1).refusal().given == "'salt' with -0.001 %");
    CHECK(weigh_sheet({{"wheat", 100'000, true}}, Basis::dough, 0).refusal().given == "0 mg");
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
            const long double exact =
                static_cast<long double>(total) * static_cast<long double>(weights[k]) / static_cast<long double>(whole);
            REQUIRE(std::abs(static_cast<long double>(parts[k]) - exact) < 1.0L + 1e-3L);
        }
    }
}
