// pH that must have fallen in time: the three-valued proof of staged cooling, on pH. The rule is this
// program's own; ripe rye leaven near pH 4 is common practice.
#include "judge/bench.h"

using namespace bench;

namespace {

plan::Point souring() { return point("bake", plan::SouringLimit{"mix", {{bound("4.8pH"), hours(6)}, {bound("4.2pH"), hours(12)}}}); }

}  // namespace

TEST_CASE("a souring is proven, broken or unproven by the readings on both sides of its target") {
    const auto of = [](Instant above, Instant below) {
        return Batch()
            .step("mix", clock(5, 0))
            .read(clock(10, 30), "4.7pH")
            .read(above, "4.3pH")
            .read(below, "4.15pH")
            .step("bake", clock(20, 0));
    };
    CHECK(verdict(souring(), of(clock(15, 0), clock(17, 0))) == Verdict::within);      // 12:00, inclusive
    CHECK(verdict(souring(), of(clock(16, 0), clock(17, 1))) == Verdict::unproven);    // crossed between 11:00 and 12:01
    CHECK(verdict(souring(), of(clock(17, 0), clock(17, 30))) == Verdict::deviation);  // still 4.3 at 12:00
    const Finding f = only(souring(), of(clock(15, 0), clock(17, 0)));
    CHECK(f.measured == "0:00-5:30 to 4.8pH, 10:00-12:00 to 4.2pH");
    CHECK(f.detail.find("mix to 4.2pH within 12:00: took 10:00-12:00; end between 4.3pH and 4.15pH.") != std::string::npos);
    CHECK(f.detail.starts_with("mix to 4.8pH within 6:00: took 0:00-5:30; end between mix and 4.7pH. "));
    CHECK(f.detail.ends_with("pH assumed to fall strictly between readings."));
}

TEST_CASE("a souring is open until its step is over, and unproven without its start") {
    const Judged open = judge::judge_point(souring(), Batch().step("mix", clock(5, 0)).read(clock(8, 0), "5.1pH").facts);
    CHECK(open.standing == Standing::open);
    CHECK(open.next == "4.8pH within 3:00 of the last reading");
    CHECK(standing(souring(), Batch().read(clock(8, 0), "4.1pH")) == Standing::open);
    CHECK(verdict(souring(), Batch().read(clock(8, 0), "4.1pH").step("bake", clock(20, 0))) == Verdict::unproven);
    CHECK(verdict(souring(), Batch().step("mix", clock(5, 0)).step("bake", clock(20, 0))) == Verdict::missing);
}

TEST_CASE("rule 54: a pH that comes too soon, or rises again, shows no souring") {
    const auto leaven = [](std::string_view early) {
        return Batch().step("mix", clock(5, 0)).read(clock(6, 0), early).read(clock(10, 0), "4.6pH").read(clock(14, 0), "4.1pH");
    };
    plan::SouringLimit limit{"mix", {{bound("4.8pH"), hours(6), hours(2)}, {bound("4.2pH"), hours(12), hours(4)}}};
    const auto of = [&](std::string_view early) { return verdict(point("bake", limit), leaven(early).step("bake", clock(15, 0))); };
    CHECK(of("5.6pH") == Verdict::within);
    CHECK(of("4.2pH") == Verdict::unproven);  // 5.2 was meant
    for (auto& stage : limit.stages) stage.fastest.reset();
    CHECK(of("4.4pH") == Verdict::within);
    CHECK(of("4.3pH") == Verdict::unproven);  // 0.3 up again
    CHECK(only(point("bake", limit), leaven("4.3pH").step("bake", clock(15, 0)))
              .detail.ends_with("4.6pH stands 4:00 after 4.3pH, which does not rise again."));
}
