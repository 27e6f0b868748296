// Staged cooling of a batch: C01 to C05 of tests/calc/reference.txt and rules 5, 6 and 8, at the judge.
// calc's own tests cover the proof itself.
#include <random>

#include "judge/bench.h"

using namespace bench;

namespace {

plan::Point custard() { return point("cool", food_code()); }

Batch cooled(const std::vector<std::pair<Instant, std::string>>& readings) {
    Batch batch;
    for (const auto& [at, value] : readings) batch.read(at, value);
    return batch;
}

}  // namespace

TEST_CASE("C01: 57 C, 21 C after 2:00, 5 C after 6:00 passes") {
    // FDA Food Code 2022, 3-501.14(A): "within 2 hours", "within a total of 6 hours".
    const Finding finding = only(custard(), cooled({{clock(0, 0), "57C"}, {clock(2, 0), "21C"}, {clock(6, 0), "5C"}}));
    CHECK(finding.verdict == Verdict::within);
    CHECK(finding.measured == "2:00 to 21C, 6:00 to 5C");
    CHECK(finding.happened == clock(6, 0));
    CHECK(finding.detail ==
          "57C to 21C within 2:00: took 2:00; start at 57C, end at 21C. 57C to 5C within 6:00: took 6:00; "
          "start at 57C, "
          "end at 5C. Temperature assumed to fall strictly between readings.");
    CHECK(verdict(custard(), cooled({{clock(0, 0), "135F"}, {clock(2, 0), "70F"}, {clock(6, 0), "41F"}})) == Verdict::within);
}

TEST_CASE("C02: 21 C after 2:01 fails the first stage") {
    const Finding finding = only(custard(), cooled({{clock(0, 0), "57C"}, {clock(2, 1), "21C"}, {clock(5, 0), "5C"}}));
    CHECK(finding.verdict == Verdict::deviation);
    CHECK(finding.measured == "2:01 to 21C");
    CHECK(finding.detail ==
          "57C to 21C within 2:00: took 2:01; start at 57C, end at 21C. Temperature assumed to fall strictly "
          "between "
          "readings.");
}

TEST_CASE("C03: 21 C after 1:00 and 5 C after 6:00 passes, for the total counts from the start") {
    const Batch batch = cooled({{clock(0, 0), "57C"}, {clock(1, 0), "21C"}, {clock(6, 0), "5C"}});
    CHECK(verdict(custard(), batch) == Verdict::within);
    plan::CoolingLimit each = food_code();  // rule 5: the other way to count, each stage on its own
    each.each_from_previous = true;
    each.stages[1].within = hours(4);
    CHECK(verdict(point("cool", each), batch) == Verdict::deviation);
    CHECK(only(point("cool", each), batch).detail ==
          "21C to 5C within 4:00: took 5:00; start at 21C, end at 5C. Temperature assumed to fall strictly "
          "between readings.");
    CHECK(verdict(point("cool", each), cooled({{clock(0, 0), "57C"}, {clock(2, 0), "21C"}, {clock(6, 0), "5C"}})) == Verdict::within);
}

TEST_CASE("C04: 5 C after 6:01 fails the total") {
    const Finding finding = only(custard(), cooled({{clock(0, 0), "57C"}, {clock(1, 30), "21C"}, {clock(6, 1), "5C"}}));
    CHECK(finding.verdict == Verdict::deviation);
    CHECK(finding.measured == "6:01 to 5C");
}

TEST_CASE("C05: made from ingredients at ambient temperature, to 5 C in 4:00 passes and in 4:01 fails") {
    // FDA Food Code 2022, 3-501.14(B). The clock starts when it was made, whatever its temperature.
    plan::CoolingLimit ambient{bound("21C | 70F"), {{bound("5C | 41F"), hours(4)}}, false, "", "mix"};
    const plan::Point cream = point("cool", ambient);
    const auto made = [](std::int64_t minute) {
        return Batch().step("mix", clock(8, 0)).read(clock(8, 30), "18C").read(clock(12, minute), "5C");
    };
    CHECK(verdict(cream, made(0)) == Verdict::within);
    CHECK(verdict(cream, made(1)) == Verdict::deviation);
    CHECK(only(cream, made(1)).detail ==
          "mix to 5C within 4:00: took 4:01; end at 5C. Temperature assumed to fall strictly between "
          "readings.");
    Batch without_start = Batch().read(clock(8, 30), "18C").read(clock(11, 0), "5C");
    CHECK(standing(cream, without_start) == Standing::open);
    CHECK(verdict(cream, without_start.step("cool", clock(12, 0))) == Verdict::unproven);
}

