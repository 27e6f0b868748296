// While the work still goes on, and what is typed late: in-process correction, readings after a step's end, the step begun again, slips
// and memory. Rules 4 and 47; the minutes are common practice, to be validated.
#include "judge/bench.h"
#include "judge/late.h"

using namespace bench;

namespace {

// Loaves: core at least 93 C, read on for 10 min after the end of the bake.
plan::Point loaf_core() {
    plan::Point core = at_least("bake", "93C");
    core.read_on = minutes(10);
    return core;
}

}  // namespace

TEST_CASE("rule 4: a value that further work corrects is unsettled while its step takes readings") {
    const plan::Point core = at_least("bake", "93C");
    const Batch low = Batch().read(clock(5, 15), "88.5C");
    const Judged judged = judge::judge_point(core, low.facts);
    CHECK(judged.standing == Standing::open);
    CHECK(judged.findings.empty());
    CHECK(judged.next == "88.5C is 4.5C below the limit of at least 93C: bake on and measure again");
    const Judged better = judge::judge_point(core, Batch(low).read(clock(5, 19), "96.4C").facts);
    CHECK(better.standing == Standing::open);
    CHECK(better.next == "88.5C is 4.5C below the limit of at least 93C: the later 96.4C corrects it once the end of bake is recorded");
    SECTION("the end decides") {
        CHECK(verdict(core, Batch(low).step("bake", clock(5, 20))) == Verdict::deviation);
        const Finding corrected = only(core, Batch(low).read(clock(5, 19), "96.4C").step("bake", clock(5, 20)));
        CHECK(corrected.verdict == Verdict::within);
        CHECK(corrected.measured == "96.4C");
        CHECK(corrected.corrected == "88.5C");
        CHECK(only(core, Batch().read(clock(5, 19), "96.4C").step("bake", clock(5, 20))).corrected.empty());
    }
    SECTION("so does whatever shows that the step is over, and then nothing corrected it") {
        CHECK(verdict(core, Batch(low).read(clock(5, 19), "96.4C").step("cool", clock(7, 0))) == Verdict::deviation);
        CHECK(verdict(core, Batch(low).read(clock(5, 19), "96.4C").pack(clock(7, 0))) == Verdict::deviation);
        CHECK(verdict(core, Batch(low).read(clock(5, 19), "96.4C").ship(clock(7, 0))) == Verdict::deviation);
    }
    SECTION("all that was corrected is listed") {
        CHECK(only(core, Batch(low).read(clock(5, 17), "91C").read(clock(5, 19), "96.4C").step("bake", clock(5, 20))).corrected ==
              "88.5C, 91C");
    }
    SECTION("a pH too high likewise, food that was too warm never") {
        CHECK(standing(at_most("mix", "4.2pH"), Batch().read(clock(5, 0), "4.6pH")) == Standing::open);
        CHECK(verdict(at_most("cool", "5C"), Batch().read(clock(5, 0), "8C")) == Verdict::deviation);
        plan::Point both = core;
        both.limit = plan::RangeLimit{bound("93C"), bound("99C")};
        CHECK(verdict(both, Batch(low).read(clock(5, 16), "99.1C")) == Verdict::deviation);  // beside one that may still be corrected
    }
}

