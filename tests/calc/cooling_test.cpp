// Sources: FDA Food Code 2022, 3-501.14(A) and (B); the limits are inclusive ("within"). Cases that only
// follow from the method written in calc/cooling.h say so.
#include "calc/cooling.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace peelbook;
using namespace peelbook::calc;

namespace {

CoolingReading at(std::int64_t hour, std::int64_t minute, std::int64_t milli_c) {
    return {Instant{} + hours(hour) + minutes(minute), milli_c};
}

Instant clock(std::int64_t hour, std::int64_t minute) { return Instant{} + hours(hour) + minutes(minute); }

CoolingRule food_code() { return {57'000, {{21'000, hours(2)}, {5'000, hours(6)}}, false}; }
CoolingRule stage_by_stage() { return {60'000, {{21'000, hours(2)}, {5'000, hours(4)}}, true}; }

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
    std::vector<CoolingReading> readings = {at(10, 0, 82'000),  at(10, 20, 60'000), at(10, 50, 48'000), at(12, 10, 23'000),
                                            at(12, 30, 19'000), at(15, 0, 9'000),   at(16, 10, 4'600)};
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
        input.readings = {at(0, 0, 57'000), at(1, 50, 20'900), at(2, 30, 21'600), at(3, 0, 20'000), at(6, 0, 5'000)};
        const auto r = judge_cooling(food_code(), input);
        CHECK(r.stages[0].verdict == deviation);
        CHECK(r.stages[0].shortest == minutes(150));
    }
    SECTION("after the last limit is reached too, but for those of the keeping") {
        input.readings = {at(0, 0, 57'000), at(1, 50, 20'900), at(5, 0, 5'000), at(7, 0, 30'000)};
        CHECK(judge_cooling(food_code(), input).worst() == deviation);
        input.readings.back().value = 8'000;
        CHECK(judge_cooling(food_code(), input).worst() == deviation);
        input.scatter = 3'000;  // the last time to reach it is over by then
        CHECK(judge_cooling(food_code(), input).worst() == within);
    }
    SECTION("back over the upper limit the clock starts at the later crossing") {
        input.readings = {at(0, 0, 57'000), at(1, 0, 40'000), at(1, 20, 62'000), at(1, 40, 56'000), at(3, 20, 21'000), at(7, 0, 5'000)};
        const auto r = judge_cooling(food_code(), input);
        CHECK(r.stages[0].verdict == within);
        CHECK(r.stages[0].longest == hours(2));
        CHECK(r.stages[0].start.after == clock(1, 20));
    }
    SECTION("but a deviation proven before the reheating stays") {
        input.readings = {at(0, 0, 57'000), at(3, 0, 40'000), at(3, 20, 75'000), at(3, 40, 57'000), at(5, 0, 21'000), at(7, 0, 5'000)};
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
    input.readings = {at(0, 0, 60'000),  at(0, 10, 50'000), at(0, 20, 60'000), at(0, 30, 50'000), at(3, 0, 40'000),
                      at(3, 10, 60'000), at(3, 20, 50'000), at(4, 0, 20'000),  at(5, 0, 5'000)};
    const auto r = judge_cooling(food_code(), input);
    CHECK(r.stages[0].verdict == deviation);
    CHECK(r.stages[0].before_reheating);
    CHECK(r.stages[0].start.by == clock(0, 30));
    CHECK(r.stages[1].verdict == within);

    input.readings.clear();
    for (std::int64_t i = 0; i < 200'000; ++i) input.readings.push_back(at(0, i, i % 2 == 0 ? 60'000 : 50'000));
    CHECK(judge_cooling(food_code(), input).worst() == open);  // hours of work if each part cost all before it
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
    CHECK(check(food_code()).ok());
    CHECK(check(stage_by_stage()).ok());
    CHECK(check(CoolingRule{57'000, {}, false}).refusal().given == "a cooling rule without a stage");
    CHECK(check(CoolingRule{57'000, {{57'000, hours(2)}}, false}).refusal().given ==
          "cooling stage 1 with a target that is not below the one before");
    CHECK(check(CoolingRule{57'000, {{21'000, Duration{}}}, false}).refusal().given == "cooling stage 1 with no time");
    CHECK(check(CoolingRule{57'000, {{21'000, hours(6)}, {5'000, hours(2)}}, false}).refusal().given ==
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
            const double part = static_cast<double>(a.value - threshold) / static_cast<double>(a.value - b.value);
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

bool certain(StageVerdict v) { return v == within || v == deviation; }

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

namespace {

// The same reading by an instrument that may be off by `guard`; negative: by an unknown error.
CoolingReading guarded_at(std::int64_t hour, std::int64_t minute, std::int64_t milli_c, std::int64_t guard) {
    CoolingReading reading = at(hour, minute, milli_c);
    if (guard >= 0) reading.guard = guard;
    return reading;
}

CoolingResult guarded(const CoolingRule& rule, std::vector<CoolingReading> readings, std::optional<Instant> ended = std::nullopt) {
    CoolingInput input;
    input.readings = std::move(readings);
    input.ended = ended;
    return judge_cooling_guarded(rule, input);
}

CoolingRule first_stage() { return {57'000, {{21'000, hours(2)}}, false}; }

int rank(StageVerdict v) {
    constexpr StageVerdict from_best[] = {within, open, unproven, deviation};
    return static_cast<int>(std::find(std::begin(from_best), std::end(from_best), v) - std::begin(from_best));
}

// Any readings: rises, equal moments, unknown errors.
CoolingInput random_input(std::mt19937& random) {
    const auto below = [&](int n) { return static_cast<std::int64_t>(random() % static_cast<unsigned>(n)); };
    CoolingInput input;
    std::int64_t minute = 0, value = 50'000 + below(30'000);
    const auto count = 1 + below(9);
    for (std::int64_t i = 0; i < count; ++i) {
        input.readings.push_back(guarded_at(0, minute, value, below(8) == 0 ? -1 : below(1'500)));
        minute += below(90);
        value += below(5) == 0 ? below(20'000) : -below(25'000);
    }
    if (below(3) == 0) input.known_hot_at = clock(0, below(60));
    if (below(5) == 0) input.started = clock(0, below(60));
    if (below(2) == 0) input.ended = clock(9, 0);
    input.tolerance = below(1'000);
    return input;
}

}  // namespace

// JCGM 106:2012, 8.3.2 (from memory): accepted only when the value with the guard band meets the limit. What that
// makes of a proof between readings follows from calc/cooling.h; the readings are those of rule 5.
TEST_CASE("guarded cooling: a target is reached by a reading that is at or below it for certain") {
    const auto to_the_target = [&](std::int64_t last, std::int64_t guard) {
        return guarded(first_stage(), {guarded_at(0, 0, 82'000, guard), guarded_at(0, 20, 60'000, guard), guarded_at(0, 50, 48'000, guard),
                                       guarded_at(2, 10, 23'000, guard), guarded_at(2, 20, last, guard)})
            .stages[0];
    };
    CHECK(to_the_target(20'800, 200).verdict == within);  // the band's edge meets
    CHECK_FALSE(to_the_target(20'800, 200).by_guard);
    CHECK(to_the_target(20'800, 201).verdict == unproven);
    CHECK(to_the_target(20'800, 201).by_guard);
    CHECK(to_the_target(21'001, 5'000).verdict == unproven);  // as read: 1:20 to more than 2:00
    CHECK_FALSE(to_the_target(21'001, 5'000).by_guard);
}

TEST_CASE("guarded cooling: a clock starts at the last reading that is above for certain") {
    const auto from_the_start = [&](std::int64_t hot, std::int64_t guard) {
        return guarded(first_stage(), {guarded_at(0, 0, 82'000, guard), guarded_at(0, 20, hot, guard), guarded_at(0, 50, 48'000, guard),
                                       guarded_at(2, 15, 20'000, guard)})
            .stages[0];
    };
    CHECK(from_the_start(57'200, 0).longest == hours(1) + minutes(55));
    CHECK(from_the_start(57'200, 200).verdict == within);  // 57.0 at the least: the crossing, not before
    CHECK(from_the_start(57'200, 201).verdict == unproven);
    CHECK(from_the_start(57'200, 201).longest == hours(2) + minutes(15));  // from 82 C
    // With no reading above for certain nothing bounds it.
    CHECK_FALSE(guarded(first_stage(), {guarded_at(0, 0, 57'200, 300), guarded_at(0, 10, 20'000, 300)}).stages[0].longest);
}

TEST_CASE("guarded cooling is open while a reading can still show it, then unproven") {
    const std::vector<CoolingReading> so_far{guarded_at(0, 0, 57'500, 300), guarded_at(1, 30, 20'800, 300)};
    const auto now = guarded(first_stage(), so_far).stages[0];
    CHECK(now.verdict == open);
    CHECK(now.by_guard);
    CHECK(now.prove_by == clock(2, 0));
    CHECK(guarded(first_stage(), so_far, clock(1, 40)).stages[0].verdict == unproven);
    auto later = so_far;
    later.push_back(guarded_at(2, 0, 20'700, 300));
    CHECK(guarded(first_stage(), later).stages[0].verdict == within);
    later.back().value = 20'701;
    CHECK(guarded(first_stage(), later).stages[0].verdict == unproven);
}

TEST_CASE("guarded cooling excuses nothing, and a reading of unknown error shows nothing") {
    for (const std::int64_t guard : {0, 5'000, -1}) {
        const auto late = guarded(first_stage(), {guarded_at(0, 0, 57'000, guard), guarded_at(2, 1, 21'000, guard)});
        CHECK(late.stages[0].verdict == deviation);
    }
    const auto with_last = [&](std::int64_t guard) {
        return guarded(first_stage(), {guarded_at(0, 0, 60'000, 100), guarded_at(1, 0, 20'000, guard)}, clock(3, 0)).stages[0].verdict;
    };
    CHECK(with_last(100) == within);
    CHECK(with_last(-1) == unproven);
}

TEST_CASE("guarded cooling, each stage from the one before: the later clock starts above for certain too") {
    const auto second = [&](std::int64_t guard) {
        return guarded(stage_by_stage(), {guarded_at(0, 0, 60'500, guard), guarded_at(1, 50, 21'200, guard),
                                          guarded_at(2, 0, 20'500, guard), guarded_at(5, 40, 4'500, guard)});
    };
    CHECK(second(200).worst() == within);  // 21.0 at the least at 1:50, so 3:50 at the most
    CHECK(second(201).stages[0].verdict == within);
    CHECK(second(201).stages[1].verdict == unproven);
    CHECK(second(201).stages[1].longest == hours(5) + minutes(40));
    CHECK(second(201).stages[1].shortest == hours(0));  // as read: from 2:00 at the latest to 2:00 at the earliest
}

TEST_CASE("guarded cooling is never milder than simple, the same without an error, and never milder by a larger one") {
    std::mt19937 random(20261128);
    int differ = 0;
    for (int run = 0; run < 20'000; ++run) {
        const CoolingRule rule = run % 2 == 0 ? food_code() : stage_by_stage();
        CoolingInput input = random_input(random);
        const auto simple = judge_cooling(rule, input);
        const auto strict = judge_cooling_guarded(rule, input);
        CoolingInput exact = input, wider = input;
        for (auto& r : exact.readings) r.guard = 0;
        for (auto& r : wider.readings)
            if (r.guard) *r.guard *= 2;
        const auto same = judge_cooling_guarded(rule, exact);
        const auto stricter = judge_cooling_guarded(rule, wider);
        for (std::size_t i = 0; i < simple.stages.size(); ++i) {
            INFO("run " << run << ", stage " << i);
            REQUIRE(rank(strict.stages[i].verdict) >= rank(simple.stages[i].verdict));
            REQUIRE((strict.stages[i].verdict == deviation) == (simple.stages[i].verdict == deviation));
            REQUIRE(same.stages[i].verdict == simple.stages[i].verdict);
            REQUIRE((stricter.stages[i].verdict != within || strict.stages[i].verdict == within));
            differ += strict.stages[i].verdict != simple.stages[i].verdict ? 1 : 0;
        }
    }
    CHECK(differ > 100);
}

TEST_CASE("guarded cooling within stays within whatever the instruments were off by, on a falling series") {
    std::mt19937 random(106);
    int shown = 0;
    for (int run = 0; run < 4'000; ++run) {
        const CoolingRule rule = run % 2 == 0 ? food_code() : stage_by_stage();
        CoolingInput input;
        std::int64_t minute = 0;
        for (std::int64_t value = 75'000; value > 1'000; value -= 2'001 + static_cast<std::int64_t>(random() % 9'000)) {
            input.readings.push_back(guarded_at(0, minute, value, static_cast<std::int64_t>(random() % 1'000)));
            minute += 5 + static_cast<std::int64_t>(random() % 40);
        }
        if (judge_cooling_guarded(rule, input).worst() != within) continue;
        ++shown;
        for (int turn = 0; turn < 10; ++turn) {
            CoolingInput off = input;
            for (auto& r : off.readings) {
                const auto guard = *r.guard;
                r.value += turn == 0   ? guard
                           : turn == 1 ? -guard
                                       : static_cast<std::int64_t>(random() % static_cast<unsigned>(2 * guard + 1)) - guard;
            }
            INFO("run " << run << ", turn " << turn);
            REQUIRE(judge_cooling(rule, off).worst() == within);
        }
    }
    CHECK(shown > 50);
}
