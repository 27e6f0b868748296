// Many rows of one logger are judged as each row by itself: the worst of them decides.
#include <random>

#include "bench.h"

using namespace bench;

namespace {

plan::Point cold() {
    plan::Point point;
    point.id = "p";
    point.dimension = Dimension::temperature;
    point.limit = plan::RangeLimit{bound("0.5C"), bound("5C | 41F")};
    point.instrument_needed = true;
    return point;
}

}  // namespace

TEST_CASE("the finding of many rows is the worst of the findings of each") {
    std::mt19937 chance(47);
    const plan::Point point = cold();
    for (int round = 0; round < 200; ++round) {
        judge::PlaceRows rows(point, {});
        Verdict worst = Verdict::within;
        std::int64_t outside = 0;
        for (int i = 0; i < 20; ++i) {
            const Measure value = measure_of(static_cast<std::int64_t>(chance() % 6000), Unit::celsius);  // 0 to 6 C
            const auto state = chance() % 9 == 0 ? InstrumentState::lapsed : InstrumentState::valid;
            judge::ReadingFact fact;
            fact.at = clock(0, i);
            fact.value = value;
            fact.instrument = state;
            const auto alone = judge::judge_place_reading(point, fact);
            worst = std::max(worst, alone.verdict);
            outside += alone.verdict == Verdict::deviation ? 1 : 0;
            rows.add(fact.at, value, state);
        }
        REQUIRE(rows.finding().verdict == worst);
        REQUIRE(rows.outside() == outside);
        REQUIRE(rows.rows() == 20);
    }
}

TEST_CASE("the longest stretch outside runs to the first row within again, or to the last") {
    const plan::Point point = cold();
    judge::PlaceRows rows(point, {});
    const std::vector<std::string> values{"3C", "5.1C", "5.2C", "4C", "6C", "6C", "6.5C", "6C"};
    for (std::size_t i = 0; i < values.size(); ++i)
        rows.add(clock(0, static_cast<std::int64_t>(10 * i)), measure(values[i]), InstrumentState::valid);
    CHECK(rows.longest() == minutes(30));  // from minute 40 to 70; the first stretch, from 10 to 30, is shorter
    CHECK(rows.outside() == 6);
    CHECK(rows.finding().measured == "6.5C");
    CHECK(rows.finding().detail ==
          "6.5C is 1.5C above the limit of at most 5C. 8 rows of a logger, 6 outside the limit, the longest "
          "stretch of them 0:30.");
}
