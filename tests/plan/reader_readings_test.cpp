// What a critical point is read with, and what a reading of it can be at all (rules 56, 57).
#include <catch2/catch.hpp>

#include "plan/described.h"
#include "plan/instruments.h"
#include "plan_texts.h"

using namespace peelbook;
using namespace peelbook::plan;
using namespace peelbook::plan::testing;

namespace {

std::string critical(const std::string& limit, const std::string& more = "") {
    return "[[point]]\nid = \"p\"\nname = \"p\"\nstep = \"bake\"\nproducts = [\"loaf\"]\nclass = \"critical\"\nlimit = " + limit +
           "\nhow_often = \"each\"\nby = \"baker\"\nbasis = \"common practice\"\naction = { product = \"hold\", process = \"repair\" }\n" +
           more;
}

std::string probe(const std::string& rest, const std::string& id = "probe") {
    return "[[instrument]]\nid = \"" + id + "\"\nname = \"a probe\"\n" + rest;
}

const std::string core_limit = "{ least = \"93C\" }";
const std::string sound_probe = probe("tolerance = \"1C\"\ncalibrate_every = \"30days\"\n");

// The errors, without the excerpt of the file; or the warnings.
std::string told(const std::string& text, bool warnings = false) {
    std::string all;
    for (const Fault& fault : outcome_with(text).faults)
        if (fault.warning == warnings)
            all += (all.empty() ? "" : "\n") + fault.found + "; wanted: " + fault.wanted + " [" + fault.remedy + "]";
    return all;
}

std::string unfit(const std::string& why) {
    return "point 'p' rests on its readings, and probe " + why +
           "; wanted: instruments with calibrate_every and a tolerance that cannot swallow the limit [correct [[instrument]], or name "
           "those that read it: with = [\"...\"]]";
}

}  // namespace

TEST_CASE("a critical point is read with what is calibrated again and again") {
    CHECK(told(critical(core_limit) + sound_probe).empty());
    CHECK(told(critical(core_limit) + probe("tolerance = \"1C\"\n")) == unfit("has no calibrate_every"));
    CHECK(told(critical(core_limit) + probe("calibrate_every = \"30days\"\n")) ==
          "point 'p' rests on its readings, and no instrument of the plan can read it; wanted: an [[instrument]] with tolerance and "
          "calibrate_every [add it]");
    // Where a person may use it for an operating point, it is no fault.
    CHECK(told("[[point]]\nid = \"p\"\nname = \"p\"\nstep = \"bake\"\nproducts = [\"loaf\"]\nclass = \"quality\"\nlimit = " + core_limit +
               "\n" + probe("tolerance = \"1C\"\n"))
              .empty());
}

TEST_CASE("a tolerance that could swallow the limit is refused") {
    CHECK(told(critical(core_limit) + probe("tolerance = \"25C\"\ncalibrate_every = \"30days\"\n")) ==
          unfit("may be off by 25C, more than the 2C that the limit leaves"));
    CHECK(told(critical(core_limit) + probe("tolerance = \"2C\"\ncalibrate_every = \"30days\"\n")).empty());    // inclusive
    CHECK(told(critical(core_limit) + probe("tolerance = \"3.6F\"\ncalibrate_every = \"30days\"\n")).empty());  // 2 C of difference
    CHECK(told(critical(core_limit) + probe("tolerance = \"3.7F\"\ncalibrate_every = \"30days\"\n")) ==
          unfit("may be off by 3.7F, more than the 2C that the limit leaves"));
    // A range of 3 C leaves a quarter of it.
    const std::string narrow = "{ least = \"2C\", most = \"5C\" }";
    CHECK(told(critical(narrow) + probe("tolerance = \"0.75C\"\ncalibrate_every = \"30days\"\n")).empty());
    CHECK(told(critical(narrow) + sound_probe) == unfit("may be off by 1C, more than the 0.75C that the limit leaves"));
    const std::string sour = "{ most = \"4.3pH\" }";
    CHECK(told(critical(sour) + probe("tolerance = \"0.1pH\"\ncalibrate_every = \"7days\"\n")).empty());
    CHECK(told(critical(sour) + probe("tolerance = \"0.2pH\"\ncalibrate_every = \"7days\"\n")) ==
          unfit("may be off by 0.2pH, more than the 0.1pH that the limit leaves"));
}

