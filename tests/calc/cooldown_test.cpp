#include "calc/cooldown.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace peelbook::calc;

namespace {

std::vector<CoreReading> newton(double start, double room, double k, const std::vector<double>& minutes) {
    std::vector<CoreReading> out;
    for (double m : minutes) out.push_back({m, room + (start - room) * std::exp(-k * m)});
    return out;
}

}  // namespace

TEST_CASE("an exact Newton curve is found again, room known or not") {
    // By the definition of the curve; the clock of the readings need not begin at zero.
    for (double k : {0.005, 0.02, 0.1}) {
        for (double room : {-2.0, 4.0, 24.0}) {
            const auto readings = newton(96, room, k, {7, 17, 27, 40, 55});
            const auto known = fit_cooldown(readings, room);
            REQUIRE(known.ok());
            CHECK(known->rate_per_min == Approx(k).epsilon(1e-9));
            const auto fitted = fit_cooldown(readings, std::nullopt);
            REQUIRE(fitted.ok());
            CHECK(fitted->rate_per_min == Approx(k).epsilon(1e-6));
            CHECK(fitted->room == Approx(room).margin(1e-3));
            const double target = room + 10;
            const auto arrival = predict_arrival(*fitted, target);
            CHECK(arrival->minute == Approx(std::log((96 - room) / 10) / k).epsilon(1e-6));
            CHECK(fitted->at(arrival->minute) == Approx(target));
        }
    }
}

TEST_CASE("the prediction interval holds the truth about as often as it says") {
    // 95 % limits; seeded noise of 0.3 C. Binomial scatter over 1,000 trials is below 2.1 % (3 sigma).
    std::mt19937 random(95);
    std::normal_distribution<double> noise(0, 0.3);
    int inside = 0;
    for (int i = 0; i < 1'000; ++i) {
        auto readings = newton(92, 22, 0.02, {0, 8, 16, 24, 32, 40});
        for (auto& r : readings) r.temperature += noise(random);
        const auto arrival = predict_arrival(*fit_cooldown(readings, 22.0), 35.0);
        // The reading that would show it is itself off by the noise.
        const double shown = 35.0 - noise(random);
        const double truth = std::log((92 - 22.0) / (shown - 22.0)) / 0.02;
        if (truth >= *arrival->earliest && truth <= *arrival->latest) ++inside;
    }
    CHECK(inside >= 920);
    CHECK(inside <= 980);
}

TEST_CASE("what the cooling fit refuses") {
    CHECK(fit_cooldown({{0, 90}}, 20.0).refusal().given == "1 reading(s)");
    const auto no_room = fit_cooldown({{0, 90}, {10, 80}}, std::nullopt).refusal();
    CHECK(no_room.wanted == "3 or more when the room is not known");
    CHECK(no_room.next == "give the room temperature, or take another reading");
    CHECK(fit_cooldown({{0, 90}, {0, 80}}, 20.0).refusal().given == "a reading at minute 0");
    CHECK(fit_cooldown({{0, 80}, {10, 90}}, 20.0).refusal().given == "readings from 80 to 90");
    CHECK(fit_cooldown({{0, 90}, {10, 80}}, 85.0).refusal().given == "a reading of 80");
    // Falling faster and faster is not Newton's law.
    CHECK_FALSE(fit_cooldown({{0, 90}, {10, 88}, {20, 80}, {30, 60}}, std::nullopt).ok());
    const auto fit = fit_cooldown({{0, 90}, {10, 70}}, 20.0);
    CHECK(predict_arrival(*fit, 20).refusal().next == "cool in a colder place: this one never gets there");
    CHECK(predict_arrival(*fit, 90).refusal().next == "the target is passed already");
    CHECK_FALSE(predict_arrival(*fit, 40)->latest.has_value());  // two readings leave no degree of freedom
}