TEST_CASE("rule 5: the worked example of sparse readings") {
    std::vector<std::pair<Instant, std::string>> readings = {{clock(10, 0), "82.0C"},  {clock(10, 20), "60.0C"}, {clock(10, 50), "48.0C"},
                                                             {clock(12, 10), "23.0C"}, {clock(12, 30), "19.0C"}, {clock(15, 0), "9.0C"},
                                                             {clock(16, 10), "4.6C"}};
    Finding finding = only(custard(), cooled(readings));
    CHECK(finding.verdict == Verdict::unproven);
    CHECK(finding.measured == "1:20-2:10 to 21C");
    CHECK(finding.happened == clock(12, 30));
    CHECK(finding.detail ==
          "57C to 21C within 2:00: took 1:20-2:10; start between 60C and 48C, end between 23C and 19C. "
          "Temperature "
          "assumed to fall strictly between readings.");
    readings.insert(readings.begin() + 4, {clock(12, 20), "20.8C"});
    CHECK(verdict(custard(), cooled(readings)) == Verdict::within);
    readings[4].second = "21.5C";
    finding = only(custard(), cooled(readings));
    CHECK(finding.verdict == Verdict::unproven);
    CHECK(finding.measured == "1:30-2:10 to 21C");
}

TEST_CASE("rule 6: the clock starts at the last moment known above the upper limit") {
    const std::vector<std::pair<Instant, std::string>> below = {{clock(10, 50), "48C"}, {clock(11, 30), "20C"}, {clock(13, 0), "5C"}};
    SECTION("with no such record it cannot be within") {
        const Finding finding = only(custard(), cooled(below));
        CHECK(finding.verdict == Verdict::unproven);
        CHECK(finding.detail ==
              "57C to 21C within 2:00: took 0:00 or more; start before 48C, with no record from above, end "
              "between 48C and "
              "20C. Temperature assumed to fall strictly between readings.");
    }
    plan::CoolingLimit limit = food_code();
    limit.hot_at = "bake";
    SECTION("the end of a step is such a record") {
        const Finding finding = only(point("cool", limit), cooled(below).step("bake", clock(10, 0)));
        CHECK(finding.verdict == Verdict::within);
        CHECK(finding.measured == "0:00-1:30 to 21C, 2:10-3:00 to 5C");
        CHECK(finding.detail.find("start between the end of bake and 48C") != std::string::npos);
    }
    SECTION("too early an end leaves it unproven") {
        CHECK(verdict(point("cool", limit), cooled(below).step("bake", clock(9, 29))) == Verdict::unproven);
        CHECK(verdict(point("cool", limit), cooled(below).step("bake", clock(9, 30))) == Verdict::within);
    }
}

TEST_CASE("rule 6: rises within the instrument's tolerance do not matter, a real one moves the crossing") {
    const std::vector<std::pair<Instant, std::string>> rising = {
        {clock(0, 0), "57C"}, {clock(1, 50), "20.9C"}, {clock(2, 30), "21.5C"}, {clock(3, 0), "20C"}, {clock(6, 0), "5C"}};
    const auto with_tolerance = [&](std::string_view tolerance) {
        Batch batch = cooled(rising);
        for (auto& reading : batch.facts.readings) reading.tolerance = measure(tolerance);
        return batch;
    };
    CHECK(verdict(custard(), cooled(rising)) == Verdict::deviation);  // the later crossing is the one judged
    CHECK(verdict(custard(), with_tolerance("0.5C")) == Verdict::within);
    CHECK(verdict(custard(), with_tolerance("0.4C")) == Verdict::deviation);
    CHECK(verdict(custard(), with_tolerance("0.9F")) == Verdict::within);  // a difference of 0.9 F is 0.5 C
    CHECK(verdict(custard(), with_tolerance("0.8F")) == Verdict::deviation);
    Batch one_without = with_tolerance("0.5C");
    one_without.facts.readings[2].tolerance.reset();
    CHECK(verdict(custard(), one_without) == Verdict::deviation);
    const Batch after_end = cooled({{clock(0, 0), "57C"}, {clock(1, 50), "20.9C"}, {clock(5, 0), "5C"}, {clock(7, 0), "30C"}});
    CHECK(verdict(custard(), after_end) == Verdict::deviation);  // not over yet, and warm again after 6:00
    const Batch kept = cooled({{clock(0, 0), "57C"}, {clock(1, 50), "20.9C"}, {clock(5, 0), "5C"}, {clock(7, 0), "7.5C"}});
    CHECK(verdict(custard(), kept) == Verdict::within);
}

