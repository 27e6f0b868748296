// Forecasts of cooling on curves that calc/forecast.h does not know: two terms of conduction read by hand, and a measured mug of water.
#include "calc/forecast.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "calc/mug_of_water.h"

using namespace peelbook::calc;

namespace {

using Readings = std::vector<CoreReading>;

struct Coverage {
    int told = 0, held = 0;
    void count(const std::optional<Forecast>& forecast, double truth) {
        if (!forecast) return;
        ++told;
        const bool not_before = !forecast->earliest || *forecast->earliest <= truth + 0.5;  // times are typed to the minute
        const bool not_after = !forecast->latest || truth - 0.5 <= *forecast->latest;
        held += not_before && not_after ? 1 : 0;
    }
    double share() const { return static_cast<double>(held) / told; }
};

// From where it falls fastest on, as judge/cooling_ahead.cpp takes it.
Readings past_the_knee(Readings all) {
    std::size_t knee = 0;
    const auto pace = [&](std::size_t i) {
        return (all[i].temperature - all[i + 1].temperature - 1) / (all[i + 1].minute - all[i].minute + 1);
    };
    for (std::size_t i = 1; i + 1 < all.size(); ++i)
        if (pace(i) > pace(knee)) knee = i;
    all.erase(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(knee));
    return all;
}

// The middle of a body that cools by conduction: the first two terms of the series, of which the second is the lag.
struct Core {
    double room, start, pace, lag, first;
    double at(double minute) const {
        return room + (start - room) * (first * std::exp(-pace * minute) - (first - 1) * std::exp(-lag * pace * minute));
    }
    double arrival(double target) const {
        double low = 0, high = 5'000;
        for (int i = 0; i < 60; ++i) (at((low + high) / 2) > target ? low : high) = (low + high) / 2;
        return high;
    }
};

struct Kind {
    double coldest_room, warmest_room, coldest_start, warmest_start, target;
    Rooms unstated;
};
constexpr Kind custard{-8, 5, 75, 95, 10, {-20, 8}}, loaf{17, 29, 92, 98, 35, {12, 32}};

Coverage of_conduction(const Kind& kind, bool room_known, std::size_t readings) {
    std::mt19937 random(9);
    const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
    std::normal_distribution<double> hand(0, 0.5);
    Coverage coverage;
    for (int run = 0; run < 400; ++run) {
        Core core{between(kind.coldest_room, kind.warmest_room), between(kind.coldest_start, kind.warmest_start), 0, between(4, 9),
                  between(1, 1.35)};
        core.pace = std::log(core.first * (core.start - core.room) / (kind.target - core.room)) / between(50, 200);
        const double truth = core.arrival(kind.target), every = between(5, 20);
        Readings all;
        for (double minute = between(0, 6); minute < truth; minute += every * between(0.7, 1.3)) {
            const double read = core.at(minute) + hand(random);
            all.push_back({std::round(minute), std::round(read * 10) / 10});
            if (all.size() < 2) continue;
            const Readings curve = past_the_knee(all);
            if (curve.size() < readings || curve.back().temperature < kind.target + 1) continue;
            const Rooms known{core.room - 3, core.room + 3};
            coverage.count(forecast_cooling(curve, kind.target, room_known ? known : kind.unstated), truth);
            break;
        }
    }
    return coverage;
}

}  // namespace

TEST_CASE("a forecast of cooling holds nine times of ten, of what is conducted out of a core") {
    for (const Kind& kind : {custard, loaf})
        for (const bool room_known : {true, false})
            for (const std::size_t readings : {4U, 6U}) {
                const Coverage coverage = of_conduction(kind, room_known, readings);
                INFO("target " << kind.target << ", room known " << room_known << ", readings " << readings << ", told " << coverage.told);
                CHECK(coverage.told > 100);
                CHECK(coverage.share() >= 0.9);
            }
}

TEST_CASE("a forecast of cooling holds nine times of ten, of a measured mug of water") {
    Readings measured;
    for (const auto& row : testing::mug_of_water) measured.push_back({row.second / 60, (row.fahrenheit - 32) / 1.8});
    for (const Rooms rooms : {Rooms{21, 27}, Rooms{12, 32}}) {
        Coverage coverage;
        for (const double target : {60.0, 55.0, 50.0, 45.0, 40.0, 38.5}) {
            const auto there = [&](const CoreReading& r) { return r.temperature <= target; };
            const double truth = std::find_if(measured.begin(), measured.end(), there)->minute;
            for (std::size_t from = 0; from < 20; from += 3)
                for (std::size_t every = 2; every <= 6; ++every)
                    for (const std::size_t count : {4U, 6U}) {
                        Readings some;
                        for (std::size_t i = from; i < measured.size() && some.size() < count; i += every) some.push_back(measured[i]);
                        some = past_the_knee(some);
                        if (some.size() < 4 || some.back().temperature < target + 1) continue;
                        coverage.count(forecast_cooling(some, target, rooms), truth);
                    }
        }
        INFO("rooms from " << rooms.coldest << ", told " << coverage.told);
        CHECK(coverage.told > 100);
        CHECK(coverage.share() >= 0.9);
    }
}

TEST_CASE("a forecast says the room that the readings bear out, and never where it is too warm") {
    Readings exact;  // Newton's law, k = 0.02 a minute in 24 C: 35 C after ln(70 / 11) / 0.02 = 92.5 min
    for (const double minute : {0.0, 10.0, 20.0, 30.0, 45.0, 60.0}) exact.push_back({minute, 24 + 70 * std::exp(-0.02 * minute)});
    const auto told = forecast_cooling(exact, 35, {21, 27});
    REQUIRE(told);
    CHECK(std::abs(*told->expected - 92.5) < 5);
    CHECK(*told->earliest < *told->expected);
    CHECK(*told->expected < *told->latest);
    CHECK(std::abs(forecast_cooling(exact, 35, {12, 32})->room - 24) < 6);
    CHECK_FALSE(forecast_cooling(exact, 20, {21, 27})->expected);
    CHECK_FALSE(forecast_cooling(exact, 35, {60, 70}));  // colder than such a room by now
    CHECK_FALSE(forecast_cooling({{0, 90}, {10, 80}}, 35, {21, 27}));
    CHECK_FALSE(forecast_cooling({{0, 80}, {10, 85}, {20, 90}}, 35, {21, 27}));
}
