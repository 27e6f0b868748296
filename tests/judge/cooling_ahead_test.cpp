// Predictions of cooling. The curve is Newton's, T = room + (start - room) e^(-k t): its arrival times follow
// by hand. The forecast allows for curves that bend otherwise (calc/forecast.h), so it comes near to them only.
#include "judge/cooling_ahead.h"

#include <cmath>

#include "judge/bench.h"

using namespace bench;
using judge::CoolingAhead;

namespace {

plan::Point cooling() { return point("cool", food_code()); }

// Readings of an exact curve from 80 C in a room of 4 C, every ten minutes from 05:00, to 0.1 C as a probe
// shows them.
Batch newton(double k_per_min, int readings) {
    Batch batch;
    for (int i = 0; i < readings; ++i) {
        const double t = 4 + 76 * std::exp(-k_per_min * 10 * i);
        batch.read(clock(5, 10 * i), to_text(measure_of(std::llround(t * 10) * 100, Unit::celsius)));
    }
    return batch;
}

std::int64_t minutes_after(Instant a, Instant b) { return (a - b).ms / 60'000; }

}  // namespace

TEST_CASE("a cooling tray is predicted from three readings, with the limit of its stage") {
    // k = 0.015 a minute: 21 C after ln(76 / 17) / 0.015 = 99.8 min; 57 C is passed between 20 min (60.3 C)
    // and 30 min (52.5 C).
    const auto all = judge::cooling_ahead(cooling(), newton(0.015, 5).facts, measure("4C"));
    REQUIRE(all.size() == 1);
    const CoolingAhead& ahead = all[0];
    CHECK(std::abs(minutes_after(*ahead.at, clock(5, 0)) - 100) <= 5);
    CHECK(ahead.limit == clock(7, 20));  // two hours from 60.3 C, the last reading above 57 C
    CHECK(ahead.target.first == measure("21C"));
    CHECK_FALSE(ahead.room_fitted);
    CHECK(ahead.room_c == Approx(4));
    REQUIRE(ahead.earliest);
    REQUIRE(ahead.latest);
    CHECK(*ahead.earliest <= *ahead.at);
    CHECK(*ahead.at <= *ahead.latest);
    CHECK_FALSE(ahead.late());
    CHECK_FALSE(ahead.may_be_late());
}

TEST_CASE("a tray that cools too slowly is told while there is time to act") {
    // k = 0.009: 21 C after 166 min, 57 C passed between 40 and 50 min: the limit is 05:40 + 2 h = 07:40, the
    // arrival 07:46.
    const auto all = judge::cooling_ahead(cooling(), newton(0.009, 6).facts, measure("4C"));
    REQUIRE(all.size() == 1);
    CHECK(all[0].limit == clock(7, 40));
    CHECK(std::abs(minutes_after(*all[0].at, clock(5, 0)) - 166) <= 10);
    CHECK(all[0].late());
}

TEST_CASE("without a room a chiller's is given, and in a warm room the target is never reached") {
    const auto fitted = judge::cooling_ahead(cooling(), newton(0.015, 6).facts, std::nullopt);
    REQUIRE(fitted.size() == 1);
    CHECK(fitted[0].room_fitted);
    CHECK(fitted[0].room_c > -20);
    CHECK(fitted[0].room_c < 8);
    CHECK(*fitted[0].earliest <= clock(6, 40));  // 99.8 min
    CHECK(*fitted[0].latest >= clock(6, 40));
    Batch warm;
    for (int i = 0; i < 6; ++i)
        warm.read(clock(5, 10 * i), to_text(measure_of(std::llround((24 + 56 * std::exp(-0.02 * 10 * i)) * 10) * 100, Unit::celsius)));
    const auto never = judge::cooling_ahead(cooling(), warm.facts, measure("24C"));
    REQUIRE(never.size() == 1);
    CHECK(never[0].never());
    CHECK(never[0].late());
}

TEST_CASE("nobody is warned before the third reading past the knee") {
    // A core that lags: it hardly falls for ten minutes, then by k = 0.009, too slowly (as above).
    const auto tray = [](int readings) {
        Batch batch = Batch().read(clock(4, 50), "80.3C").read(clock(4, 55), "80.1C");
        for (auto& r : newton(0.009, readings).facts.readings) batch.read(r.at, to_text(r.value));
        return batch;
    };
    const auto told = [&](int readings) { return judge::cooling_ahead(cooling(), tray(readings).facts, measure("4C")); };
    CHECK(told(2).empty());  // two in the fall itself, at 80 C and 73.5 C
    for (const int readings : {3, 4}) {
        REQUIRE(told(readings).size() == 1);
        CHECK(told(readings)[0].readings == static_cast<std::size_t>(readings));
    }
    CHECK_FALSE(told(3)[0].settled);
    CHECK_FALSE(told(3)[0].late());
    CHECK_FALSE(told(3)[0].may_be_late());
    CHECK(told(4)[0].settled);
    CHECK(told(6)[0].late());
}

TEST_CASE("a stage that is broken already is passed over for the next") {
    // Hot at 05:40, below 57 C by 06:00, still 25 C at 08:01: the two hours are over, and 5 C in six can still be shown.
    Batch batch = Batch().read(clock(5, 40), "58C").read(clock(6, 0), "50C").read(clock(7, 0), "35C").read(clock(8, 1), "25C");
    CHECK(judge::judge_point(cooling(), batch.facts).findings.size() == 1);
    const auto due = judge::next_stage(cooling(), batch.facts);
    REQUIRE(due);
    CHECK(due->to.first == measure("5C"));
    CHECK(due->due == clock(11, 40));
}

TEST_CASE("nothing is predicted from two readings, of voided ones, or once the target is reached") {
    CHECK(judge::cooling_ahead(cooling(), newton(0.015, 2).facts, measure("4C")).empty());
    Batch batch = newton(0.015, 3);
    batch.void_reading(1);
    CHECK(judge::cooling_ahead(cooling(), batch.facts, measure("4C")).empty());
    const plan::Point pack = point("cool", plan::BeforePackingLimit{bound("34C")});
    const auto ahead = judge::cooling_ahead(pack, newton(0.015, 4).facts, measure("4C"));
    REQUIRE(ahead.size() == 1);  // 34 C after ln(76 / 30) / 0.015 = 62 min; packing has no limit in time
    CHECK(std::abs(minutes_after(*ahead[0].at, clock(5, 0)) - 62) <= 4);
    CHECK_FALSE(ahead[0].limit);
    CHECK_FALSE(ahead[0].late());
    CHECK(judge::cooling_ahead(pack, newton(0.015, 8).facts, measure("4C")).empty());  // 30.6 C: cold enough
}

TEST_CASE("the next stage of a cooling: its clock, its deadline, and an event that starts it") {
    Batch batch = Batch().read(clock(5, 0), "80C");
    auto due = judge::next_stage(cooling(), batch.facts);
    REQUIRE(due);
    CHECK(due->opens == clock(5, 0));  // last known above 57 C
    CHECK(due->due == clock(7, 0));
    batch.read(clock(5, 20), "60C").read(clock(5, 40), "50C").read(clock(7, 0), "20C");
    due = judge::next_stage(cooling(), batch.facts);
    REQUIRE(due);
    CHECK(due->to.first == measure("5C"));
    CHECK(due->due == clock(11, 20));
    batch.read(clock(10, 0), "4C");
    CHECK_FALSE(judge::next_stage(cooling(), batch.facts));
    // Food Code 3-501.14(B): from ingredients at ambient temperature to 5 C within 4 h.
    plan::CoolingLimit ambient{bound("21C | 70F"), {{bound("5C | 41F"), hours(4)}}, false, "", "mix"};
    const plan::Point p = point("cool", ambient);
    CHECK_FALSE(judge::next_stage(p, Batch().facts));
    due = judge::next_stage(p, Batch().step("mix", clock(5, 0)).facts);
    REQUIRE(due);
    CHECK(due->due == clock(9, 0));
    // Each stage from the one before: the second runs from the last reading above 21 C.
    plan::CoolingLimit previous{bound("60C"), {{bound("21C"), hours(2)}, {bound("5C"), hours(4)}}, true, "", ""};
    due = judge::next_stage(point("cool", previous),
                            Batch().read(clock(5, 0), "70C").read(clock(6, 0), "25C").read(clock(6, 30), "20C").facts);
    REQUIRE(due);
    CHECK(due->due == clock(10, 0));
}