TEST_CASE("rule 54: a typed 4.0 in the middle of a cooling ends nothing") {
    plan::CoolingLimit limit = food_code();
    limit.stages[0].fastest = minutes(20);
    limit.stages[1].fastest = hours(1);
    const plan::Point tray = point("cool", limit);
    const std::vector<std::pair<Instant, std::string>> slip = {{clock(10, 0), "57C"}, {clock(10, 20), "46C"}, {clock(10, 40), "4.0C"}};
    SECTION("while it cools the point is open, and says what is odd") {
        const Judged judged = judge::judge_point(tray, cooled(slip).facts);
        CHECK(judged.standing == Standing::open);
        CHECK(judged.next == "From 46C to 4C in 0:20 is faster than such a product gets there: look what is right, and read again");
        CHECK_FALSE(judge::worst({judged}).has_value());
    }
    SECTION("once the step is over it is unproven") {
        const Finding finding = only(tray, cooled(slip).step("cool", clock(11, 0)));
        CHECK(finding.verdict == Verdict::unproven);
        CHECK(finding.measured == "0:20-0:40 to 21C, 0:20-0:40 to 5C");
        CHECK(
            finding.detail.ends_with("Temperature assumed to fall strictly between readings. From 46C to 4C in 0:20 is faster than "
                                     "such a product gets there."));
    }
    SECTION("what is read after it counts, and is told as a rise where no pace is stated") {
        auto going_on = slip;
        going_on.insert(going_on.end(), {{clock(10, 50), "38C"}, {clock(11, 50), "20C"}, {clock(15, 0), "5C"}});
        CHECK(verdict(tray, cooled(going_on).step("cool", clock(15, 10))) == Verdict::unproven);
        const Finding rising = only(custard(), cooled(going_on).step("cool", clock(15, 10)));
        CHECK(rising.verdict == Verdict::unproven);
        CHECK(rising.detail.ends_with("38C stands 0:10 after 4C, which does not rise again."));
        going_on[4] = {clock(12, 1), "22C"};
        CHECK(verdict(tray, cooled(going_on)) == Verdict::deviation);  // 21 C not reached by the last crossing either
    }
    SECTION("who takes it back before the step is over has no finding of it") {
        Batch batch = cooled(slip).read(clock(10, 42), "40C").void_reading(2);
        CHECK(judge::judge_point(tray, batch.facts).standing == Standing::open);
        batch.read(clock(11, 50), "20C").read(clock(15, 0), "5C");
        CHECK(verdict(tray, batch) == Verdict::within);
    }
    SECTION("in Fahrenheit 3 C are 5.4 F") {
        const auto warmer = [&](const std::string& again) {
            return verdict(
                tray,
                cooled(
                    {{clock(10, 0), "135F"}, {clock(11, 0), "90F"}, {clock(11, 10), again}, {clock(11, 50), "69F"}, {clock(15, 0), "41F"}})
                    .step("cool", clock(15, 10)));
        };
        CHECK(warmer("95.4F") == Verdict::within);
        CHECK(warmer("95.5F") == Verdict::unproven);
    }
}

TEST_CASE("rule 54: an end of the boil that is stated after the tray was read cold") {
    plan::CoolingLimit limit = food_code();
    limit.hot_at = "bake";
    const auto pressed = [&](Instant end) {
        return cooled({{clock(10, 0), "60C"}, {clock(10, 30), "48C"}, {clock(11, 50), "20C"}, {clock(15, 0), "5C"}})
            .step("bake", end)
            .step("cool", clock(15, 10));
    };
    CHECK(verdict(point("cool", limit), pressed(clock(10, 45))) == Verdict::within);  // pressed 15 min late at the most
    const Finding late = only(point("cool", limit), pressed(clock(11, 0)));
    CHECK(late.verdict == Verdict::unproven);
    CHECK(late.measured == "0:00-1:50 to 21C, 4:30-5:00 to 5C");  // by the readings, which is the longer time
    CHECK(late.detail.ends_with("The end of bake is stated 0:30 after 48C."));
}

