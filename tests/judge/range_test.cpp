// Ranges, yes/no inspections, what is missing, and readings of places. Rules 1 to 4; the limits of Food Code
// 2022 beside them.
#include "judge/bench.h"

using namespace bench;

TEST_CASE("rule 2: a critical reading without an in-service instrument is unproven") {
    // CXC 1-1969 step 9 and 21 CFR 117.165 want calibrated monitoring; what such a reading is worth is this
    // program's rule.
    const plan::Point bake = at_least("bake", "92C");
    const auto of = [&](InstrumentState state, std::string_view value = "94C") {
        return only(bake, Batch().read(clock(5, 40), value, "", state).step("bake", clock(5, 45)));
    };
    CHECK(of(InstrumentState::valid).verdict == Verdict::within);
    CHECK(of(InstrumentState::valid).detail == "94C, limit at least 92C.");
    for (const auto& [state, reason] : std::vector<std::pair<InstrumentState, std::string>>{
             {InstrumentState::none, "but no instrument was named"},
             {InstrumentState::out_of_service, "but the instrument was out of service"},
             {InstrumentState::lapsed, "but the calibration of the instrument had lapsed"},
             {InstrumentState::failed, "but the instrument has failed a calibration since its last good one"}}) {
        CHECK(of(state).verdict == Verdict::unproven);
        CHECK(of(state).detail == "94C, limit at least 92C, " + reason + ".");
        CHECK(of(state, "91.9C").verdict == Verdict::deviation);  // unproven at best: a bad value stays bad
    }
    plan::Point without = bake;
    without.instrument_needed = false;
    CHECK(verdict(without, Batch().read(clock(5, 40), "94C", "", InstrumentState::none)) == Verdict::within);
}

TEST_CASE("rule 1: open and not judged are not within") {
    const plan::Point bake = at_least("bake", "92C");
    SECTION("not read, and the step not over: open") {
        const Judged judged = judge::judge_point(bake, Batch().facts);
        CHECK(judged.standing == Standing::open);
        CHECK(judged.findings.empty());
        CHECK_FALSE(judge::worst({judged}).has_value());
    }
    SECTION("every reading voided: not judged, even when the step is over") {
        const Batch voided = Batch().read(clock(5, 40), "80C").void_reading(0).step("bake", clock(5, 45));
        CHECK(standing(bake, voided) == Standing::not_judged);
        CHECK_FALSE(judge::worst({judge::judge_point(bake, voided.facts)}).has_value());
    }
    SECTION("neither rolls up to within, and both give way to what is worse") {
        const Judged within = judge::judge_point(bake, Batch().read(clock(5, 40), "93C").facts);
        const Judged deviation = judge::judge_point(bake, Batch().read(clock(5, 40), "91C").step("bake", clock(5, 45)).facts);
        const Judged open = judge::judge_point(bake, Batch().facts);
        CHECK(judge::worst({within}) == Verdict::within);
        CHECK(judge::worst({within, within}) == Verdict::within);
        CHECK_FALSE(judge::worst({within, open}).has_value());
        CHECK_FALSE(judge::worst({Judged{}, within}).has_value());
        CHECK(judge::worst({within, open, deviation}) == Verdict::deviation);
        CHECK_FALSE(judge::worst({}).has_value());
    }
    SECTION("an optional point that was not read owes nothing") {
        plan::Point optional = bake;
        optional.optional = true;
        const Judged unread = judge::judge_point(optional, Batch().step("bake", clock(5, 45)).facts);
        CHECK(unread.standing == Standing::not_judged);
        CHECK_FALSE(unread.owed);
        const Judged within = judge::judge_point(bake, Batch().read(clock(5, 40), "93C").facts);
        CHECK(judge::worst({within, unread}) == Verdict::within);
        CHECK(verdict(optional, Batch().read(clock(5, 40), "91C").step("bake", clock(5, 45))) == Verdict::deviation);
    }
}

