#include "calc/lethality.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "calc/dz.h"

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