TEST_CASE("rule 4: a least limit is read on after the end of its step") {
    const plan::Point core = loaf_core();
    const Batch out = Batch().step("bake", clock(5, 20));
    SECTION("not read: open until the minutes are over, as far as the book knows") {
        CHECK(standing(core, Batch(out).known(clock(5, 29, 59))) == Standing::open);
        CHECK(verdict(core, Batch(out).known(clock(5, 30))) == Verdict::missing);
        CHECK(only(core, Batch(out).known(clock(5, 30))).happened == clock(5, 20));
        CHECK(verdict(core, out) == Verdict::missing);
        CHECK(verdict(core, Batch(out).known(clock(5, 25)).pack(clock(5, 25))) == Verdict::missing);
        CHECK(verdict(core, Batch(out).known(clock(5, 25)).ship(clock(5, 25))) == Verdict::missing);
    }
    SECTION("read on the rack: what cools can only have been hotter") {
        CHECK(verdict(core, Batch(out).read(clock(5, 24), "96.4C").known(clock(5, 24))) == Verdict::within);
    }
    SECTION("low on the rack: unsettled until the minutes are over") {
        const Batch low = Batch(out).read(clock(5, 24), "88.5C");
        const Judged judged = judge::judge_point(core, Batch(low).known(clock(5, 24)).facts);
        CHECK(judged.standing == Standing::open);
        CHECK(judged.next ==
              "88.5C is 4.5C below the limit of at least 93C: put it back within 10 min of the end of bake, say so "
              "(step bake --again), and measure again");
        CHECK(standing(core, Batch(low).known(clock(5, 29, 59))) == Standing::open);
        CHECK(verdict(core, Batch(low).known(clock(5, 30))) == Verdict::deviation);
    }
    SECTION("a later good one on the rack corrects what was read in the oven, and not what was read beside it") {
        const Batch in_oven = Batch().read(clock(5, 15), "88.5C").step("bake", clock(5, 20));
        CHECK(verdict(core, Batch(in_oven).read(clock(5, 30), "96.4C")) == Verdict::within);
        CHECK(verdict(core, Batch(in_oven).read(clock(5, 30, 1), "96.4C")) == Verdict::deviation);
        CHECK(verdict(core, Batch(out).read(clock(5, 22), "88.5C").read(clock(5, 24), "96.4C")) == Verdict::deviation);
        CHECK(verdict(core, Batch().read(clock(5, 20), "88.5C").step("bake", clock(5, 20)).read(clock(5, 24), "96.4C")) ==
              Verdict::deviation);
    }
    SECTION("a second end, as of the weighing, opens no more minutes") {
        Batch weighed = Batch(out).known(clock(5, 50)).finish(clock(5, 50));
        weighed.facts.finish_step = "bake";
        CHECK(verdict(core, weighed) == Verdict::missing);
        CHECK(verdict(core, weighed.read(clock(5, 22), "88.5C").read(clock(5, 40), "96.4C")) == Verdict::deviation);
    }
}