TEST_CASE("a point may name what reads it") {
    const std::string dial = probe("tolerance = \"10C\"\n", "dial");
    CHECK(told(critical(core_limit, "with = [\"probe\"]\n") + sound_probe + dial).empty());
    CHECK(told(critical(core_limit, "with = [\"dial\"]\n") + sound_probe + dial) ==
          "point 'p' rests on its readings, and dial has no calibrate_every; wanted: instruments with calibrate_every and a tolerance "
          "that cannot swallow the limit [name others, or correct [[instrument]]]");
    CHECK(told(critical(core_limit, "with = [\"prob\"]\n") + sound_probe) ==
          "point 'p' with: no instrument 'prob'; wanted: a instrument of this plan [did you mean 'probe'? If not: add it to the plan]");
    const Outcome outcome = outcome_with(critical(core_limit, "with = [\"probe\"]\n") + sound_probe + dial);
    CHECK(shown(outcome.plan, "p").find("\n  read with: probe\n") != std::string::npos);
    CHECK(unfit_because(outcome.plan.points.front(), *outcome.plan.instrument("dial")) == "is none of probe");
}

TEST_CASE("what is fixed elsewhere, or reads something else, reads no critical point") {
    const std::string fixed = sound_probe + "place = \"line-1\"\n";
    const std::string none =
        "point 'p' rests on its readings, and no instrument of the plan can read it; wanted: an [[instrument]] with "
        "tolerance and calibrate_every [add it]";
    CHECK(told(critical(core_limit) + fixed) == none);
    CHECK(told(critical(core_limit) + probe("tolerance = \"0.05pH\"\ncalibrate_every = \"7days\"\n")) == none);
    const Outcome outcome = outcome_with(critical(core_limit) + fixed);
    CHECK(unfit_because(outcome.plan.points.front(), outcome.plan.instruments.front()) == "stays at line-1");
}

TEST_CASE("what a reading can be at all, by its kind or by the point") {
    const std::string kind = "[[possible]]\nid = \"bread\"\nleast = \"40C\"\nmost = \"101C | 214F\"\n";
    const std::string text = critical(core_limit, "possible = { kind = \"bread\" }\n") + sound_probe + kind;
    CHECK(told(text).empty());
    const Plan plan = outcome_with(text).plan;
    CHECK(to_text(*plan.points.front().possible_least) == "40C");
    CHECK(to_text(*plan.points.front().possible_most) == "101C | 214F");
    CHECK(shown(plan, "p").find("\n  possible: from 40C to 101C | 214F\n") != std::string::npos);
    const Plan own = outcome_with(critical(core_limit, "possible = { kind = \"bread\", most = \"99C\" }\n") + sound_probe + kind).plan;
    CHECK(to_text(*own.points.front().possible_least) == "40C");
    CHECK(to_text(*own.points.front().possible_most) == "99C");
}

TEST_CASE("a critical point that does not say what it can read is told so") {
    CHECK(told(critical(core_limit) + sound_probe, true) ==
          "point 'p' is critical and does not say what a reading can be at all; wanted: possible = { least = \"...\", most = \"...\" } or "
          "{ kind = \"...\" } [write it, or a slip of the keys counts as read]");
    CHECK(told(critical(core_limit, "possible = { most = \"101C\" }\n") + sound_probe, true).empty());
    CHECK(told(critical("{ yes_no = true }"), true).empty());
}

TEST_CASE("bounds of the possible that cannot be") {
    const auto with = [](const std::string& possible) { return told(critical(core_limit, "possible = " + possible + "\n") + sound_probe); };
    CHECK(
        with("{ least = \"40C\", most = \"90C\" }") ==
        "point 'p': its limit 93C lies beyond what is possible, 90C; wanted: bounds of the possible outside the limit [correct one of the "
        "two]");
    CHECK(with("{ least = \"94C\" }") ==
          "point 'p': its limit 93C lies beyond what is possible, 94C; wanted: bounds of the possible outside "
          "the limit [correct one of the two]");
    CHECK(with("{ least = \"101C\", most = \"101C\" }")
              .starts_with("point 'p': possible from 101C to 101C; wanted: two measures of one kind"));
    CHECK(with("{ most = \"9pH\" }") ==
          "point 'p': possible to 9pH is of nothing that it reads; wanted: a bound of what the limit measures "
          "[correct the unit, or name another kind]");
    CHECK(with("{ kind = \"bred\" }") == "point 'p': no [[possible]] 'bred'; wanted: a [[possible]] of this plan [add it to the plan]");
    CHECK(told("[[possible]]\nid = \"bread\"\n") ==
          "[[possible]] 'bread' has no bounds; wanted: least = \"40C\", most = \"101C\" or both [write what a reading can be]");
    CHECK(told("[[possible]]\nid = \"bread\"\nleast = \"40C\"\nmost = \"9pH\"\n") ==
          "[[possible]] 'bread': possible from 40C to 9pH; wanted: two measures of one kind, the lower one first [swap the two, or correct "
          "one]");
}
