// Sources: FDA Food Code 2022, 3-501.14(A) and (B); the limits are inclusive ("within"). Cases that only
// follow from the method written in calc/cooling.h say so.
#include "calc/cooling.h"

#include <catch2/catch.hpp>
#include <random>

using namespace peelbook;
using namespace peelbook::calc;

namespace {

CoolingReading at(std::int64_t hour, std::int64_t minute, std::int64_t milli_c) {
    return {Instant{} + hours(hour) + minutes(minute), milli_c};
}

Instant clock(std::int64_t hour, std::int64_t minute) {
    return Instant{} + hours(hour) + minutes(minute);
}

CoolingRule food_code() {
    return {57'000, {{21'000, hours(2)}, {5'000, hours(6)}}, false};
}
CoolingRule stage_by_stage() {
    return {60'000, {{21'000, hours(2)}, {5'000, hours(4)}}, true};
}

CoolingResult judge(const CoolingRule& rule, std::vector<CoolingReading> readings) {
    CoolingInput input;
    input.readings = std::move(readings);
    return judge_cooling(rule, input);
}

constexpr auto within = StageVerdict::within;
constexpr auto unproven = StageVerdict::unproven;
constexpr auto deviation = StageVerdict::deviation;
constexpr auto open = StageVerdict::open;

}  // namespace

TEST_CASE("Food Code two-stage cooling at its boundaries") {
    // Exact readings of the thresholds: 3-501.14(A), "within 2 hours" and "within a total of 6 hours".
    SECTION("21 C at 2:00 and 5 C at 6:00 passes") {
        const auto r = judge(food_code(), {at(0, 0, 57'000), at(2, 0, 21'000), at(6, 0, 5'000)});
        CHECK(r.stages[0].verdict == within);
        CHECK(r.stages[1].verdict == within);
        CHECK(r.stages[0].shortest == hours(2));
        CHECK(r.stages[0].longest == hours(2));
        CHECK(r.worst() == within);
    }
    SECTION("21 C at 2:01 fails the first stage") {
        const auto r = judge(food_code(), {at(0, 0, 57'000), at(2, 1, 21'000), at(5, 0, 5'000)});
        CHECK(r.stages[0].verdict == deviation);
        CHECK(r.stages[1].verdict == within);
        CHECK(r.worst() == deviation);
    }
    SECTION("1 h and 5 h passes: the total counts from the start") {
        const auto r = judge(food_code(), {at(0, 0, 57'000), at(1, 0, 21'000), at(6, 0, 5'000)});
        CHECK(r.worst() == within);
    }
    SECTION("5 C at 6:01 fails the total") {
        const auto r = judge(food_code(), {at(0, 0, 57'000), at(1, 30, 21'000), at(6, 1, 5'000)});
        CHECK(r.stages[0].verdict == within);
        CHECK(r.stages[1].verdict == deviation);
    }
    SECTION("above 21 C when the two hours are over is a deviation, whenever it arrives") {
        const auto r = judge(food_code(), {at(0, 0, 57'000), at(2, 0, 21'100)});
        CHECK(r.stages[0].verdict == deviation);
        CHECK(r.stages[1].verdict == open);
    }
}

TEST_CASE("each stage from the one before") {
    // 60 C to 21 C in 2 h, then to 5 C in 4 h more (the Australian and New Zealand form; second part from
    // memory).
    const std::vector<CoolingReading> quick_then_slow = {at(0, 0, 60'000), at(1, 0, 21'000), at(6, 0, 5'000)};
    CoolingRule rule = stage_by_stage();
    CHECK(judge(rule, quick_then_slow).stages[1].verdict == deviation);  // 5 h for the second stage
    rule.each_from_previous = false;
    rule.stages[1].within = hours(6);
    CHECK(judge(rule, quick_then_slow).stages[1].verdict == within);
    CHECK(judge(stage_by_stage(), {at(0, 0, 60'000), at(2, 0, 21'000), at(6, 0, 5'000)}).worst() == within);
}

TEST_CASE("food made at ambient temperature: 5 C within 4 hours of being made") {
    // Food Code 3-501.14(B). The clock starts at the event.
    const CoolingRule rule{21'000, {{5'000, hours(4)}}, false};
    CoolingInput input;
    input.started = clock(10, 0);
    input.readings = {at(10, 30, 18'000), at(14, 0, 5'000)};
    CHECK(judge_cooling(rule, input).worst() == within);
    input.readings = {at(10, 30, 18'000), at(14, 1, 5'000)};
    CHECK(judge_cooling(rule, input).worst() == deviation);
    input.readings = {at(10, 30, 18'000), at(14, 1, 4'900)};
    CHECK(judge_cooling(rule, input).worst() == unproven);
}

TEST_CASE("Fahrenheit limits are compared in Fahrenheit") {
    // 135 F, 70 F, 41 F in millionths of a degree: 70 F is 21.111 C and yet meets the limit.
    const CoolingRule rule{135'000'000, {{70'000'000, hours(2)}, {41'000'000, hours(6)}}, false};
    const auto r = judge(rule, {at(0, 0, 135'000'000), at(2, 0, 70'000'000), at(6, 0, 41'000'000)});
    CHECK(r.worst() == within);
    const auto late = judge(rule, {at(0, 0, 135'000'000), at(2, 0, 70'100'000), at(2, 1, 70'000'000)});
    CHECK(late.stages[0].verdict == deviation);
}

TEST_CASE("sparse readings bound the first stage from both sides") {
    // Worked by hand from the method: the start lies between 10:20 and 10:50, 21 C between 12:10 and 12:30.
    std::vector<CoolingReading> readings = {at(10, 0, 82'000),  at(10, 20, 60'000), at(10, 50, 48'000),
                                            at(12, 10, 23'000), at(12, 30, 19'000), at(15, 0, 9'000),
                                            at(16, 10, 4'600)};
    auto r = judge(food_code(), readings);
    CHECK(r.stages[0].verdict == unproven);
    CHECK(r.stages[0].shortest == minutes(80));
    CHECK(r.stages[0].longest == minutes(130));
    CHECK(r.stages[0].start.after == clock(10, 20));
    CHECK(r.stages[0].start.by == clock(10, 50));
    CHECK(r.stages[0].end.after == clock(12, 10));
    CHECK(r.stages[0].end.by == clock(12, 30));
    CHECK(r.stages[0].prove_by == clock(12, 20));
    CHECK(r.stages[1].verdict == within);  // 16:10 is 5:50 after 10:20
    CHECK(r.stages[1].longest == minutes(350));

    readings.insert(readings.begin() + 4, at(12, 20, 20'800));
    CHECK(judge(food_code(), readings).stages[0].verdict == within);
    CHECK(judge(food_code(), readings).stages[0].longest == hours(2));

    readings[4].value = 21'500;
    r = judge(food_code(), readings);
    CHECK(r.stages[0].verdict == unproven);
    CHECK(r.stages[0].shortest == minutes(90));
    CHECK(r.stages[0].longest == minutes(130));
}

TEST_CASE("without a record above the upper limit nothing can be within") {
    CoolingInput input;
    input.readings = {at(10, 50, 48'000), at(11, 30, 20'000), at(13, 0, 5'000)};
    const auto r = judge_cooling(food_code(), input);
    CHECK(r.stages[0].verdict == unproven);
    CHECK_FALSE(r.stages[0].longest.has_value());
    CHECK(r.stages[0].shortest == Duration{});
    CHECK(r.stages[1].verdict == unproven);

    SECTION("the end of the bake is such a record") {
        input.known_hot_at = clock(10, 0);
        const auto known = judge_cooling(food_code(), input);
        CHECK(known.worst() == within);
        CHECK(known.stages[0].longest == minutes(90));
    }
    SECTION("but not when a reading before it is already below") {
        input.known_hot_at = clock(11, 0);
        CHECK(judge_cooling(food_code(), input).stages[0].verdict == unproven);
    }
    SECTION("a deviation can still be certain") {
        input.readings = {at(10, 50, 48'000), at(13, 0, 25'000), at(14, 0, 20'000)};
        CHECK(judge_cooling(food_code(), input).stages[0].verdict == deviation);
        CHECK(judge_cooling(food_code(), input).stages[0].shortest == minutes(130));
    }
}

TEST_CASE("rises during cooling") {
    CoolingInput input;
    input.tolerance = 500;
    SECTION("within the tolerance they do not matter") {
        input.readings = {at(0, 0, 57'000), at(1, 50, 20'900), at(2, 30, 21'500), at(6, 0, 5'000)};
        CHECK(judge_cooling(food_code(), input).worst() == within);
    }
    SECTION("beyond it the later crossing is judged") {
        input.readings = {at(0, 0, 57'000), at(1, 50, 20'900), at(2, 30, 21'600), at(3, 0, 20'000),
                          at(6, 0, 5'000)};
        const auto r = judge_cooling(food_code(), input);
        CHECK(r.stages[0].verdict == deviation);
        CHECK(r.stages[0].shortest == minutes(150));
    }
    SECTION("after the last limit is reached they do not matter") {
        input.readings = {at(0, 0, 57'000), at(1, 50, 20'900), at(5, 0, 5'000), at(7, 0, 30'000)};
        CHECK(judge_cooling(food_code(), input).worst() == within);
    }
    SECTION("back over the upper limit the clock starts at the later crossing") {
        input.readings = {at(0, 0, 57'000),  at(1, 0, 40'000),  at(1, 20, 62'000),
                          at(1, 40, 56'000), at(3, 20, 21'000), at(7, 0, 5'000)};
        const auto r = judge_cooling(food_code(), input);
        CHECK(r.stages[0].verdict == within);
        CHECK(r.stages[0].longest == hours(2));
        CHECK(r.stages[0].start.after == clock(1, 20));
    }
    SECTION("but a deviation proven before the reheating stays") {
        input.readings = {at(0, 0, 57'000),  at(3, 0, 40'000), at(3, 20, 75'000),
                          at(3, 40, 57'000), at(5, 0, 21'000), at(7, 0, 5'000)};
        const auto r = judge_cooling(food_code(), input);
        CHECK(r.stages[0].verdict == deviation);
        CHECK(r.stages[0].before_reheating);
        CHECK(r.stages[1].verdict == within);
        CHECK(r.worst() == deviation);
    }
}

TEST_CASE(
    "a deviation before any of several reheatings is kept, and many readings cost no more than their "
    "number") {
    CoolingInput input;
    input.readings = {at(0, 0, 60'000),  at(0, 10, 50'000), at(0, 20, 60'000),
                      at(0, 30, 50'000), at(3, 0, 40'000),  at(3, 10, 60'000),
                      at(3, 20, 50'000), at(4, 0, 20'000),  at(5, 0, 5'000)};
    const auto r = judge_cooling(food_code(), input);
    CHECK(r.stages[0].verdict == deviation);
    CHECK(r.stages[0].before_reheating);
    CHECK(r.stages[0].start.by == clock(0, 30));
    CHECK(r.stages[1].verdict == within);

    input.readings.clear();
    for (std::int64_t i = 0; i < 200'000; ++i)
        input.readings.push_back(at(0, i, i % 2 == 0 ? 60'000 : 50'000));
    CHECK(judge_cooling(food_code(), input).worst() ==
          open);  // hours of work if each part cost all before it
}

TEST_CASE("a stage that is not finished") {
    CoolingInput input;
    SECTION("is open while a reading could still prove it") {
        input.readings = {at(10, 0, 60'000), at(10, 30, 50'000), at(11, 59, 22'000)};
        const auto r = judge_cooling(food_code(), input);
        CHECK(r.stages[0].verdict == open);
        CHECK(r.stages[0].shortest == minutes(89));
        CHECK(r.stages[0].prove_by == clock(12, 0));
        CHECK(r.worst() == open);
    }
    SECTION("is unproven when no reading can prove it any more") {
        input.readings = {at(10, 0, 60'000), at(10, 30, 50'000), at(12, 0, 22'000)};
        CHECK(judge_cooling(food_code(), input).stages[0].verdict == unproven);
    }
    SECTION("is a deviation when it took too long for certain") {
        input.readings = {at(10, 0, 60'000), at(10, 30, 50'000), at(12, 30, 22'000)};
        CHECK(judge_cooling(food_code(), input).stages[0].verdict == deviation);
    }
    SECTION("is unproven when it ended without the reading") {
        input.readings = {at(10, 0, 60'000), at(10, 30, 50'000)};
        input.ended = clock(13, 0);
        CHECK(judge_cooling(food_code(), input).worst() == unproven);
    }
    SECTION("has not begun above the upper limit") {
        input.readings = {at(10, 0, 82'000), at(11, 0, 58'000)};
        CHECK(judge_cooling(food_code(), input).worst() == open);
        input.ended = clock(12, 0);
        CHECK(judge_cooling(food_code(), input).worst() == unproven);
    }
    SECTION("has not begun without readings") {
        CHECK(judge_cooling(food_code(), input).worst() == open);
        input.known_hot_at = clock(10, 0);
        CHECK(judge_cooling(food_code(), input).worst() == open);
    }
    SECTION("of several readings at one instant the warmest counts") {
        input.readings = {at(0, 0, 57'000), at(2, 0, 20'000), at(2, 0, 22'000)};
        CHECK(judge_cooling(food_code(), input).stages[0].verdict == deviation);
    }
}

TEST_CASE("a cooling rule that cannot be is refused") {
    CHECK_FALSE(check(food_code()).has_value());
    CHECK_FALSE(check(stage_by_stage()).has_value());
    CHECK(check(CoolingRule{57'000, {}, false})->given == "a cooling rule without a stage");
    CHECK(check(CoolingRule{57'000, {{57'000, hours(2)}}, false})->given ==
          "cooling stage 1 with a target that is not below the one before");
    CHECK(check(CoolingRule{57'000, {{21'000, Duration{}}}, false})->given == "cooling stage 1 with no time");
    CHECK(check(CoolingRule{57'000, {{21'000, hours(6)}, {5'000, hours(2)}}, false})->given ==
          "cooling stage 2 with a total time shorter than the stage before");
}

namespace {

// A strictly falling straight-piece curve through random corners: the truth that sparse readings are taken
// from.
struct FallingCurve {
    std::vector<CoolingReading> corners;  // a corner each few minutes

    explicit FallingCurve(std::mt19937& random) {
        std::uniform_int_distribution<std::int64_t> gap(2, 40), start(58'000, 95'000);
        std::int64_t minute = 0, value = start(random);
        while (value > 2'000) {
            corners.push_back(at(0, minute, value));
            std::uniform_int_distribution<std::int64_t> fall(1, value / 4 + 1'000);
            minute += gap(random);
            value -= fall(random);
        }
        corners.push_back(at(0, minute, value));
    }

    double crossing_ms(std::int64_t threshold) const {
        for (std::size_t i = 1; i < corners.size(); ++i) {
            if (corners[i].value > threshold) continue;
            const auto &a = corners[i - 1], &b = corners[i];
            const double part =
                static_cast<double>(a.value - threshold) / static_cast<double>(a.value - b.value);
            return static_cast<double>(a.at.ms) + part * static_cast<double>(b.at.ms - a.at.ms);
        }
        return -1;
    }

    std::vector<CoolingReading> some(std::mt19937& random) const {
        std::vector<CoolingReading> kept;
        for (const auto& c : corners) {
            if (random() % 3 != 0) kept.push_back(c);
        }
        return kept;
    }
};

bool certain(StageVerdict v) {
    return v == within || v == deviation;
}

}  // namespace

TEST_CASE("on strictly falling series no certain verdict is ever wrong") {
    std::mt19937 random(20261125);
    const CoolingRule rule = food_code();
    int seen_within = 0, seen_deviation = 0;
    for (int i = 0; i < 20'000; ++i) {
        const FallingCurve curve(random);
        CoolingInput input;
        input.readings = curve.some(random);
        if (i % 2 == 0) input.ended = curve.corners.back().at;
        const double start = curve.crossing_ms(57'000);
        const auto r = judge_cooling(rule, input);
        for (std::size_t s = 0; s < 2; ++s) {
            const CoolingStage& stage = rule.stages[s];
            const double took = curve.crossing_ms(stage.to) - start;
            const double limit = static_cast<double>(stage.within.ms);
            if (r.stages[s].verdict == within) {
                ++seen_within;
                REQUIRE(took <= limit + 1e-3);
            }
            if (r.stages[s].verdict == deviation) {
                ++seen_deviation;
                REQUIRE(took > limit - 1e-3);
            }
            REQUIRE(static_cast<double>(r.stages[s].shortest.ms) <= took + 1e-3);
            if (r.stages[s].longest) REQUIRE(static_cast<double>(r.stages[s].longest->ms) >= took - 1e-3);
        }
    }
    CHECK(seen_within > 1'000);
    CHECK(seen_deviation > 1'000);
}

TEST_CASE("removing a reading from a strictly falling series may change a verdict only to unproven") {
    std::mt19937 random(1125);
    int changed = 0;
    for (int i = 0; i < 4'000; ++i) {
        const FallingCurve curve(random);
        for (const CoolingRule& rule : {food_code(), stage_by_stage()}) {
            CoolingInput input;
            input.readings = curve.some(random);
            input.ended = curve.corners.back().at;
            const auto before = judge_cooling(rule, input);
            for (std::size_t gone = 0; gone < input.readings.size(); ++gone) {
                CoolingInput fewer = input;
                fewer.readings.erase(fewer.readings.begin() + static_cast<std::ptrdiff_t>(gone));
                const auto after = judge_cooling(rule, fewer);
                for (std::size_t s = 0; s < before.stages.size(); ++s) {
                    if (after.stages[s].verdict == before.stages[s].verdict) continue;
                    ++changed;
                    REQUIRE(certain(before.stages[s].verdict));
                    REQUIRE(after.stages[s].verdict == unproven);
                }
            }
        }
    }
    CHECK(changed > 1'000);
}