TEST_CASE("rule 4: back in the oven") {
    const plan::Point core = loaf_core();
    const Batch low = Batch().step("bake", clock(5, 20)).read(clock(5, 24), "88.5C");
    SECTION("the step has not ended until its end is recorded anew") {
        const Batch back = Batch(low).again("bake", clock(5, 25)).known(clock(6, 30));
        CHECK_FALSE(back.facts.passed("bake"));
        CHECK_FALSE(back.facts.end_of("bake").has_value());
        CHECK_FALSE(back.facts.event("bake").has_value());
        CHECK(back.facts.last_end_of("bake") == clock(5, 20));  // hot then, for a cooling clock
        CHECK(standing(core, Batch(back).read(clock(5, 35), "96.4C")) == Standing::open);
        const Batch done = Batch(back).read(clock(5, 35), "96.4C").step("bake", clock(5, 36));
        CHECK(done.facts.end_of("bake") == clock(5, 36));
        CHECK(done.facts.passed_at("bake") == clock(5, 36));
        const Finding finding = only(core, done);
        CHECK(finding.verdict == Verdict::within);
        CHECK(finding.corrected == "88.5C");
    }
    SECTION("too late it corrects nothing, and the point is not open again") {
        const auto back_at = [&](Instant at) {
            return Batch(low).again("bake", at).read(clock(5, 40), "96.4C").step("bake", clock(5, 41));
        };
        CHECK(verdict(core, back_at(clock(5, 30))) == Verdict::within);
        CHECK(verdict(core, back_at(clock(5, 30, 1))) == Verdict::deviation);
        CHECK(verdict(core, Batch(low).again("bake", clock(5, 30, 1))) == Verdict::deviation);
        CHECK(verdict(at_least("bake", "93C"), back_at(clock(5, 25))) == Verdict::deviation);  // of a point that is not read on
    }
    SECTION("the good reading must have been taken after it went back, and up to 10 min after the new end") {
        CHECK(verdict(core, Batch(low).again("bake", clock(5, 25)).read(clock(5, 25), "96.4C").step("bake", clock(5, 36))) ==
              Verdict::deviation);
        const Batch done = Batch(low).again("bake", clock(5, 25)).step("bake", clock(5, 36));
        CHECK(verdict(core, Batch(done).read(clock(5, 46), "96.4C")) == Verdict::within);
        CHECK(verdict(core, Batch(done).read(clock(5, 46, 1), "96.4C")) == Verdict::deviation);
        CHECK(standing(core, Batch(done).known(clock(5, 45))) == Standing::open);
        CHECK(verdict(core, Batch(done).known(clock(5, 46))) == Verdict::deviation);
    }
    SECTION("after finish ended the step, and twice") {
        Batch finished = Batch().finish(clock(5, 20)).read(clock(5, 24), "88.5C").again("bake", clock(5, 25));
        finished.facts.finish_step = "bake";
        CHECK_FALSE(finished.facts.passed("bake"));
        CHECK(verdict(core, Batch(finished).step("bake", clock(5, 30)).read(clock(5, 30), "96C")) == Verdict::within);
        Batch twice = Batch(finished).step("bake", clock(5, 30)).read(clock(5, 31), "91C").again("bake", clock(5, 32));
        CHECK(only(core, twice.step("bake", clock(5, 38)).read(clock(5, 38), "95C")).corrected == "88.5C, 91C");
    }
    SECTION("packed or gone meanwhile: over, whatever went back") {
        CHECK(Batch(low).again("bake", clock(5, 25)).pack(clock(5, 24)).facts.passed_at("bake") == clock(5, 24));
        CHECK(verdict(core, Batch(low).again("bake", clock(5, 25)).ship(clock(5, 24))) == Verdict::deviation);
    }
    SECTION("times between events wait for the new end") {
        const plan::Point time = point("bake", plan::TimeLimit{"mix", "bake", std::nullopt, hours(1)});
        const Batch mixed = Batch(low).step("mix", clock(4, 30));
        CHECK(verdict(time, mixed) == Verdict::within);
        CHECK(standing(time, Batch(mixed).again("bake", clock(5, 25))) == Standing::open);
        CHECK(verdict(time, Batch(mixed).again("bake", clock(5, 25)).step("bake", clock(5, 30))) == Verdict::within);
        CHECK(verdict(time, Batch(mixed).again("bake", clock(5, 25)).step("bake", clock(5, 31))) == Verdict::deviation);
    }
}