TEST_CASE("rule 14: a point owed up to packing is missing once packing shows that its step is over") {
    const plan::Point bake = at_least("bake", "92C");
    CHECK(standing(bake, Batch().step("mix", clock(4, 30))) == Standing::open);
    const auto missing_since = [&](const Batch& batch) {
        const Finding finding = only(bake, batch);
        CHECK(finding.verdict == Verdict::missing);
        CHECK(finding.measured == "no reading");
        CHECK(finding.detail == "The step bake has passed without a reading of core temperature.");
        return finding.happened;
    };
    CHECK(missing_since(Batch().step("bake", clock(5, 45))) == clock(5, 45));
    CHECK(missing_since(Batch().step("cool", clock(7, 0))) == clock(7, 0));  // a later step
    CHECK(missing_since(Batch().finish(clock(7, 5))) == clock(7, 5));        // finish ends "cool", and so "bake"
    CHECK(missing_since(Batch().pack(clock(7, 30)).pack(clock(7, 10))) == clock(7, 10));
    CHECK(missing_since(Batch().ship(clock(9, 0))) == clock(9, 0));
    CHECK(missing_since(Batch().finish(clock(7, 5)).step("bake", clock(5, 45))) == clock(5, 45));
    CHECK(verdict(bake, Batch().read(clock(5, 40), "93C").ship(clock(9, 0))) == Verdict::within);
}

TEST_CASE("rule 14: packing does not pass the pack step, and finish not what follows its own step") {
    const plan::Point weight = at_least("pack", "500g");
    CHECK(standing(weight, Batch().finish(clock(7, 0)).pack(clock(7, 10))) == Standing::open);
    CHECK(verdict(weight, Batch().ship(clock(9, 0))) == Verdict::missing);
    Batch baked;
    baked.facts.finish_step = "bake";
    CHECK(standing(at_most("cool", "30C"), baked.finish(clock(6, 0))) == Standing::open);
    CHECK(verdict(at_least("bake", "92C"), baked) == Verdict::missing);
}

TEST_CASE("rule 3: all readings count, the worst decides, a second never erases the first") {
    const plan::Point bake = at_least("bake", "92C");
    const Batch twice = Batch().read(clock(5, 40), "88.4C").read(clock(5, 42), "93C").step("cool", clock(7, 0));
    const Finding finding = only(bake, twice);
    CHECK(finding.verdict == Verdict::deviation);
    CHECK(finding.happened == clock(5, 40));
    CHECK(finding.measured == "88.4C");
    CHECK(finding.detail ==
          "88.4C is 3.6C below the limit of at least 92C. The later 93C does not correct it unless the end "
          "of bake is "
          "recorded after it.");
    CHECK(finding.evidence == std::vector<std::int64_t>{100, 101});
    const Finding worst_of_three = only(bake, Batch().read(clock(5, 40), "95C").read(clock(5, 41), "92C").read(clock(5, 42), "94C"));
    CHECK(worst_of_three.measured == "92C");
    CHECK(worst_of_three.verdict == Verdict::within);  // inclusive
}

TEST_CASE("rule 4: only a recorded further bake before the step is done is an in-process correction") {
    const plan::Point bake = at_least("bake", "92C");
    const Batch twice = Batch().read(clock(5, 40), "88.4C").read(clock(5, 50), "93C");
    SECTION("the good reading lies before the recorded end") {
        const Finding finding = only(bake, Batch(twice).step("bake", clock(5, 52)));
        CHECK(finding.verdict == Verdict::within);
        CHECK(finding.measured == "93C");
        CHECK(finding.detail ==
              "93C, limit at least 92C. An earlier 88.4C was corrected in process, before the recorded end "
              "of bake.");
        CHECK(verdict(bake, Batch(twice).step("bake", clock(5, 50))) == Verdict::within);
    }
    SECTION("it lies after the recorded end") {
        const Finding finding = only(bake, Batch(twice).step("bake", clock(5, 49)));
        CHECK(finding.verdict == Verdict::deviation);
        CHECK(finding.detail ==
              "88.4C is 3.6C below the limit of at least 92C. The later 93C does not correct it: it was "
              "taken after the "
              "recorded end of bake.");
    }
    SECTION("no end of the step is on record, though a later step is") {
        CHECK(verdict(bake, Batch(twice).step("cool", clock(7, 0))) == Verdict::deviation);
    }
    SECTION("of another oven") {
        Batch ovens = Batch().read(clock(5, 40), "88.4C", "oven-1").read(clock(5, 50), "93C", "oven-2");
        CHECK(verdict(bake, ovens.step("bake", clock(5, 52))) == Verdict::deviation);
    }
    SECTION("a bad reading after the good one") {
        Batch again = Batch(twice).read(clock(5, 51), "91C").step("bake", clock(5, 52));
        CHECK(only(bake, again).measured == "91C");
        CHECK(verdict(bake, again) == Verdict::deviation);
    }
    SECTION("two readings of the same minute are not a further bake") {
        Batch same = Batch().read(clock(5, 40), "88.4C").read(clock(5, 40), "93C").step("bake", clock(5, 52));
        CHECK(verdict(bake, same) == Verdict::deviation);
    }
    SECTION("by an instrument that proves nothing") {
        Batch doubtful = Batch().read(clock(5, 40), "88.4C");
        doubtful.read(clock(5, 50), "93C", "", InstrumentState::lapsed).step("bake", clock(5, 52));
        CHECK(verdict(bake, doubtful) == Verdict::unproven);
    }
}

