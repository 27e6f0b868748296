// Evidence has a window: what is read outside it proves nothing, and what breaks the limit there still counts (rule 52). Two ends of one
// step: the harder counts (rule 53). The minutes are common practice, to be validated; a site's late_after is 15 min unless it says so.
#include "judge/window.h"

#include "judge/bench.h"
#include "judge/ends.h"

using namespace bench;

namespace {

plan::Point core_of_loaf() {
    plan::Point core = at_least("bake", "93C");
    core.read_on = minutes(10);
    return core;
}
plan::Point cooled() { return point("cool", plan::BeforePackingLimit{bound("35C")}); }

plan::Point seen(std::string step) {
    plan::Point seal = point(std::move(step), plan::YesNoLimit{});
    seal.instrument_needed = false;
    return seal;
}

}  // namespace

TEST_CASE("rule 52: a core read hours after the oven does not clear a missing one") {
    const Batch out = Batch().step("bake", clock(5, 20));
    const Finding late = only(core_of_loaf(), Batch(out).read(clock(11, 20), "95C"));
    CHECK(late.verdict == Verdict::missing);
    CHECK(late.happened == clock(5, 20));
    CHECK(late.evidence.empty());
    CHECK(late.detail == "The step bake has passed without a reading of core temperature. 95C, from 5:50 after its time, proves nothing.");
    CHECK(verdict(core_of_loaf(), Batch(out).read(clock(5, 30), "95C")) == Verdict::within);
    CHECK(verdict(core_of_loaf(), Batch(out).read(clock(5, 30, 1), "95C")) == Verdict::missing);
    SECTION("eleven days later neither, nor where nobody recorded the end and finish shows it") {
        CHECK(verdict(core_of_loaf(), Batch(out).read(clock(269, 20), "95C")) == Verdict::missing);
        CHECK(verdict(core_of_loaf(), Batch().finish(clock(7, 0)).read(clock(7, 10), "95C")) == Verdict::within);
        CHECK(verdict(core_of_loaf(), Batch().finish(clock(7, 0)).read(clock(7, 10, 1), "95C")) == Verdict::missing);
        CHECK(verdict(core_of_loaf(), Batch().step("cool", clock(7, 0)).step("bake", clock(9, 0)).read(clock(8, 59), "95C")) ==
              Verdict::missing);
    }
    SECTION("a point that says no minutes takes what the site calls on time") {
        CHECK(verdict(at_least("bake", "93C"), Batch(out).read(clock(5, 35), "95C")) == Verdict::within);
        CHECK(verdict(at_least("bake", "93C"), Batch(out).read(clock(5, 35, 1), "95C")) == Verdict::missing);
        Batch slow = Batch(out).read(clock(5, 50), "95C");
        slow.facts.late_after = minutes(30);
        CHECK(verdict(at_least("bake", "93C"), slow) == Verdict::within);
    }
    SECTION("what is too low by then has cooled, and counts against nothing") {
        const Batch read = Batch(out).read(clock(5, 18), "96C").read(clock(6, 0), "71C");
        CHECK(verdict(core_of_loaf(), read) == Verdict::within);
        CHECK(only(core_of_loaf(), read).detail == "96C, limit at least 93C. 71C, from 0:30 after its time, proves nothing.");
        CHECK(verdict(core_of_loaf(), Batch(out).read(clock(5, 18), "96C").read(clock(5, 30), "71C")) == Verdict::deviation);
    }
    SECTION("back in the oven: until ten minutes after the new end") {
        const Batch back = Batch(out).read(clock(5, 24), "88.5C").again("bake", clock(5, 25)).step("bake", clock(5, 36));
        CHECK(verdict(core_of_loaf(), Batch(back).read(clock(5, 46), "96C")) == Verdict::within);
        CHECK(verdict(core_of_loaf(), Batch(back).read(clock(5, 46, 1), "96C")) == Verdict::deviation);
    }
}

