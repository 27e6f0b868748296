// The hour that a logger's clock showed twice (rule 55): its rows are of the first or of the second, and the harder counts.
#include "judge/hours.h"

#include "judge/bench.h"

using namespace bench;

namespace {

Batch logged() {
    Batch batch = Batch().read(clock(1, 0), "70C").read(clock(1, 20), "50C").read(clock(2, 50), "20.5C").read(clock(6, 0), "4.5C");
    batch.facts.readings[2].or_at = clock(3, 50);
    return batch;
}

}  // namespace

TEST_CASE("rows of an hour that may be the second are judged both ways") {
    const auto later = judge::in_the_second_hour(point("cool", food_code()), logged().facts);
    REQUIRE(later);
    CHECK(later->readings[2].at == clock(3, 50));
    // From 70 C at 01:00 it is 1:50 to 20.5 C, or 2:50.
    const Finding finding = only(point("cool", food_code()), logged().step("cool", clock(6, 10)));
    CHECK(finding.verdict == Verdict::unproven);
    CHECK(finding.measured == "0:00-2:50 to 21C");
    Batch sure = logged();
    sure.facts.readings[2].or_at.reset();
    CHECK_FALSE(judge::in_the_second_hour(point("cool", food_code()), sure.facts));
    CHECK(verdict(point("cool", food_code()), sure) == Verdict::within);
    plan::Point other = point("cool", food_code());
    other.id = "q";
    CHECK_FALSE(judge::in_the_second_hour(other, logged().facts));
}

TEST_CASE("in the second hour the rows may come behind others") {
    Batch batch = logged().read(clock(3, 10), "15C");
    batch.facts.readings[4].at = clock(3, 10);
    const auto later = judge::in_the_second_hour(point("cool", food_code()), batch.facts);
    REQUIRE(later);
    for (std::size_t i = 1; i < later->readings.size(); ++i) CHECK(later->readings[i - 1].at <= later->readings[i].at);
    // 20.5 C after 15 C contradicts it.
    CHECK(verdict(point("cool", food_code()), batch.step("cool", clock(6, 10))) == Verdict::unproven);
}
