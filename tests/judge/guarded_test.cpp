// Guarded acceptance, JCGM 106:2012 8.3 (from memory): the guard band is the instrument's error, and the
// value must meet the limit with it. What breaks the limit as read stays a deviation: guarded rejection
// (8.3.3) would be milder than simple acceptance.
#include "judge/bench.h"

using namespace bench;

namespace {

plan::Point guarded(plan::Point p) {
    p.guarded = true;
    return p;
}

Batch off_by(std::string_view guard, std::string_view value) {
    Batch batch = Batch().read(clock(5, 40), value);
    batch.facts.readings[0].guard = measure(guard);
    return batch;
}

}  // namespace

TEST_CASE("guarded acceptance at least: the band's edge meets, inside it nothing is shown") {
    const plan::Point core = guarded(at_least("bake", "93C"));
    CHECK(verdict(core, off_by("0.5C", "93.5C")) == Verdict::within);
    CHECK(verdict(core, off_by("0.5C", "93.4C")) == Verdict::unproven);
    CHECK(verdict(core, off_by("0.5C", "93C")) == Verdict::unproven);
    CHECK(verdict(core, off_by("0.5C", "92.9C").step("bake", clock(5, 45))) == Verdict::deviation);
    CHECK(only(core, off_by("0.5C", "93.4C")).detail == "93.4C, limit at least 93C, but the instrument may be off by 0.5C.");
    CHECK(verdict(at_least("bake", "93C"), off_by("0.5C", "93C")) == Verdict::within);  // simple acceptance
}

TEST_CASE("guarded acceptance at most, and in Fahrenheit, where the band is in the instrument's own unit") {
    const plan::Point cold = guarded(at_most("cool", "5C | 41F"));
    CHECK(verdict(cold, off_by("0.5C", "4.5C")) == Verdict::within);
    CHECK(verdict(cold, off_by("0.5C", "4.6C")) == Verdict::unproven);
    CHECK(verdict(cold, off_by("0.5C", "5.1C")) == Verdict::deviation);
    CHECK(verdict(cold, off_by("0.5C", "40.1F")) == Verdict::within);  // 0.5 C is 0.9 F: 41.0 F
    CHECK(verdict(cold, off_by("0.5C", "40.2F")) == Verdict::unproven);
    CHECK(verdict(cold, off_by("1F", "40F")) == Verdict::within);
}

TEST_CASE("guarded acceptance without a known error shows nothing, and a lapsed instrument is told first") {
    const plan::Point core = guarded(at_least("bake", "93C"));
    CHECK(only(core, Batch().read(clock(5, 40), "96C")).verdict == Verdict::unproven);
    CHECK(only(core, Batch().read(clock(5, 40), "96C")).detail ==
          "96C, limit at least 93C, but how far the instrument may be off is not known.");
    CHECK(verdict(core, off_by("0.05pH", "96C")) == Verdict::unproven);  // an error of another kind of thing
    CHECK(only(core, Batch().read(clock(5, 40), "96C", "", InstrumentState::lapsed)).detail ==
          "96C, limit at least 93C, but the calibration of the instrument had lapsed.");
}

TEST_CASE("guarded acceptance before packing and on a place") {
    const plan::Point pack = guarded(point("cool", plan::BeforePackingLimit{bound("35C")}));
    const auto packed = [&](std::string_view value) {
        return verdict(pack, off_by("0.5C", value).step("bake", clock(5, 0)).pack(clock(6, 0)));
    };
    CHECK(packed("34.5C") == Verdict::within);
    CHECK(packed("34.6C") == Verdict::unproven);
    CHECK(packed("35.1C") == Verdict::deviation);
    plan::Point air = guarded(at_most("", "5C"));
    air.place = "chill";
    judge::ReadingFact reading = off_by("0.5C", "4.6C").facts.readings[0];
    CHECK(judge::judge_place_reading(air, reading).verdict == Verdict::unproven);
    reading.value = measure("4.5C");
    CHECK(judge::judge_place_reading(air, reading).verdict == Verdict::within);
}
