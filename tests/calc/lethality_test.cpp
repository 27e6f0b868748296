#include "calc/lethality.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "calc/dz.h"
#include "calc/mug_of_water.h"

using namespace peelbook::calc;

namespace {

HeatResistance muffin_batter() { return {61, 10.4, 16.5, {}, {}, {}}; }  // Channaiah et al. 2017

}  // namespace

TEST_CASE("lethality grows with temperature and with time") {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> celsius(40, 98), step(0.5, 6), warmer(0, 5);
    for (int i = 0; i < 2'000; ++i) {
        std::vector<CoreReading> readings;
        double minute = 0;
        for (int k = 0; k < 8; ++k) readings.push_back({minute += step(random), celsius(random)});
        HeatResistance food = muffin_batter();
        if (i % 2 == 0) food.studied_from = 55, food.studied_to = 62;
        const auto base = lethality(food, readings);

        auto hotter = readings;
        hotter[random() % 8].temperature += warmer(random);
        REQUIRE(lethality(food, hotter)->log_lower >= base->log_lower);
        REQUIRE(lethality(food, hotter)->f_trapezoid_min >= base->f_trapezoid_min);

        auto longer = readings;
        longer.push_back({minute + step(random), celsius(random)});
        REQUIRE(lethality(food, longer)->log_lower >= base->log_lower);

        // The lower end never says more than the trapezoid.
        REQUIRE(base->f_lower_min <= base->f_trapezoid_min);
        REQUIRE(base->f_trapezoid_min <= base->f_upper_min);
    }
}

TEST_CASE(
    "the lower sum stays below the exact integral of any curve between the readings, the trapezoid above "
    "it") {
    // A straight rise: the exact integral of the rate is z / (ln 10 x slope) x (L2 - L1).
    const HeatResistance food = muffin_batter();
    for (double minutes : {1.0, 5.0, 20.0}) {
        const auto sum = lethality(food, {{0, 50}, {minutes, 70}});
        const double slope = 20 / minutes;
        const double exact =
            food.z / (std::log(10.0) * slope) * (lethal_rate(70, food.t_ref, food.z) - lethal_rate(50, food.t_ref, food.z));
        CHECK(sum->f_lower_min < exact);
        CHECK(sum->f_trapezoid_min > exact);
        CHECK(sum->f_upper_min > sum->f_trapezoid_min);
        CHECK(sum->log_upper == Approx(minutes * lethal_rate(70, food.t_ref, food.z) / food.d_ref_min));
    }
}

TEST_CASE("rule 7: an interval longer than the longest gap counts nothing, and bounds nothing") {
    // D 40 s at 62 C, z 5.8 C. At 62 C 2 min are 3 log; 57 C is worth 10^(-5 / 5.8) = 0.13738 of it.
    HeatResistance custard{62, 5.8, 40.0 / 60, 56, 66, {}, 3};
    const auto dipped = lethality(custard, {{0, 62}, {2, 57}, {4, 62}});
    CHECK(dipped->log_lower == Approx(4 * 0.13738 / (40.0 / 60)).epsilon(1e-4));  // 0.82
    const auto without = lethality(custard, {{0, 62}, {4, 62}});
    CHECK(without->log_lower == 0);  // and not 6
    CHECK(without->gaps == 1);
    CHECK(without->gaps_min == 4);
    CHECK(std::isinf(without->log_upper));
    CHECK(lethality(custard, {{0, 62}, {3, 62}})->log_lower == Approx(4.5));  // 3 min is no longer than 3 min
    CHECK(lethality(custard, {{0, 62}, {3.001, 62}})->log_lower == 0);
    CHECK(lethality(custard, {{0, 62}, {180, 62}})->log_lower == 0);  // two readings three hours apart
    const auto around = lethality(custard, {{0, 62}, {2, 62}, {20, 62}, {22, 62}});
    CHECK(around->log_lower == Approx(6));
    CHECK(around->gaps_min == 18);
}

TEST_CASE("a measured series thinned in ten ways never gains log") {
    // FSIS Appendix A (read in public copies): 6.5 log of Salmonella in 12 min at 140 F, z 10 F, table from 130 F to 157 F.
    const HeatResistance beef{140, 10, 12 / 6.5, 130, 157, {}, 1};
    std::vector<CoreReading> all;
    for (const auto& row : testing::mug_of_water) all.push_back({row.second / 60, row.fahrenheit});
    const auto full = lethality(beef, all);
    CHECK(full->log_lower > 6.5);
    for (std::size_t kept = 2; kept <= 11; ++kept) {
        std::vector<CoreReading> thin;
        for (std::size_t i = 0; i < all.size(); i += kept) thin.push_back(all[i]);
        const auto sum = lethality(beef, thin);
        INFO("one of " << kept);
        CHECK(sum->log_lower <= full->log_lower);
        double counted = 0;  // what the intervals of a minute at most are worth at the very most
        for (std::size_t i = 1; i < thin.size(); ++i)
            if (const double minutes = thin[i].minute - thin[i - 1].minute; minutes <= 1)
                counted += minutes * lethal_rate(std::min(157.0, thin[i - 1].temperature), 140, 10) / (12 / 6.5);
        CHECK(sum->log_lower <= counted);
    }
}

TEST_CASE("what the lethality sum refuses") {
    const std::vector<CoreReading> two = {{0, 60}, {5, 70}};
    CHECK(lethality({60, 0, 1, {}, {}, {}}, two).refusal().given == "z of 0");
    CHECK(lethality({60, 10, -1, {}, {}, {}}, two).refusal().given == "D of -1 min");
    CHECK(lethality({60, 10, 1, {}, {}, 0.0}, two).refusal().given == "a cap of 0 log");
    HeatResistance upside_down = muffin_batter();
    upside_down.studied_from = 62, upside_down.studied_to = 55;
    CHECK(lethality(upside_down, two).refusal().given == "a studied range from 62 to 55");
    CHECK(lethality(muffin_batter(), {{0, 60}}).refusal().given == "1 core reading(s)");
    const auto backwards = lethality(muffin_batter(), {{5, 60}, {4, 70}}).refusal();
    CHECK(backwards.given == "core reading 2 at minute 4");
    CHECK(backwards.wanted == "times in ascending order (the one before is at 5)");
    CHECK(backwards.next == "put the readings in order of time");
    CHECK(lethality(muffin_batter(), {{0, 60}, {1, std::nan("")}}).refusal().given == "core reading 2 that is not a number");
}

TEST_CASE("what the D and z fit refuses") {
    CHECK(fit_dz({{55, 10}}).refusal().given == "1 point(s) for a line");
    CHECK(fit_dz({{55, 10}, {58, 0}}).refusal().given == "a D-value of 0 min at 58");
    CHECK(fit_dz({{55, 10}, {55, 9}}).refusal().given == "points that all share one x");
    CHECK(fit_dz({{55, 10}, {58, 12}}).refusal().given == "D-values that do not fall as the temperature rises");
    const auto two_points = fit_dz({{55, 100}, {65, 10}});
    CHECK(two_points->z == Approx(10));  // one log for 10 degrees, by definition
    CHECK(two_points->d_at(60) == Approx(31.6227766));
    CHECK_FALSE(two_points->z_lower.has_value());
    CHECK_FALSE(two_points->d_limits(60, 0.95).has_value());
    CHECK(two_points->studied_from == 55);
    CHECK(two_points->studied_to == 65);
}