TEST_CASE("readings in Fahrenheit meet Fahrenheit thresholds exactly, alone and in a mixed series") {
    CHECK(verdict(custard(), cooled({{clock(0, 0), "135F"}, {clock(2, 0), "70.1F"}, {clock(2, 10), "69F"}, {clock(6, 0), "41F"}})) ==
          Verdict::deviation);
    // 70 F is 21.111 C: above 21 C by the integer, at the threshold by what was typed.
    CHECK(verdict(custard(), cooled({{clock(0, 0), "57C"}, {clock(2, 0), "70F"}, {clock(6, 0), "5C"}})) == Verdict::within);
    CHECK(verdict(custard(), cooled({{clock(0, 0), "57C"}, {clock(2, 0), "70.1F"}, {clock(6, 0), "5C"}})) == Verdict::deviation);
    CHECK(verdict(custard(), cooled({{clock(0, 0), "57C"}, {clock(1, 50), "69.9F"}, {clock(6, 0), "5C"}})) == Verdict::within);
    plan::CoolingLimit celsius{bound("57C"), {{bound("21C"), hours(2)}, {bound("5C"), hours(6)}}, false, "", ""};
    CHECK(verdict(point("cool", celsius), cooled({{clock(0, 0), "134.6F"}, {clock(2, 0), "70F"}, {clock(6, 0), "41F"}})) ==
          Verdict::deviation);  // 134.6 F is 57 C, 70 F is above 21 C
    CHECK(verdict(point("cool", celsius), cooled({{clock(0, 0), "134.6F"}, {clock(2, 0), "69.8F"}, {clock(6, 0), "41F"}})) ==
          Verdict::within);
}

TEST_CASE("a cooling that is not over is open, and tells the baker the next target") {
    Batch batch;
    CHECK(judge::judge_point(custard(), batch.facts).next == "21C within 2:00 of 57C");
    batch.read(clock(10, 0), "82C");
    Judged judged = judge::judge_point(custard(), batch.facts);
    CHECK(judged.standing == Standing::open);
    CHECK(judged.next == "21C within 2:00 of 57C");
    batch.read(clock(10, 30), "50C");
    CHECK(judge::judge_point(custard(), batch.facts).next == "21C within 1:30 of the last reading");
    batch.read(clock(11, 40), "20.5C");
    judged = judge::judge_point(custard(), batch.facts);
    CHECK(judged.standing == Standing::open);
    CHECK(judged.next == "5C within 4:20 of the last reading");
    CHECK_FALSE(judge::worst({judged}).has_value());
    Batch in_fahrenheit = Batch().read(clock(10, 0), "180F").read(clock(10, 30), "120F");
    CHECK(judge::judge_point(custard(), in_fahrenheit.facts).next == "70F within 1:30 of the last reading");
    SECTION("over without the last reading it is unproven") {
        const Finding finding = only(custard(), Batch(batch).step("cool", clock(15, 0)));
        CHECK(finding.verdict == Verdict::unproven);
        CHECK(finding.measured == "5C not reached in 1:10");
        CHECK(verdict(custard(), Batch(batch).pack(clock(15, 0))) == Verdict::unproven);
    }
    SECTION("a stage that failed is told at once, though the next is open") {
        const Judged late = judge::judge_point(custard(), cooled({{clock(0, 0), "57C"}, {clock(2, 0), "21.1C"}}).facts);
        REQUIRE(late.findings.size() == 1);
        CHECK(late.findings[0].verdict == Verdict::deviation);
        CHECK(late.findings[0].measured == "21C not reached in 2:00");
        CHECK(late.part_open);
        CHECK(late.next == "5C within 4:00 of the last reading");
    }
}

TEST_CASE("a cooling never read is missing once its step is over; all voided, it is not judged") {
    CHECK(verdict(custard(), Batch().step("cool", clock(9, 0))) == Verdict::missing);
    CHECK(only(custard(), Batch().pack(clock(9, 0))).happened == clock(9, 0));
    CHECK(standing(custard(), Batch().read(clock(8, 0), "57C").void_reading(0).pack(clock(9, 0))) == Standing::not_judged);
}

