// Readings that cannot be (rule 56): what a plan says that a point can read at all, and what a value beyond it is worth. The bounds
// are common practice: a boiling custard between 0 and 103 C, the core of a loaf from 40 to 101 C, a chill room from -5 to 25 C.
#include "judge/possible.h"

#include "bench.h"

using namespace bench;

namespace {

plan::Point between(plan::Point point, std::string_view least, std::string_view most) {
    point.dimension = Dimension::temperature;
    point.possible_least = bound(least);
    point.possible_most = bound(most);
    return point;
}

plan::Point boil() { return between(at_least("bake", "84C"), "0C", "103C"); }

Batch logged(Batch batch) {
    batch.facts.readings.back().logged = true;
    return batch;
}

}  // namespace

TEST_CASE("rule 56: a value that cannot be proves nothing, whatever stands beside it") {
    const Finding alone = only(boil(), Batch().read(clock(5, 0), "871C").step("bake", clock(5, 10)));
    CHECK(alone.verdict == Verdict::unproven);
    CHECK(alone.measured == "871C");
    CHECK(alone.detail ==
          "871C, limit at least 84C. 871C is beyond what it can be, from 0C to 103C: it proves nothing until a second reading agrees.");
    // It may have been 87.1, and it may have been 81.7: a good reading beside it does not say which.
    CHECK(verdict(boil(), Batch().read(clock(5, 0), "871C").read(clock(5, 2), "95C").step("bake", clock(5, 10))) == Verdict::unproven);
    CHECK(verdict(boil(), Batch().read(clock(5, 0), "871C").read(clock(5, 2), "80C").step("bake", clock(5, 10))) == Verdict::deviation);
    plan::Point nothing_said = at_least("bake", "84C");
    CHECK(verdict(nothing_said, Batch().read(clock(5, 0), "871C").step("bake", clock(5, 10))) == Verdict::within);
    CHECK(verdict(boil(), Batch().read(clock(5, 0), "103C").step("bake", clock(5, 10))) == Verdict::within);  // inclusive
}

TEST_CASE("rule 56: a second reading of the same unit, by another entry, agrees") {
    const auto with = [](const std::string& second, const std::string& unit = "", const std::string& by = "AB") {
        plan::Point point = boil();
        if (!unit.empty()) point.units = {"kettle-1", "kettle-2"};
        const std::string first_unit = unit.empty() ? "" : "kettle-1";
        Batch batch = Batch().read(clock(5, 0), "104C", first_unit).read(clock(5, 2), second, unit).step("bake", clock(5, 10));
        batch.facts.readings.back().by = by;
        return judge::worst({judge::judge_point(point, batch.facts)});
    };
    CHECK(with("102C") == Verdict::within);
    CHECK(with("104.5C") == Verdict::unproven);  // who slips once may slip twice
    CHECK(with("104.5C", "", "CD") == Verdict::within);
    CHECK(with("101C") == Verdict::within);  // 3 C, inclusive
    CHECK(with("100.9C") == Verdict::unproven);
    CHECK(with("102C", "kettle-2") == Verdict::unproven);
    Batch one_entry = Batch().read(clock(5, 0), "104C").read(clock(5, 2), "102C").step("bake", clock(5, 10));
    one_entry.facts.readings[1].seq = one_entry.facts.readings[0].seq;
    CHECK(verdict(boil(), one_entry) == Verdict::unproven);
    CHECK(verdict(boil(), Batch().read(clock(5, 0), "104C").read(clock(5, 2), "102C").void_reading(1).step("bake", clock(5, 10))) ==
          Verdict::unproven);
    // From memory, an hour after the step had passed, the second one tells nothing (rule 47).
    plan::Point critical = boil();
    critical.grade = Grade::critical;
    const Batch remembered = Batch().read(clock(5, 0), "104C").read(clock(5, 2), "102C").typed(clock(6, 30)).step("bake", clock(5, 10));
    CHECK(verdict(critical, remembered) == Verdict::unproven);
}

