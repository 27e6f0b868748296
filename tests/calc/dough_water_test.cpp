// The heat balance is checked against the definition: heat in equals heat out.
#include "calc/dough_water.h"

#include <catch2/catch.hpp>
#include <random>

using namespace peelbook::calc;

namespace {

// Heat that everything gives up or takes on its way to the dough's temperature, mixer included. Zero when it
// balances.
double heat_gap(const WaterQuestion& q, const WaterAnswer& a) {
    double gap = q.mixer_kj;
    for (const HeatShare& h : q.others) gap += h.kg * h.kj_per_kg_k * (h.celsius - a.dough_c);
    gap += a.tap_kg * water_kj_per_kg_k * (q.tap_c - a.dough_c);
    gap += a.hot_kg * water_kj_per_kg_k * (q.hot_tap_c.value_or(q.tap_c) - a.dough_c);
    gap += a.ice_kg * (-ice_latent_kj_per_kg - water_kj_per_kg_k * a.dough_c);
    return gap;
}

WaterQuestion rye_dough() {
    WaterQuestion q;
    q.wanted_c = 27;
    q.others = {{60, 1.8, 20}, {30, 3.0, 28}};
    q.water_kg = 40;
    q.mixer_kj = 300;
    q.tap_c = 14;
    return q;
}

}  // namespace

TEST_CASE("whatever is asked, the masses add up and the heat balances") {
    std::mt19937 random(4);
    std::uniform_real_distribution<double> wanted(5, 40), part(0, 1);
    int ice = 0, hot = 0, missed = 0;
    for (int i = 0; i < 5'000; ++i) {
        WaterQuestion q = rye_dough();
        q.wanted_c = wanted(random);
        q.tap_c = 5 + 20 * part(random);
        if (i % 2 == 0) q.hot_tap_c = 60;
        if (i % 3 == 0) q.most_ice_share = part(random);
        const auto a = balance_water(q);
        REQUIRE(a.ok());
        REQUIRE(a->ice_kg >= 0);
        REQUIRE(a->hot_kg >= 0);
        REQUIRE(a->tap_kg >= -1e-9);
        REQUIRE(a->ice_kg + a->hot_kg + a->tap_kg == Approx(q.water_kg));
        REQUIRE(heat_gap(q, *a) == Approx(0).margin(1e-6));
        if (a->reached) REQUIRE(a->dough_c == Approx(q.wanted_c));
        ice += a->ice_kg > 0;
        hot += a->hot_kg > 0;
        missed += !a->reached;
    }
    CHECK(ice > 500);
    CHECK(hot > 500);
    CHECK(missed > 200);
}

TEST_CASE("when it cannot be reached, the nearest that can is given") {
    WaterQuestion q = rye_dough();
    SECTION("not enough ice allowed") {
        q.wanted_c = 8;
        q.most_ice_share = 0.25;
        const auto a = balance_water(q);
        CHECK_FALSE(a->reached);
        CHECK(a->ice_kg == Approx(10));
        CHECK(a->dough_c > 8);
    }
    SECTION("no hot water at hand") {
        q.wanted_c = 35;
        const auto a = balance_water(q);
        CHECK_FALSE(a->reached);
        CHECK(a->tap_kg == Approx(40));
        CHECK(a->dough_c < 35);
        CHECK(a->water_c > 14);
    }
    SECTION("a hot tap that is not hot enough") {
        q.wanted_c = 60;
        q.hot_tap_c = 60;
        const auto a = balance_water(q);
        CHECK_FALSE(a->reached);
        CHECK(a->hot_kg == Approx(40));
    }
}

TEST_CASE("what the water question refuses") {
    WaterQuestion q = rye_dough();
    SECTION("no water") {
        q.water_kg = 0;
        CHECK(balance_water(q).refusal().given == "0 kg of water");
    }
    SECTION("a frozen tap") {
        q.tap_c = -1;
        CHECK(balance_water(q).refusal().given == "tap water of -1 C");
    }
    SECTION("a hot tap colder than the cold one") {
        q.hot_tap_c = 10;
        CHECK(balance_water(q).refusal().wanted == "warmer than the tap's 14 C, up to 100 C");
    }
    SECTION("an ice share in percent") {
        q.most_ice_share = 50;
        CHECK(balance_water(q).refusal().given == "an ice share of 50");
    }
    SECTION("a mixer that cools") {
        q.mixer_kj = -1;
        CHECK(balance_water(q).refusal().given == "-1 kJ from the mixer");
    }
    SECTION("a negative mass") {
        q.others[0].kg = -60;
        CHECK(balance_water(q).refusal().given == "an ingredient of -60 kg, 1.8 kJ/kgK");
    }
}