TEST_CASE("rule 4: further work corrects too little heat or too high a pH, never food that was too warm") {
    Batch warm = Batch().read(clock(5, 0), "8C").read(clock(6, 0), "4C").step("cool", clock(6, 30));
    CHECK(verdict(at_most("cool", "5C"), warm) == Verdict::deviation);
    CHECK(only(at_most("cool", "5C"), warm).detail == "8C is 3C above the limit of at most 5C. The later 4C does not correct it.");
    Batch sour = Batch().read(clock(5, 0), "4.6pH").read(clock(6, 0), "4.1pH").step("mix", clock(6, 30));
    CHECK(verdict(at_most("mix", "4.2pH"), sour) == Verdict::within);
}

TEST_CASE("rule 3: an unprobed unit is missing") {
    plan::Point bake = at_least("bake", "92C");
    bake.units = {"oven-1", "oven-2", "oven-3"};
    Batch batch = Batch().read(clock(5, 40), "93C", "oven-1").read(clock(5, 41), "90C", "oven-3");
    SECTION("while the step runs it is open, and the point is not within") {
        const Judged judged = judge::judge_point(bake, batch.facts);
        REQUIRE(judged.findings.size() == 1);
        CHECK(judged.part_open);
        CHECK(judged.next == "oven-2: core temperature; oven-3: 90C is 2C below the limit of at least 92C: bake on and measure again");
        CHECK(judged.findings[0].unit == "oven-1");
        const Judged one = judge::judge_point(bake, Batch().read(clock(5, 40), "93C", "oven-1").facts);
        CHECK_FALSE(judge::worst({one}).has_value());
    }
    SECTION("afterwards it is missing under its own ordinal") {
        const Judged judged = judge::judge_point(bake, batch.step("bake", clock(5, 50)).facts);
        REQUIRE(judged.findings.size() == 3);
        CHECK_FALSE(judged.part_open);
        CHECK(judged.findings[0].verdict == Verdict::within);
        CHECK(judged.findings[1].ord == 1);
        CHECK(judged.findings[1].unit == "oven-2");
        CHECK(judged.findings[1].verdict == Verdict::missing);
        CHECK(judged.findings[1].happened == clock(5, 50));
        CHECK(judge::worst({judged}) == Verdict::deviation);
    }
    SECTION("a reading that names no oven of the point counts, and probes none") {
        const Judged judged = judge::judge_point(bake, batch.read(clock(5, 45), "85C").step("bake", clock(5, 50)).facts);
        REQUIRE(judged.findings.size() == 4);
        CHECK(judged.findings[1].verdict == Verdict::missing);
        CHECK(judged.findings[3].ord == 3);
        CHECK(judged.findings[3].verdict == Verdict::deviation);
    }
    SECTION("a unit whose only reading is voided is missing") {
        const Judged judged = judge::judge_point(bake, batch.void_reading(1).step("bake", clock(5, 50)).facts);
        CHECK(judged.findings[2].verdict == Verdict::missing);
    }
}

TEST_CASE("of a voided reading nothing is judged") {
    const plan::Point bake = at_least("bake", "92C");
    const Batch twice = Batch().read(clock(5, 40), "88.4C").read(clock(5, 42), "93C").step("bake", clock(5, 41));
    CHECK(only(bake, Batch(twice).void_reading(0)).verdict == Verdict::within);
    CHECK(only(bake, Batch(twice).void_reading(0)).evidence == std::vector<std::int64_t>{101});
}