TEST_CASE("rule 3: every rack of a cooling is judged, and one never read is missing") {
    plan::Point racks = custard();
    racks.units = {"rack-1", "rack-2", "rack-3"};
    Batch batch;
    batch.read(clock(0, 0), "57C", "rack-1").read(clock(0, 0), "57C", "rack-2");
    batch.read(clock(2, 0), "21C", "rack-1").read(clock(2, 5), "21C", "rack-2");
    batch.read(clock(6, 0), "5C", "rack-1").read(clock(6, 0), "5C", "rack-2").step("cool", clock(6, 10));
    const Judged judged = judge::judge_point(racks, batch.facts);
    REQUIRE(judged.findings.size() == 3);
    CHECK(judged.findings[0].verdict == Verdict::within);
    CHECK(judged.findings[1].verdict == Verdict::deviation);
    CHECK(judged.findings[1].ord == 1);
    CHECK(judged.findings[2].verdict == Verdict::missing);
}

TEST_CASE("rule 2: readings of a doubtful instrument count against a cooling, never for it") {
    Batch batch = cooled({{clock(0, 0), "57C"}, {clock(2, 0), "21C"}, {clock(6, 0), "5C"}});
    batch.facts.readings[1].instrument = InstrumentState::lapsed;
    const Finding finding = only(custard(), batch);
    CHECK(finding.verdict == Verdict::unproven);
    CHECK(finding.detail.find("Within by its readings, but the calibration of the instrument had lapsed for 21C.") != std::string::npos);
    // One the proof does not need harms nothing; one that shows a deviation shows it.
    Batch extra = cooled({{clock(0, 0), "57C"}, {clock(1, 0), "40C"}, {clock(2, 0), "21C"}, {clock(6, 0), "5C"}});
    extra.facts.readings[1].instrument = InstrumentState::none;
    CHECK(verdict(custard(), extra) == Verdict::within);
    Batch bad = cooled({{clock(0, 0), "57C"}, {clock(2, 0), "25C"}, {clock(2, 30), "20C"}, {clock(6, 0), "5C"}});
    bad.facts.readings[1].instrument = InstrumentState::none;
    CHECK(verdict(custard(), bad) == Verdict::deviation);
}

TEST_CASE("rule 8: removing a reading from a strictly falling series changes a verdict only to unproven") {
    // Property of the rule, not of a book: the fewer readings, the less can be shown. Voiding stands for
    // removing.
    std::mt19937 random(20'261'125);
    const auto between = [&](std::int64_t low, std::int64_t high) {
        return std::uniform_int_distribution<std::int64_t>(low, high)(random);
    };
    int within_lost = 0, deviation_lost = 0;
    for (int round = 0; round < 3'000; ++round) {
        const Unit unit = round % 2 == 0 ? Unit::celsius : Unit::fahrenheit;
        Batch batch;
        Instant at = clock(0, 0);
        for (std::int64_t milli_c = between(57'000, 80'000); milli_c > 500; milli_c -= between(1'000, milli_c / 3 + 1'500)) {
            batch.read(at, "0C");
            batch.facts.readings.back().value = measure_of(milli_c, unit);
            at = at + minutes(between(5, 75));
        }
        batch.step("cool", at);
        const Verdict before = verdict(custard(), batch);
        for (std::size_t i = 0; batch.facts.readings.size() > 1 && i < batch.facts.readings.size(); ++i) {
            const Finding after = only(custard(), Batch(batch).void_reading(i));
            if (after.verdict == before) continue;
            REQUIRE(after.verdict == Verdict::unproven);
            ++(before == Verdict::within ? within_lost : deviation_lost);
        }
    }
    CHECK(within_lost > 200);
    CHECK(deviation_lost > 200);
}

TEST_CASE("a single-stage rule: 63 C to 8 C within 90 minutes, as UK advice is read strictly") {
    // UK local authority advice: out of the heat no longer than 1 h 30 min (read); 63 C and 8 C, the hot and
    // cold limits, from memory.
    const plan::Point uk = point("cool", plan::CoolingLimit{bound("63C"), {{bound("8C"), minutes(90)}}, false, "", ""});
    const auto of = [&](Instant cold) { return verdict(uk, Batch().read(clock(5, 0), "63C").read(cold, "8C")); };
    CHECK(of(clock(6, 30)) == Verdict::within);
    CHECK(of(clock(6, 31)) == Verdict::deviation);
    CHECK(verdict(uk, Batch().read(clock(5, 0), "70C").read(clock(5, 10), "60C").read(clock(6, 35), "7C")) == Verdict::unproven);
}