TEST_CASE("rule 52: each unit is told what of it lies outside, at most three values") {
    plan::Point core = core_of_loaf();
    core.units = {"front", "back"};
    Batch batch = Batch().step("bake", clock(5, 20)).read(clock(5, 18), "95C", "front");
    for (const std::int64_t minute : {0, 1, 2, 3, 4}) batch.read(clock(7, minute), "40C", "back");
    const auto findings = judge::judge_point(core, batch.facts).findings;
    REQUIRE(findings.size() == 2);
    CHECK(findings[0].detail == "95C, limit at least 93C.");
    CHECK(findings[1].detail ==
          "The step bake has passed without a reading of core temperature. 40C, 40C, 40C and 2 more, from 1:30 after its time, prove "
          "nothing.");
    batch.facts.readings.back().voided = true;
    CHECK(judge::judge_point(core, batch.facts).findings[1].detail.find("and 1 more") != std::string::npos);
}

TEST_CASE("rule 52: the dough's 28 C proves no cooled loaf") {
    const Batch dough = Batch().read(clock(4, 20), "28C");
    SECTION("the bake ended after it: nobody read the loaf") {
        const Finding finding = only(cooled(), Batch(dough).step("bake", clock(5, 20)).pack(clock(7, 0)));
        CHECK(finding.verdict == Verdict::missing);
        CHECK(finding.detail == "No reading of core temperature before packing. 28C, from before the end of bake, proves nothing.");
    }
    SECTION("nobody recorded the end of the bake: unproven, whatever else was recorded") {
        const Finding finding = only(cooled(), Batch(dough).step("mix", clock(4, 15)).finish(clock(6, 50)).pack(clock(7, 0)));
        CHECK(finding.verdict == Verdict::unproven);
        CHECK(finding.detail ==
              "28C, limit at most 35C, read 2:40 before packing. Nobody recorded the end of bake, from which on it counts.");
        CHECK(verdict(cooled(), Batch().read(clock(4, 20), "36C").pack(clock(7, 0))) == Verdict::deviation);
    }
    SECTION("the baker is told before packing") {
        CHECK(judge::judge_point(cooled(), dough.facts).next ==
              "core temperature at most 35C before packing, last read 28C; record the end of bake, from which on it counts");
        CHECK(judge::judge_point(cooled(), Batch(dough).step("bake", clock(5, 20)).facts).next ==
              "core temperature at most 35C before packing; 28C, from before the end of bake, proves nothing");
    }
    SECTION("after it the loaf is proven, also where the cooling was said to be over before") {
        CHECK(verdict(cooled(), Batch(dough).step("bake", clock(5, 20)).read(clock(7, 0), "33C").pack(clock(7, 0))) == Verdict::within);
        const Batch over = Batch().step("bake", clock(5, 20)).finish(clock(6, 0)).read(clock(9, 0), "33C").pack(clock(9, 5));
        CHECK(verdict(cooled(), over) == Verdict::within);
    }
    SECTION("back in the oven: what was read meanwhile says nothing") {
        const Batch back = Batch().step("bake", clock(5, 20)).read(clock(5, 24), "34C").again("bake", clock(5, 25));
        CHECK(verdict(cooled(), Batch(back).pack(clock(7, 0))) == Verdict::unproven);
        CHECK(verdict(cooled(), Batch(back).step("bake", clock(5, 30)).pack(clock(7, 0))) == Verdict::missing);
    }
    SECTION("nor a staged cooling, with or without the end of the bake") {
        plan::CoolingLimit staged = food_code();
        CHECK(verdict(point("cool", staged), Batch(dough).read(clock(4, 30), "4C").pack(clock(7, 0))) == Verdict::unproven);
        staged.hot_at = "bake";
        const plan::Point cooling = point("cool", staged);
        CHECK(verdict(cooling, Batch(dough).read(clock(4, 30), "4C").step("bake", clock(5, 20)).pack(clock(7, 0))) == Verdict::unproven);
        // A hot reading before the end of the bake is recorded stands as it did.
        Batch loaf = Batch().read(clock(5, 0), "90C").step("bake", clock(5, 20)).read(clock(7, 20), "21C").read(clock(11, 0), "5C");
        CHECK(verdict(cooling, loaf.pack(clock(12, 0))) == Verdict::within);
    }
}

