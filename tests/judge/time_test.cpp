// Time between two events, cooling before packing, and the gap between two checks.
#include "judge/bench.h"

using namespace bench;

TEST_CASE("time between two events, inclusive on both sides") {
    const plan::Point proof = point("bake", plan::TimeLimit{"mix", "bake", minutes(40), minutes(80)});
    const auto took = [&](std::int64_t minute) { return verdict(proof, Batch().step("mix", clock(4, 0)).step("bake", clock(4, minute))); };
    CHECK(took(39) == Verdict::deviation);
    CHECK(took(40) == Verdict::within);
    CHECK(took(80) == Verdict::within);
    CHECK(took(81) == Verdict::deviation);
    const Finding late = only(proof, Batch().step("mix", clock(4, 0)).step("bake", clock(5, 35)));
    CHECK(late.measured == "1:35");
    CHECK(late.figure == minutes(95).ms);
    CHECK(late.detail == "From the end of mix to the end of bake: 1:35, limit from 0:40 to 1:20: 0:15 too long.");
    CHECK(late.happened == clock(5, 35));
    CHECK(late.evidence == std::vector<std::int64_t>{100, 101});
}

TEST_CASE("rule 53: of two ends of a step the harder counts, and finish ends its own step where nobody else did") {
    const plan::Point proof = point("bake", plan::TimeLimit{"mix", "cool", std::nullopt, minutes(80)});
    const Batch mixed = Batch().step("mix", clock(4, 0)).step("mix", clock(4, 10));
    const Finding longer = only(proof, Batch(mixed).finish(clock(5, 30)));
    CHECK(longer.verdict == Verdict::deviation);
    CHECK(longer.measured == "1:30");
    CHECK(
        longer.detail ==
        "From the end of mix to the end of cool: 1:30, limit at most 1:20: 0:10 too long. mix was ended more than once, up to 0:10 apart: "
        "judged by the first.");
    CHECK(only(proof, Batch(mixed).finish(clock(5, 30)).step("cool", clock(5, 20))).measured == "1:20");
    // What was weighed had ended by then, whatever is pressed later.
    const Finding pressed = only(proof, Batch().step("mix", clock(4, 10)).finish(clock(5, 30)).step("cool", clock(5, 40)));
    CHECK(pressed.measured == "1:30");
    CHECK(pressed.detail.ends_with("cool was ended more than once, up to 0:10 apart: judged by the last."));
    const plan::Point rest = point("bake", plan::TimeLimit{"mix", "cool", minutes(85), std::nullopt});
    const Finding shorter = only(rest, Batch(mixed).finish(clock(5, 30)));
    CHECK(shorter.measured == "1:20");
    CHECK(shorter.detail.ends_with("judged by the last."));
    CHECK(Batch(mixed).facts.passed_at("mix") == clock(4, 0));
    CHECK_FALSE(Batch(mixed).facts.passed("cool"));
    CHECK_FALSE(Batch(mixed).facts.event("finish").has_value());
}

TEST_CASE("a time that is not recorded is open, then missing or unproven") {
    const plan::Point proof = point("bake", plan::TimeLimit{"mix", "bake", std::nullopt, minutes(80)});
    SECTION("open while the second event can still come") {
        const Judged judged = judge::judge_point(proof, Batch().step("mix", clock(4, 0)).facts);
        CHECK(judged.standing == Standing::open);
        CHECK(judged.next == "the end of bake, at most 1:20 after the end of mix");
    }
    SECTION("missing when a later step shows that the step is over") {
        const Finding finding = only(proof, Batch().step("mix", clock(4, 0)).step("cool", clock(6, 0)));
        CHECK(finding.verdict == Verdict::missing);
        CHECK(finding.happened == clock(6, 0));
        CHECK(finding.detail ==
              "The end of bake is over and was not recorded; limit at most 1:20 from the end of mix to the "
              "end of bake.");
    }
    SECTION("missing when the first step was not recorded") {
        CHECK(verdict(proof, Batch().step("bake", clock(5, 0))) == Verdict::missing);
    }
    SECTION("unproven when it is an event of the batch itself") {
        const plan::Point hold = point("pack", plan::TimeLimit{"finish", "ship", std::nullopt, hours(4)});
        CHECK(verdict(hold, Batch().pack(clock(7, 0)).ship(clock(9, 0))) == Verdict::unproven);
        const plan::Point packed = point("pack", plan::TimeLimit{"start", "pack", std::nullopt, hours(4)});
        CHECK(verdict(packed, Batch().ship(clock(7, 0))) == Verdict::unproven);
        CHECK(standing(packed, Batch().finish(clock(7, 0))) == Standing::open);
    }
    SECTION("unproven when the records contradict each other") {
        const Batch backwards = Batch().step("mix", clock(5, 0)).step("bake", clock(4, 0));
        CHECK(verdict(proof, backwards) == Verdict::unproven);
        CHECK_FALSE(only(proof, backwards).figure);
        CHECK_FALSE(only(proof, Batch().step("bake", clock(5, 0))).figure);
    }
}

TEST_CASE("time limits run from the first packing to the last leaving") {
    const plan::Point shelf = point("pack", plan::TimeLimit{"pack", "ship", std::nullopt, hours(24)});
    Batch batch = Batch().pack(clock(8, 0)).pack(clock(6, 0)).ship(clock(10, 0)).ship(clock(30, 0));
    CHECK(only(shelf, batch).measured == "24:00");
    CHECK(verdict(shelf, batch) == Verdict::within);
    CHECK(verdict(shelf, batch.ship(clock(30, 1))) == Verdict::deviation);
}