TEST_CASE("C06: cold holding at 5 C and hot holding at 57 C, both sides") {
    // FDA Food Code 2022, 3-501.16: cold 5 C (41 F) or less, hot 57 C (135 F) or more.
    const auto on_place = [](const plan::Point& p, std::string_view value) {
        return judge::judge_place_reading(p, Batch().read(clock(8, 0), value).facts.readings.front());
    };
    const plan::Point cold = at_most("", "5C | 41F"), hot = at_least("", "57C | 135F");
    CHECK(on_place(cold, "5.0C").verdict == Verdict::within);
    CHECK(on_place(cold, "5.1C").verdict == Verdict::deviation);
    CHECK(on_place(cold, "5.1C").detail == "5.1C is 0.1C above the limit of at most 5C.");
    CHECK(on_place(hot, "57.0C").verdict == Verdict::within);
    CHECK(on_place(hot, "56.9C").verdict == Verdict::deviation);
    CHECK(on_place(cold, "41F").verdict == Verdict::within);
    CHECK(on_place(cold, "41.1F").verdict == Verdict::deviation);
    CHECK(on_place(hot, "135F").verdict == Verdict::within);
    CHECK(on_place(hot, "134.9F").verdict == Verdict::deviation);
    CHECK(on_place(hot, "134.9F").detail == "134.9F is 0.1F below the limit of at least 135F.");
    CHECK(on_place(hot, "134.9F").evidence == std::vector<std::int64_t>{100});
}

TEST_CASE("C07: time as the only control, 6 hours: start at 5 C, never above 21 C") {
    // FDA Food Code 2022, 3-501.19(C): 5 C or less when taken from the cold, never above 21 C, discarded
    // after 6 h.
    const plan::Point peak = at_most("cool", "21C | 70F");
    const auto peaked = [&](std::string_view value) {
        return verdict(peak, Batch().read(clock(6, 0), "5C").read(clock(9, 0), value).read(clock(10, 0), "18C"));
    };
    CHECK(peaked("21.0C") == Verdict::within);
    CHECK(peaked("21.1C") == Verdict::deviation);
    const plan::Point start = at_most("mix", "5C | 41F");
    CHECK(verdict(start, Batch().read(clock(6, 0), "5C")) == Verdict::within);
    CHECK(verdict(start, Batch().read(clock(6, 0), "5.1C")) == Verdict::deviation);
    const plan::Point out = point("cool", plan::TimeLimit{"mix", "ship", std::nullopt, hours(6)});
    CHECK(verdict(out, Batch().step("mix", clock(6, 0)).ship(clock(12, 0))) == Verdict::within);
    CHECK(verdict(out, Batch().step("mix", clock(6, 0)).ship(clock(12, 1))) == Verdict::deviation);
}

TEST_CASE("a bound is compared in the unit that was typed when it states that unit, exactly") {
    // 70 F is 21.111 C (C = (F - 32) x 5/9), and yet meets a limit that states 70 F: Food Code limits come as
    // such pairs.
    const plan::Point both = at_most("cool", "21C | 70F"), celsius = at_most("cool", "21C");
    const auto of = [](const plan::Point& p, std::string_view value) { return verdict(p, Batch().read(clock(6, 0), value)); };
    CHECK(of(both, "70F") == Verdict::within);
    CHECK(of(both, "70.000001F") == Verdict::deviation);
    CHECK(of(both, "21C") == Verdict::within);
    CHECK(of(both, "21.001C") == Verdict::deviation);
    CHECK(of(celsius, "70F") == Verdict::deviation);
    CHECK(of(celsius, "69.8F") == Verdict::within);  // 21 C exactly
    CHECK(only(celsius, Batch().read(clock(6, 0), "70F")).detail == "70F (21.111C) is 0.111C above the limit of at most 21C.");
    const plan::Point fahrenheit = at_least("bake", "200F");
    CHECK(only(fahrenheit, Batch().read(clock(6, 0), "92C").step("bake", clock(6, 0))).detail ==
          "92C (197.6F) is 2.4F below the limit of at least 200F.");  // 92 x 9/5 + 32
    CHECK(of(fahrenheit, "93.333C") == Verdict::within);              // 200 F is 93.333 C in whole thousandths
    CHECK(standing(fahrenheit, Batch().read(clock(6, 0), "93.332C")) == Standing::open);
    const plan::Point mass = at_least("pack", "500g");
    CHECK(of(mass, "0.5kg") == Verdict::within);
    CHECK(standing(mass, Batch().read(clock(6, 0), "0.499999kg")) == Standing::open);
}