TEST_CASE("rule 47: typed late, a critical reading counts from a slip, and from memory it is at best unproven") {
    plan::Point core = loaf_core();
    const auto typed = [&](Instant at, std::string slip = "") {
        return only(core, Batch().read(clock(5, 20), "96.4C").typed(at, std::move(slip)).step("bake", clock(5, 20)));
    };
    // late_after 15 min is the longer: the point fell missing at 5:35.
    CHECK(typed(clock(5, 35)).verdict == Verdict::within);
    CHECK(typed(clock(5, 35)).detail == "96.4C, limit at least 93C.");
    CHECK(typed(clock(5, 35, 1)).verdict == Verdict::unproven);
    CHECK(typed(clock(6, 10)).verdict == Verdict::unproven);
    CHECK(typed(clock(6, 10)).detail == "96.4C, limit at least 93C. Typed 50 min after, without a slip.");
    CHECK(typed(clock(6, 10), "17").verdict == Verdict::within);
    CHECK(typed(clock(6, 10), "17").detail == "96.4C, limit at least 93C. From slip 17.");
    CHECK(typed(clock(5, 31), "17").detail == "96.4C, limit at least 93C.");
    SECTION("read_on may be the longer") {
        core.read_on = minutes(30);
        CHECK(typed(clock(5, 50)).verdict == Verdict::within);
        CHECK(typed(clock(5, 50, 1)).verdict == Verdict::unproven);
    }
    SECTION("not late: typed before the step had passed, of a point that is not critical, or by a logger") {
        CHECK(verdict(core, Batch().read(clock(5, 0), "96.4C").typed(clock(5, 30)).step("bake", clock(5, 20))) == Verdict::within);
        CHECK(verdict(core, Batch().read(clock(5, 0), "96.4C").typed(clock(9, 0))) == Verdict::within);
        CHECK(verdict(core, Batch().read(clock(5, 20), "96.4C").step("bake", clock(5, 20))) == Verdict::within);
        core.grade = plan::Grade::operating;
        CHECK(typed(clock(6, 10)).verdict == Verdict::within);
    }
    SECTION("a bad one counts against the product however late it comes") {
        const Finding bad = only(core, Batch().read(clock(5, 20), "88C").typed(clock(6, 10)).step("bake", clock(5, 20)));
        CHECK(bad.verdict == Verdict::deviation);
    }
    SECTION("from memory nothing is corrected") {
        const Batch low = Batch().read(clock(5, 15), "88.5C").step("bake", clock(5, 20)).read(clock(5, 19), "96.4C");
        CHECK(verdict(core, Batch(low).typed(clock(5, 30))) == Verdict::within);
        CHECK(verdict(core, Batch(low).typed(clock(6, 10))) == Verdict::deviation);
        CHECK(verdict(core, Batch(low).typed(clock(6, 10), "17")) == Verdict::within);
    }
    SECTION("beside good ones in time it takes nothing away") {
        const Batch read = Batch().read(clock(5, 18), "95C").step("bake", clock(5, 20)).read(clock(5, 19), "96.4C").typed(clock(6, 10));
        CHECK(verdict(core, read) == Verdict::within);
        CHECK(only(core, read).detail == "95C, limit at least 93C.");
    }
    SECTION("an inspection likewise") {
        plan::Point crust = point("bake", plan::YesNoLimit{});
        crust.instrument_needed = false;
        const auto looked = [&](std::string slip) {
            Batch batch = Batch().inspect(clock(5, 20), true).step("bake", clock(5, 20));
            batch.facts.inspections[0].written = clock(6, 10);
            batch.facts.inspections[0].slip = std::move(slip);
            return verdict(crust, batch);
        };
        CHECK(looked("") == Verdict::unproven);
        CHECK(looked("17") == Verdict::within);
    }
    SECTION("a cooling typed from memory in the morning is not shown") {
        const plan::Point cooling = point("cool", food_code());
        Batch night;
        for (const auto& [at, value] :
             std::vector<std::pair<Instant, std::string>>{{clock(5, 0), "57C"}, {clock(6, 30), "21C"}, {clock(9, 0), "5C"}})
            night.read(at, value).typed(clock(12, 0));
        night.step("cool", clock(9, 0));
        CHECK(verdict(cooling, night) == Verdict::unproven);
        for (auto& reading : night.facts.readings) reading.slip = "4";
        CHECK(verdict(cooling, night) == Verdict::within);
        CHECK(only(cooling, night).detail.ends_with("From slip 4."));
    }
}

TEST_CASE("rule 48: pieces that came out are compared with what the dough makes") {
    constexpr std::int64_t tenth = 10'000;  // 10 %
    const auto of = [](std::int64_t good, std::int64_t spoiled, std::int64_t expected) {
        return judge::judge_yield(good, spoiled, expected, tenth, clock(6, 0));
    };
    CHECK_FALSE(of(60, 35, 95).has_value());
    CHECK_FALSE(of(90, 0, 100).has_value());  // inclusive
    CHECK_FALSE(of(110, 0, 100).has_value());
    CHECK_FALSE(of(50, 40, 100).has_value());
    CHECK_FALSE(of(60, 0, 0).has_value());
    const auto few = of(60, 29, 100);
    REQUIRE(few.has_value());
    CHECK(few->point == "yield");
    CHECK(few->verdict == Verdict::deviation);
    CHECK(few->happened == clock(6, 0));
    CHECK(few->measured == "89 of 100 pieces");
    CHECK(few->detail == "60 good, 29 spoiled, 11 not accounted for; tolerance 10%.");
    CHECK(of(111, 0, 100)->detail == "111 good, 0 spoiled, 11 more than the dough makes; tolerance 10%.");
    CHECK(judge::yield_limit_text(100, tenth) == "100 pieces, give or take 10%");
}