TEST_CASE("durations are real time: a night of 23 hours is 23 hours") {
    // Instants are UTC; 2026-03-29 20:00 to 08:00 over a spring clock change is 11 h (standards: tz
    // database).
    const plan::Point scald = point("bake", plan::TimeLimit{"mix", "bake", hours(11), hours(11)});
    const Instant evening{1'774'724'400'000};  // 2026-03-28T19:00:00Z, 20:00 in Berlin
    CHECK(verdict(scald, Batch().step("mix", evening).step("bake", evening + hours(11))) == Verdict::within);
}

TEST_CASE("before packing: the last reading before each packing must be at most the limit") {
    const plan::Point slice = point("cool", plan::BeforePackingLimit{bound("30C | 86F")});
    const Batch baked = Batch().step("bake", clock(4, 50));
    CHECK(verdict(slice, Batch(baked).read(clock(7, 0), "30C").pack(clock(7, 30))) == Verdict::within);
    CHECK(verdict(slice, Batch(baked).read(clock(7, 0), "30.1C").pack(clock(7, 30))) == Verdict::deviation);
    CHECK(verdict(slice, Batch(baked).read(clock(7, 0), "86F").pack(clock(7, 30))) == Verdict::within);
    CHECK(verdict(slice, Batch(baked).read(clock(7, 0), "86.1F").pack(clock(7, 30))) == Verdict::deviation);
    SECTION("an old reading is fine, and says how old it is") {
        const Finding finding = only(slice, Batch(baked).read(clock(5, 0), "29C").pack(clock(11, 30)));
        CHECK(finding.verdict == Verdict::within);
        CHECK(finding.detail == "29C, limit at most 30C, read 6:30 before packing.");
    }
    SECTION("only the last reading before packing counts, for the product cools") {
        CHECK(verdict(slice, Batch(baked).read(clock(6, 0), "55C").read(clock(7, 0), "28C").pack(clock(7, 0))) == Verdict::within);
        CHECK(verdict(slice, Batch(baked).read(clock(6, 0), "28C").read(clock(7, 0), "31C").pack(clock(7, 1))) == Verdict::deviation);
    }
    SECTION("of two at one instant the warmest") {
        CHECK(verdict(slice, Batch(baked).read(clock(7, 0), "31C").read(clock(7, 0), "28C").pack(clock(7, 1))) == Verdict::deviation);
    }
    SECTION("each packing for itself") {
        const Finding finding =
            only(slice, Batch(baked).read(clock(6, 0), "34C").pack(clock(6, 10)).read(clock(7, 0), "28C").pack(clock(7, 30)));
        CHECK(finding.verdict == Verdict::deviation);
        CHECK(finding.detail == "34C is 4C above the limit of at most 30C, read 0:10 before packing 1 of 2.");
    }
    SECTION("no reading before a packing is missing, whatever was read after it") {
        const Finding finding = only(slice, Batch(baked).pack(clock(6, 10)).read(clock(7, 0), "28C").pack(clock(7, 30)));
        CHECK(finding.verdict == Verdict::missing);
        CHECK(finding.happened == clock(6, 10));
        CHECK(finding.detail == "No reading of core temperature before packing 1 of 2.");
    }
    SECTION("left without a record of packing: leaving stands for it") {
        CHECK(verdict(slice, Batch(baked).ship(clock(9, 0))) == Verdict::missing);
        CHECK(verdict(slice, Batch(baked).read(clock(8, 0), "29C").ship(clock(9, 0))) == Verdict::within);
    }
    SECTION("open before packing") {
        const Judged judged = judge::judge_point(slice, Batch(baked).read(clock(6, 0), "34C").finish(clock(6, 5)).facts);
        CHECK(judged.standing == Standing::open);
        CHECK(judged.next == "core temperature at most 30C before packing, last read 34C");
    }
    SECTION("a doubtful instrument is unproven at best") {
        Batch batch = Batch(baked).read(clock(7, 0), "28C", "", InstrumentState::none).pack(clock(7, 30));
        CHECK(only(slice, batch).verdict == Verdict::unproven);
        CHECK(only(slice, batch).detail == "28C, limit at most 30C, read 0:30 before packing, but no instrument was named.");
    }
    SECTION("voiding the last reading leaves the one before it to decide") {
        Batch batch = Batch(baked).read(clock(6, 0), "29C").read(clock(7, 0), "34C").pack(clock(7, 30));
        CHECK(verdict(slice, batch) == Verdict::deviation);
        CHECK(only(slice, batch.void_reading(1)).verdict == Verdict::within);
    }
}

TEST_CASE("rule 11: a gap is missing from when the check was due, and says how much longer than allowed it is") {
    plan::Point room = at_most("", "5C");
    room.measures = "cold room";
    room.interval.emplace().every = hours(2);
    const Finding gap = judge::judge_gap(room, clock(8, 0), minutes(160), minutes(40));
    CHECK(gap.verdict == Verdict::missing);
    CHECK(gap.happened == clock(8, 0));
    CHECK(gap.measured == "2:40 without a check");
    CHECK(gap.detail == "A check of cold room is owed every 2:00; this gap is 0:40 longer.");
    const Finding closed = judge::judge_closed_hours(room, clock(8, 0), hours(12), "a max reading, or a logger's file");
    CHECK(closed.verdict == Verdict::missing);
    CHECK(closed.happened == clock(8, 0));
    CHECK(closed.measured == "12:00 closed, not shown");
    CHECK(closed.detail == "After closed hours cold room wants a max reading, or a logger's file.");
}