TEST_CASE("rule 52: a limit that something earlier could meet opens with the end of the step before, said up to 15 min late") {
    const plan::Point weight = point("cool", plan::RangeLimit{bound("735g"), std::nullopt});
    const Batch baked = Batch().step("mix", clock(4, 10)).step("bake", clock(5, 20));
    const auto weighed = [&](Instant at, std::string_view value = "740g") {
        return only(weight, Batch(baked).read(at, value).finish(clock(7, 0)));
    };
    CHECK(weighed(clock(5, 5)).verdict == Verdict::within);
    CHECK(weighed(clock(5, 4, 59)).verdict == Verdict::missing);
    CHECK(weighed(clock(4, 30), "900g").verdict == Verdict::missing);                                    // the dough piece
    CHECK(weighed(clock(4, 30), "700g").verdict == Verdict::deviation);                                  // too light all the same
    CHECK(verdict(weight, Batch().read(clock(4, 30), "740g").finish(clock(7, 0))) == Verdict::within);   // no earlier end on record
    CHECK(verdict(weight, Batch().read(clock(3, 59), "740g").finish(clock(7, 0))) == Verdict::missing);  // before the batch began
    SECTION("the weighed yield is no such end, nor is one of a later step") {
        const plan::Point slice = point("pack", plan::RangeLimit{std::nullopt, bound("12%")});
        CHECK(verdict(slice, Batch(baked).read(clock(6, 0), "11%").finish(clock(7, 0)).ship(clock(8, 0))) == Verdict::within);
        CHECK(verdict(at_most("mix", "28C"), Batch(baked).read(clock(4, 10), "26C")) == Verdict::within);
    }
    SECTION("heat that was there was there, and what is seen is seen") {
        CHECK(verdict(core_of_loaf(), Batch().read(clock(5, 0), "95C").step("mix", clock(5, 16)).step("bake", clock(5, 20))) ==
              Verdict::within);
        CHECK(verdict(seen("cool"), Batch(baked).inspect(clock(5, 0), true).finish(clock(7, 0))) == Verdict::within);
    }
}

TEST_CASE("rule 52: what is seen too late proves nothing, but a no stays a no") {
    const Batch over = Batch().step("cool", clock(7, 0));
    CHECK(verdict(seen("cool"), Batch(over).inspect(clock(7, 15), true)) == Verdict::within);
    const Finding late = only(seen("cool"), Batch(over).inspect(clock(7, 16), true));
    CHECK(late.verdict == Verdict::missing);
    CHECK(late.detail.ends_with("yes, from 0:01 after its time, proves nothing."));
    CHECK(verdict(seen("cool"), Batch(over).inspect(clock(6, 50), true).inspect(clock(13, 0), false)) == Verdict::deviation);
    CHECK(verdict(at_most("cool", "7C"), Batch(over).read(clock(6, 50), "5C").read(clock(13, 0), "12C")) == Verdict::deviation);
}