TEST_CASE("rule 56: of other things than temperatures the instruments' tolerances say what agrees") {
    judge::ReadingFact one, other;
    one.seq = 1;
    other.seq = 2;
    one.value = measure("9.5pH");
    other.value = measure("9.4pH");
    CHECK_FALSE(judge::agree(one, other));
    one.tolerance = other.tolerance = measure("0.05pH");
    CHECK(judge::agree(one, other));
    other.value = measure("9.39pH");
    CHECK_FALSE(judge::agree(one, other));
}

TEST_CASE("rule 56: what breaks the limit counts as read, and is corrected as any other") {
    const plan::Point core = between(at_least("bake", "93C"), "40C", "101C");
    CHECK(verdict(core, Batch().read(clock(5, 0), "30C").step("bake", clock(5, 10))) == Verdict::deviation);
    const Finding baked_on = only(core, Batch().read(clock(5, 0), "30C").read(clock(5, 8), "96C").step("bake", clock(5, 10)));
    CHECK(baked_on.verdict == Verdict::within);
    CHECK(baked_on.corrected == "30C");
}

TEST_CASE("rule 56: a row of a logger that cannot be proves nothing, neither way") {
    const Batch torn = logged(Batch().read(clock(5, 2), "95C").read(clock(5, 3), "-200C")).step("bake", clock(5, 10));
    const Finding finding = only(boil(), torn);
    CHECK(finding.verdict == Verdict::unproven);
    CHECK(finding.measured == "95C");
    CHECK(finding.detail ==
          "95C, limit at least 84C. -200C is beyond what it can be, from 0C to 103C: a row of a logger that proves nothing.");
    CHECK(verdict(boil(), logged(Batch().read(clock(5, 3), "850C")).step("bake", clock(5, 10))) == Verdict::missing);
}

TEST_CASE("rule 56: a cooling is not ended by a value that cannot be") {
    const plan::Point cooling = between(point("cool", food_code()), "0C", "103C");
    const auto ended_with = [&](const std::string& last) {
        Batch batch = Batch().read(clock(10, 0), "60C").read(clock(11, 30), "20C").read(clock(15, 0), last);
        return verdict(cooling, batch.step("cool", clock(15, 5)));
    };
    CHECK(ended_with("4C") == Verdict::within);
    CHECK(ended_with("-4C") == Verdict::unproven);
}

TEST_CASE("rule 56: at a place a reading soon before or after agrees, and a logger's odd rows leave the day unproven") {
    plan::Point air = between(at_most("", "5C"), "-5C", "25C");
    judge::ReadingFact frozen;
    frozen.seq = 1;
    frozen.at = clock(4, 0);
    frozen.value = measure("-18C");
    frozen.instrument = InstrumentState::valid;
    judge::ReadingFact again = frozen;
    again.seq = 2;
    again.value = measure("-17C");
    again.by = "CD";
    CHECK(judge::judge_place_reading(air, frozen).verdict == Verdict::unproven);
    CHECK(judge::judge_place_reading(air, frozen, {frozen}).verdict == Verdict::unproven);  // not by itself
    CHECK(judge::judge_place_reading(air, frozen, {frozen, again}).verdict == Verdict::within);

    judge::PlaceRows rows(air, {});
    for (const auto& [minute, value] : {std::pair{0, "4.5C"}, {5, "-127C"}, {10, "4.8C"}, {15, "850C"}})
        rows.add(clock(1, minute), measure(value), InstrumentState::valid);
    CHECK(rows.finding().verdict == Verdict::unproven);
    CHECK(rows.finding().measured == "4.8C");
    CHECK(rows.finding().detail ==
          "4.8C, limit at most 5C. -127C is beyond what it can be, from -5C to 25C: a row of a logger that proves nothing. "
          "4 rows of a logger, 2 that cannot be.");
    CHECK(rows.outside() == 0);
    rows.add(clock(1, 20), measure("6C"), InstrumentState::valid);
    CHECK(rows.finding().verdict == Verdict::deviation);

    judge::PlaceRows torn(air, {});
    torn.add(clock(1, 0), measure("850C"), InstrumentState::valid);
    CHECK(torn.finding().verdict == Verdict::unproven);
}