TEST_CASE("an operating limit inside a critical one warns and changes no verdict") {
    plan::Point bake = at_least("bake", "92C");
    bake.warn_least = bound("94C");
    const Judged near = judge::judge_point(bake, Batch().read(clock(5, 40), "93C").facts);
    CHECK(near.findings.at(0).verdict == Verdict::within);
    CHECK(near.findings.at(0).detail == "93C, limit at least 92C. 93C is 1C below the operating limit of at least 94C.");
    CHECK(near.next == "93C is 1C below the operating limit of at least 94C");
    CHECK(judge::judge_point(bake, Batch().read(clock(5, 40), "94C").facts).next.empty());
    CHECK(only(bake, Batch().read(clock(5, 40), "91C").step("bake", clock(5, 45))).detail == "91C is 1C below the limit of at least 92C.");
    bake.warn_most = bound("99C");
    const Judged far = judge::judge_point(bake, Batch().read(clock(5, 40), "95C").read(clock(5, 41), "99.5C").facts);
    CHECK(far.next == "99.5C is 0.5C above the operating limit of at most 99C");
}

TEST_CASE("a receipt is the only step of a received lot, and ends when it was received") {
    plan::Point milk = at_most("receive", "6C");
    Batch lot;
    lot.facts.steps = {"receive"};
    lot.facts.finish_step.clear();
    CHECK(verdict(milk, lot) == Verdict::missing);
    CHECK(only(milk, lot).happened == clock(4, 0));
    CHECK(verdict(milk, Batch(lot).read(clock(4, 0), "6C")) == Verdict::within);
    CHECK(verdict(milk, Batch(lot).read(clock(4, 0), "6.1C").read(clock(4, 5), "5C")) == Verdict::deviation);
}

TEST_CASE("a yes/no inspection: no is a deviation that a later yes does not erase") {
    plan::Point sieve = point("mix", plan::YesNoLimit{});
    sieve.measures = "sieve whole";
    sieve.instrument_needed = false;
    CHECK(standing(sieve, Batch()) == Standing::open);
    CHECK(verdict(sieve, Batch().inspect(clock(4, 10), true)) == Verdict::within);
    CHECK(verdict(sieve, Batch().inspect(clock(4, 10), false).inspect(clock(4, 20), true).step("mix", clock(4, 30))) == Verdict::deviation);
    CHECK(only(sieve, Batch().inspect(clock(4, 10), false)).detail == "sieve whole: no.");
    const Finding missing = only(sieve, Batch().step("mix", clock(4, 30)));
    CHECK(missing.verdict == Verdict::missing);
    CHECK(missing.detail == "The step mix has passed without an inspection of sieve whole.");
    Batch voided = Batch().inspect(clock(4, 10), false).inspect(clock(4, 20), true);
    voided.facts.inspections[0].voided = true;
    CHECK(only(sieve, voided).verdict == Verdict::within);
    sieve.instrument_needed = true;
    CHECK(verdict(sieve, Batch().inspect(clock(4, 10), true)) == Verdict::unproven);
}

TEST_CASE("rule 12: a device check that is unproven or failed is told as such, for it is no good check") {
    plan::Point detector = point("", plan::YesNoLimit{});
    detector.measures = "all test pieces found";
    const auto check = [&](bool passed, InstrumentState state) {
        return judge::judge_place_inspection(detector, Batch().inspect(clock(6, 0), passed, "", state).facts.inspections[0]).verdict;
    };
    CHECK(check(true, InstrumentState::valid) == Verdict::within);
    CHECK(check(true, InstrumentState::lapsed) == Verdict::unproven);
    CHECK(check(false, InstrumentState::valid) == Verdict::deviation);
}