TEST_CASE("rule 52: the plan states a window") {
    plan::Point filling = at_most("cool", "7C");
    filling.window = plan::Window{"bake", "pack", minutes(30)};
    const Batch baked = Batch().step("bake", clock(5, 20));
    SECTION("from one event to the other and so long after") {
        const auto read = [&](Instant at) { return verdict(filling, Batch(baked).finish(clock(6, 0)).read(at, "6C").pack(clock(8, 0))); };
        CHECK(read(clock(5, 19, 59)) == Verdict::missing);
        CHECK(read(clock(5, 20)) == Verdict::within);
        CHECK(read(clock(8, 30)) == Verdict::within);
        CHECK(read(clock(8, 30, 1)) == Verdict::missing);
    }
    SECTION("it is missing when the window has closed, not before") {
        CHECK(standing(filling, Batch(baked).finish(clock(6, 0))) == Standing::open);
        CHECK(verdict(filling, Batch(baked).finish(clock(6, 0)).pack(clock(8, 0))) == Verdict::missing);
        CHECK(verdict(filling, Batch(baked).finish(clock(6, 0)).ship(clock(9, 0))) == Verdict::missing);
    }
    SECTION("what was read before a stated beginning counts neither way") {
        CHECK(verdict(filling, Batch(baked).read(clock(5, 0), "60C").read(clock(7, 0), "6C").pack(clock(8, 0))) == Verdict::within);
    }
    SECTION("a beginning that nobody recorded: at best unproven, and it is named") {
        const Finding finding = only(filling, Batch().read(clock(7, 0), "6C").pack(clock(8, 0)));
        CHECK(finding.verdict == Verdict::unproven);
        CHECK(finding.detail == "6C, limit at most 7C. Nobody recorded the end of bake, from which on it counts.");
        CHECK(verdict(filling, Batch().read(clock(7, 0), "8C").pack(clock(8, 0))) == Verdict::deviation);
    }
    SECTION("minutes alone: after the end of its own step, open so long") {
        filling.window = plan::Window{"", "", minutes(5)};
        CHECK(verdict(filling, Batch().step("cool", clock(7, 0)).read(clock(7, 5), "6C")) == Verdict::within);
        CHECK(verdict(filling, Batch().step("cool", clock(7, 0)).read(clock(7, 5, 1), "6C")) == Verdict::missing);
        CHECK(standing(filling, Batch().step("cool", clock(7, 0)).known(clock(7, 4))) == Standing::open);
        CHECK(verdict(filling, Batch().step("cool", clock(7, 0)).known(clock(7, 5))) == Verdict::missing);
    }
    SECTION("what is sought in the food as sold may come whenever, unless the plan says by when") {
        plan::Point dry = point("bake", plan::ClassLimit{});
        dry.instrument_needed = false;
        const Batch laboratory = Batch(baked).read(clock(100, 0), "4.1pH").read(clock(100, 0), "0.80aw");
        CHECK(verdict(dry, laboratory) == Verdict::within);
        dry.window = plan::Window{"", "", hours(24)};
        CHECK(verdict(dry, laboratory) == Verdict::missing);
    }
}

