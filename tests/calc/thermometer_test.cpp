#include "calc/thermometer.h"

#include <catch2/catch.hpp>

#include "calc/acceptance.h"
#include "calc/allergen_dose.h"
#include "calc/loss.h"
#include "calc/product_class.h"

using namespace peelbook::calc;

TEST_CASE("water boils hotter the higher the pressure, and not without any") {
    CHECK(boiling_celsius(0).refusal().given == "a pressure of 0 Pa");
    CHECK(*boiling_celsius(90'000) < *boiling_celsius(90'100));
}

TEST_CASE("guarded acceptance never calls a limit met that simple acceptance calls broken") {
    for (std::int64_t value = -30; value <= 30; ++value) {
        for (std::int64_t guard = 0; guard <= 5; ++guard) {
            const auto simple = conformity(value, -10, 10);
            const auto guarded = conformity(value, -10, 10, guard);
            CHECK(simple != Conformity::straddles);
            if (guarded != Conformity::straddles) CHECK(guarded == simple);
        }
    }
    CHECK(conformity(5, {}, {}) == Conformity::meets);
    CHECK(conformity(0, -1, 1, 3) == Conformity::straddles);  // an instrument too coarse for the range
}

TEST_CASE("a higher pH or a wetter food never needs less control") {
    for (auto table : {ClassTable::heat_treated_and_packaged, ClassTable::not_heat_treated_or_not_packaged}) {
        for (std::int64_t ph = 3'000; ph < 8'000; ph += 50) {
            for (std::int64_t aw = 800'000; aw < 1'000'000; aw += 5'000) {
                if (*classify(table, ph, aw) == ProductClass::no_control_needed) continue;
                REQUIRE(*classify(table, ph + 50, aw) == ProductClass::assessment);
                REQUIRE(*classify(table, ph, aw + 5'000) == ProductClass::assessment);
            }
        }
    }
    CHECK(classify(ClassTable::heat_treated_and_packaged, 5'000, 1'100'000).refusal().given == "a water activity of 1.1");
}

TEST_CASE("a loss refuses what cannot be weighed") {
    CHECK(*baked_from_dough(*dough_for_baked(500, 12), 12) == Approx(500));
    CHECK(loss_percent(0, 1).refusal().given == "a mass of 0");
    CHECK(baked_from_dough(100, -1).refusal().given == "a loss of -1 %");
    CHECK(action_level(0, 50).refusal().given == "a reference dose of 0 mg");
}