TEST_CASE("rule 53: a point is judged with either end of a step, and the harder counts") {
    const Batch twice = Batch().step("bake", clock(5, 20)).step("bake", clock(9, 0));
    SECTION("a second end, pressed so that a late core should count") {
        const Finding finding = only(core_of_loaf(), Batch(twice).read(clock(8, 55), "95C"));
        CHECK(finding.verdict == Verdict::missing);
        CHECK(finding.detail.ends_with("bake was ended more than once, up to 3:40 apart: judged by the first."));
        CHECK(only(core_of_loaf(), Batch(twice).read(clock(5, 18), "95C")).verdict == Verdict::within);
    }
    SECTION("one of before the reading that breaks the limit") {
        const plan::Point warm = at_most("cool", "30C");
        const Batch mixed = Batch().step("mix", clock(4, 10)).step("mix", clock(7, 0)).read(clock(6, 30), "26C").finish(clock(7, 10));
        CHECK(verdict(warm, mixed) == Verdict::missing);  // by the last end it was read before its time
        CHECK(verdict(cooled(), Batch(twice).read(clock(8, 0), "28C").pack(clock(9, 30))) == Verdict::missing);
    }
    SECTION("the clock of a cooling starts with the first, or its readings contradict the last") {
        plan::CoolingLimit staged = food_code();
        staged.hot_at = "bake";
        const plan::Point cooling = point("cool", staged);
        const Batch slow = Batch(twice).read(clock(10, 0), "20C").read(clock(11, 0), "4C").pack(clock(12, 0));
        CHECK(verdict(cooling, slow) == Verdict::unproven);  // 5:40 at most by the first
        CHECK(verdict(cooling, Batch(slow).read(clock(8, 0), "25C")) == Verdict::unproven);
        Batch first = Batch().step("bake", clock(9, 0)).read(clock(10, 0), "20C").read(clock(11, 0), "4C").pack(clock(12, 0));
        CHECK(verdict(cooling, first) == Verdict::within);
    }
    SECTION("two steps ended twice: every pair") {
        const plan::Point time = point("bake", plan::TimeLimit{"mix", "bake", minutes(60), minutes(90)});
        const Batch both = Batch().step("mix", clock(4, 0)).step("mix", clock(4, 20)).step("bake", clock(5, 20)).step("bake", clock(5, 25));
        CHECK(judge::choices_of_ends(time, both.facts).size() == 4);
        CHECK(verdict(time, both) == Verdict::within);  // 1:00 to 1:25
        CHECK(verdict(time, Batch(both).step("bake", clock(5, 31))) == Verdict::deviation);
        CHECK(verdict(time, Batch(both).step("mix", clock(4, 21))) == Verdict::deviation);
    }
    SECTION("a step that the point does not rest on, further work, and the same minute twice are no choice") {
        CHECK(judge::choices_of_ends(core_of_loaf(), Batch(twice).step("mix", clock(4, 0)).step("mix", clock(4, 5)).facts).size() == 2);
        CHECK(judge::choices_of_ends(at_most("mix", "28C"), twice.facts).size() == 1);
        const Batch back = Batch().step("bake", clock(5, 20)).again("bake", clock(5, 25)).step("bake", clock(5, 36));
        CHECK(judge::choices_of_ends(core_of_loaf(), back.facts).size() == 1);
        CHECK(judge::choices_of_ends(core_of_loaf(), Batch().step("bake", clock(5, 20)).step("bake", clock(5, 20)).facts).size() == 1);
    }
}

TEST_CASE("rule 53: the weighed yield ends a step only where nobody did") {
    Batch baked = Batch().step("bake", clock(5, 20)).finish(clock(7, 0));
    baked.facts.finish_step = "bake";
    CHECK(baked.facts.end_of("bake") == clock(5, 20));
    CHECK(baked.facts.works("bake", minutes(10)).back().until == clock(5, 20));
    CHECK(verdict(core_of_loaf(), Batch(baked).read(clock(6, 55), "95C")) == Verdict::missing);
    SECTION("an end that was recorded after the weighing is the end, too") {
        Batch later = Batch().finish(clock(5, 0)).step("bake", clock(5, 20));
        later.facts.finish_step = "bake";
        CHECK(later.facts.end_of("bake") == clock(5, 20));
    }
    SECTION("but it had ended by the weighing: to press it later starts no clock anew and lengthens no window") {
        Batch pressed = Batch().finish(clock(5, 20)).step("bake", clock(6, 30)).read(clock(7, 25), "20C").read(clock(10, 0), "5C");
        pressed.facts.finish_step = "bake";
        plan::CoolingLimit staged = food_code();
        staged.hot_at = "bake";
        const Finding slow = only(point("cool", staged), Batch(pressed).pack(clock(11, 0)));
        CHECK(slow.verdict == Verdict::unproven);  // 21 C up to 2:05 after the first
        CHECK(slow.detail.ends_with("bake was ended more than once, up to 1:10 apart: judged by the first."));
        CHECK(verdict(core_of_loaf(), Batch(pressed).read(clock(6, 25), "95C")) == Verdict::missing);
    }
    SECTION("begun again, and weighed before anybody said that it was over") {
        Batch back = Batch().step("bake", clock(5, 20)).again("bake", clock(5, 25)).finish(clock(5, 40));
        back.facts.finish_step = "bake";
        CHECK(back.facts.end_of("bake") == clock(5, 40));
        CHECK(back.step("bake", clock(5, 36)).facts.end_of("bake") == clock(5, 36));
    }
}
