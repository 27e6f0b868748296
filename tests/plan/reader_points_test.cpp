// Control points and limits: values read and faults told. Each message is asserted whole.
#include <catch2/catch.hpp>

#include "plan/described.h"
#include "plan/words.h"
#include "plan_texts.h"

using namespace peelbook;
using namespace peelbook::plan;
using namespace peelbook::plan::testing;

namespace {

// A quality point on the sound loaf with one line more; that line is line 7.
std::string point(const std::string& line, const std::string& more = "") {
    return "[[point]]\nid = \"p\"\nname = \"p\"\nstep = \"bake\"\nproducts = [\"loaf\"]\nclass = "
           "\"quality\"\n" +
           line + "\n" + more;
}

std::string place_point(const std::string& line) {
    return "[[point]]\nid = \"p\"\nname = \"p\"\nplace = \"line-1\"\nclass = \"quality\"\nlimit = { yes_no = "
           "true }\n" +
           line + "\n";
}

// What is told of `line`, line 7 of the text, with the caret under `column`.
std::string at_line_7(int column, const std::string& told, const std::string& line, const std::string& remedy) {
    return "plan.toml:7:" + std::to_string(column) + ": " + told + "\n    " + line + "\n    " +
           std::string(static_cast<std::size_t>(column - 1), ' ') + "^\n    [" + remedy + "]";
}

std::string at_point(const std::string& told, const std::string& remedy) {
    return "plan.toml:1:1: " + told + "\n    [[point]]\n    ^\n    [" + remedy + "]";
}

const Point& only_point(const Outcome& outcome) {
    for (const Fault& f : outcome.faults) UNSCOPED_INFO(to_text(f));
    REQUIRE(outcome.usable());
    REQUIRE(outcome.plan.points.size() == 1);
    return outcome.plan.points.front();
}

const std::string limit_forms =
    "one of: { least = \"93C\", most = \"99C\" }, { time = { from = \"mix\", until = \"bake\", most = \"4h\" "
    "} }, "
    "{ cooling = { from = \"57C\", stages = [ { to = \"21C\", within = \"2h\" } ], counted = \"start\" } }, "
    "{ before_packing = { most = \"35C\" } }, { yes_no = true }, "
    "{ lethality = { t_ref = \"61C\", z = \"10.4C\", d = \"16.5min\", studied = { from = \"55C\", to = \"61C\" }, "
    "log = 5, cap = 7, longest_gap = \"2min\", food = [\"...\"], source = \"...\" } }, { ph_aw = { table = \"B\" } }, "
    "{ loss = { before = \"inputs\", after = \"finish\", most = \"13%\" } }, "
    "{ souring = { starts_at = \"feed\", stages = [ { to = \"4.2pH\", within = \"12h\" } ] } }, "
    "{ label = { at = [\"start\", \"end\"] } }, { market = { of = \"gluten\" } }";

}  // namespace

TEST_CASE("a range in two units") {
    const Outcome outcome =
        outcome_with(point("limit = { least = \"57C | 135F\", most = \"99C\" }", "warn = { least = \"60C\" }\nunit = \"F\"\n"));
    const Point& p = only_point(outcome);
    const RangeLimit& range = std::get<RangeLimit>(p.limit);
    REQUIRE(range.least->first.value == 57'000);
    REQUIRE(range.least->second->unit == Unit::fahrenheit);
    REQUIRE(range.least->second->typed_micro == 135'000'000);
    REQUIRE(range.most->first.value == 99'000);
    REQUIRE(p.warn_least->first.value == 60'000);
    REQUIRE(p.dimension == Dimension::temperature);
    REQUIRE(p.limit_text == "from 57C | 135F to 99C");
    REQUIRE_FALSE(p.instrument_needed);
}

TEST_CASE("a least limit may be read on after its step, and no other") {
    const Outcome outcome = outcome_with(point("limit = { least = \"93C\" }", "read_on = \"10min\"\n"));
    REQUIRE(only_point(outcome).read_on == minutes(10));
    REQUIRE(shown(outcome.plan, "p").find("\n  read until: 10 min after the end of bake\n") != std::string::npos);
    const Outcome without = outcome_with(point("limit = { least = \"93C\" }"));
    REQUIRE(only_point(without).read_on == Duration{});
    REQUIRE(shown(without.plan, "p").find("read until") == std::string::npos);
    const std::string told =
        "error: point 'p' is read on after its step and has no least limit on products; wanted: limit = { least = ... } on products";
    REQUIRE(faults_with(point("read_on = \"10min\"", "limit = { most = \"5C\" }\n")) ==
            at_line_7(11, told, "read_on = \"10min\"", "take read_on out"));
    REQUIRE(faults_with(place_point("read_on = \"10min\"")).find(told) != std::string::npos);
    REQUIRE(
        faults_with(point("read_on = \"0min\"", "limit = { least = \"93C\" }\n")) ==
        at_line_7(11, "error: point 'p': read_on is '0min'; wanted: a time longer than nothing", "read_on = \"0min\"", "correct the time"));
}

TEST_CASE("a window of evidence, where the limit has no events of its own") {
    const std::string cooled = "limit = { most = \"7C\" }\n";
    const Outcome outcome = outcome_with(point("window = { from = \"mix\", until = \"ship\", after = \"30min\" }", cooled));
    const Point& p = only_point(outcome);
    REQUIRE(p.window.has_value());
    REQUIRE(p.window->from == "mix");
    REQUIRE(p.window->until == "ship");
    REQUIRE(p.window->after == minutes(30));
    REQUIRE(shown(outcome.plan, "p").find("\n  counts: from the end of mix until 30 min after the last leaving\n") != std::string::npos);
    REQUIRE(window_words({"", "", minutes(5)}) == "until 5 min after the end of its step");
    REQUIRE(window_words({"bake", "", {}}) == "from the end of bake");
    REQUIRE(shown(outcome_with(point(cooled)).plan, "p").find("counts:") == std::string::npos);
    REQUIRE(faults_with(point("window = { from = \"proof\" }", cooled)) ==
            at_line_7(19,
                      "error: point 'p' from: product 'loaf' has no step 'proof'; wanted: one of its steps: mix, bake, cool, pack, start, "
                      "finish, pack, ship",
                      "window = { from = \"proof\" }", "correct it, or the product's steps"));
    REQUIRE(faults_with(point("window = { from = \"bake\", until = \"mix\" }", cooled)) ==
            at_line_7(10, "error: point 'p': 'mix' comes before 'bake' in product 'loaf'; wanted: the earlier step first",
                      "window = { from = \"bake\", until = \"mix\" }", "swap from and until"));
    const std::string useless =
        "error: point 'p' has a window, and its limit or place has no use for one; wanted: a window of a range, yes_no, before_packing, "
        "lethality, ph_aw or market, not on a place";
    REQUIRE(faults_with(point("window = { from = \"mix\" }", "limit = { time = { from = \"mix\", until = \"bake\", most = \"4h\" } }\n")) ==
            at_line_7(10, useless, "window = { from = \"mix\" }", "take window out"));
    REQUIRE(faults_with(place_point("window = { after = \"5min\" }")).find(useless) != std::string::npos);
    REQUIRE(faults_with(point("window = { after = \"5min\" }", "limit = { before_packing = { most = \"35C\" } }\n")) ==
            at_line_7(10, "error: point 'p' is read before packing, which ends its window; wanted: from alone",
                      "window = { after = \"5min\" }", "take until and after out"));
    const std::string received =
        "[[point]]\nid = \"p\"\nname = \"p\"\nmaterials = [\"milk\"]\nclass = \"quality\"\nlimit = { most = \"5C\" }\n";
    REQUIRE(faults_with(received + "window = { after = \"1h\" }\n").empty());
    REQUIRE(faults_with(received + "window = { until = \"ship\" }\n") ==
            at_line_7(10, "error: point 'p' is read on materials, which have no steps; wanted: after alone",
                      "window = { until = \"ship\" }", "take from and until out"));
}

TEST_CASE("the cooling rule of Food Code 3-501.14(A)") {
    const Outcome outcome = outcome_with(
        "[[point]]\nid = \"cooling\"\nname = \"cooling\"\nstep = \"cool\"\nproducts = [\"loaf\"]\nclass = "
        "\"critical\"\n"
        "limit = { cooling = { from = \"57C | 135F\", stages = [ { to = \"21C | 70F\", within = \"2h\", fastest = \"15min\" }, { "
        "to = \"5C | 41F\", within = "
        "\"6h\", fastest = \"45min\" } ], counted = \"start\", hot_at = \"bake\" } }\n"
        "possible = { most = \"103C\" }\nhow_often = \"each batch\"\nby = \"baker\"\nbasis = \"Food Code 3-501.14(A)\"\naction = { product "
        "= "
        "\"discard\", process = \"repair\" }\n");
    REQUIRE(outcome.faults.empty());
    const Point& p = only_point(outcome);
    const CoolingLimit& cooling = std::get<CoolingLimit>(p.limit);
    REQUIRE(cooling.from.first.value == 57'000);
    REQUIRE(cooling.stages.size() == 2);
    REQUIRE(cooling.stages[0].to.second->typed_micro == 70'000'000);
    REQUIRE(cooling.stages[0].within == hours(2));
    REQUIRE(cooling.stages[1].within == hours(6));
    REQUIRE(cooling.stages[0].fastest == minutes(15));
    REQUIRE(cooling.stages[1].fastest == minutes(45));
    REQUIRE(shown(outcome.plan, "cooling")
                .find("  readings: 21C | 70F after 15 min at the earliest, 5C | 41F after 45 min at the earliest: what is sooner "
                      "contradicts the others\n") != std::string::npos);
    REQUIRE_FALSE(cooling.each_from_previous);
    REQUIRE(cooling.hot_at == "bake");
    REQUIRE(p.limit_text ==
            "from 57C | 135F to 21C | 70F within 2 h, to 5C | 41F within 6 h, counted from the start; hot "
            "until the end of bake");
    REQUIRE(p.instrument_needed);
    REQUIRE(p.grade == Grade::critical);
    REQUIRE(p.product_action == "discard");
    REQUIRE(p.process_action == "repair");
}

TEST_CASE("the other limits and their words") {
    const Outcome time = outcome_with(point("limit = { time = { from = \"mix\", until = \"bake\", least = \"1h\", most = \"4h30min\" } }"));
    REQUIRE(only_point(time).limit_text == "mix to bake: from 1 h to 4 h 30 min");
    REQUIRE(std::get<TimeLimit>(only_point(time).limit).most == minutes(270));
    REQUIRE_FALSE(only_point(time).dimension);
    const Outcome packing = outcome_with(point("limit = { before_packing = { most = \"35C\" } }"));
    REQUIRE(only_point(packing).limit_text == "at most 35C before packing");
    REQUIRE(std::get<BeforePackingLimit>(only_point(packing).limit).most.first.value == 35'000);
    const Outcome inspection = outcome_with(point("limit = { yes_no = true }", "units = [\"start\", \"end\"]\n"));
    REQUIRE(only_point(inspection).limit_text == "must pass");
    REQUIRE(only_point(inspection).units == std::vector<std::string>{"start", "end"});
    const Outcome previous =
        outcome_with(point("limit = { cooling = { from = \"60C\", stages = [ { to = \"21C\", within = \"2h\" "
                           "}, { to = \"5C\", within = \"4h\" } ], "
                           "counted = \"previous\" } }"));
    REQUIRE(only_point(previous).limit_text == "from 60C to 21C within 2 h, to 5C within 4 h, each counted from the one before");
    REQUIRE(std::get<CoolingLimit>(only_point(previous).limit).each_from_previous);
}

TEST_CASE("a check of a device at intervals, over midnight") {
    const Outcome outcome = outcome_with(place_point("every = \"1h\"\nhours = \"20:00-04:30\"\ndevice_check = true\nlines = [\"line-1\"]"));
    const Point& p = only_point(outcome);
    REQUIRE(p.interval->every == hours(1));
    REQUIRE(p.interval->from_minutes == 1200);
    REQUIRE(p.interval->until_minutes == 270);
    REQUIRE(p.interval->device_check);
    REQUIRE(p.interval->at.empty());
    REQUIRE(p.lines == std::vector<std::string>{"line-1"});
    REQUIRE(outcome.plan.points_of_place("line-1").size() == 1);
    REQUIRE(outcome.plan.points_of_product("loaf").empty());
}

TEST_CASE("the checks of a device belong to the run on its lines") {
    const Outcome outcome =
        outcome_with(place_point("every = \"1h\"\ndevice_check = true\nlines = [\"line-1\"]\nat = [\"start\", \"change\", \"end\"]"));
    const Point& p = only_point(outcome);
    REQUIRE(p.interval->at == std::vector<std::string>{"start", "change", "end"});
    REQUIRE(p.checks_device_of("line-1"));
    REQUIRE_FALSE(p.checks_device_of("line-2"));
}

TEST_CASE("a material is read at receipt") {
    const Outcome outcome = outcome_with(
        "[[point]]\nid = \"p\"\nname = \"p\"\nmaterials = [\"milk\"]\nclass = \"quality\"\nlimit = { most = "
        "\"5C\" }\n");
    REQUIRE(only_point(outcome).step == "receive");
    REQUIRE(outcome.plan.points_of_material("milk").size() == 1);
}

TEST_CASE("a critical point needs a basis and both actions, and should say how often and by whom") {
    REQUIRE(faults_with("[[point]]\nid = \"p\"\nname = \"p\"\nstep = \"bake\"\nproducts = [\"loaf\"]\nclass "
                        "= \"critical\"\nlimit = { least = \"93C\" }\npossible = { most = \"103C\" }\n") ==
            at_point("error: point 'p' has no basis; wanted: the source or the validation that a critical "
                     "limit rests on",
                     "write basis = \"...\"") +
                "\n" +
                at_point("error: point 'p' has no action for the product; wanted: what is done with the "
                         "product when a critical limit breaks",
                         "write action = { product = \"...\", process = \"...\" }") +
                "\n" +
                at_point("error: point 'p' has no action for the process; wanted: what is done to the "
                         "process when a critical limit breaks",
                         "write action = { product = \"...\", process = \"...\" }") +
                "\n" +
                at_point("warning: point 'p' is critical and does not say how often it is checked; wanted: "
                         "how_often = \"...\"",
                         "write it") +
                "\n" +
                at_point("warning: point 'p' is critical and does not say who checks it; wanted: by = "
                         "\"...\", a role in words",
                         "write it"));
}

TEST_CASE("no limit, an empty one, two in one, an inspection that need not pass") {
    REQUIRE(faults_with(point("")) == at_point("error: point 'p' has no limit; wanted: " + limit_forms, "write what must hold"));
    REQUIRE(faults_with(point("limit = {}")) ==
            at_line_7(9, "error: point 'p' limit: no limit is given; wanted: " + limit_forms, "limit = {}", "write what must hold"));
    const std::string two = "limit = { least = \"93C\", yes_no = true }";
    REQUIRE(faults_with(point(two)) == at_line_7(9,
                                                 "error: point 'p' limit: more than one limit: least or most "
                                                 "and yes_no; wanted: one limit a point",
                                                 two, "make a point of its own for each"));
    const std::string no = "limit = { yes_no = false }";
    REQUIRE(faults_with(point(no)) == at_line_7(20, "error: point 'p' limit: yes_no is not true; wanted: yes_no = true, or another limit",
                                                no, "write what must hold"));
}

TEST_CASE("least above most") {
    const std::string line = "limit = { least = \"95C\", most = \"200F\" }";  // 200 F is 93.3 C
    REQUIRE(faults_with(point(line)) == at_line_7(33, "error: point 'p': least 95C is above most 200F; wanted: least not above most", line,
                                                  "swap the two, or correct one"));
    const std::string time = "limit = { time = { from = \"mix\", until = \"bake\", least = \"4h\", most = \"90min\" } }";
    REQUIRE(faults_with(point(time)) == at_line_7(71, "error: point 'p': least 4 h is above most 1 h 30 min; wanted: least not above most",
                                                  time, "swap the two, or correct one"));
}

TEST_CASE("two units of one bound that do not say the same") {
    const std::string line = "limit = { most = \"5C | 45F\" }";  // 45 F is 7.2 C
    REQUIRE(faults_with(point(line)) == at_line_7(18,
                                                  "error: point 'p' limit: most is '5C | 45F', but 45F is "
                                                  "7.2C; wanted: two units that say the same",
                                                  line, "correct one of the two numbers"));
    const std::string same = "limit = { most = \"5C | 5.0C\" }";
    REQUIRE(faults_with(point(same)) ==
            at_line_7(18, "error: point 'p' limit: most is '5C | 5.0C'; wanted: two different units", same, "leave one of them"));
    const std::string three = "limit = { most = \"5C | 41F | 5C\" }";
    REQUIRE(faults_with(point(three)) == at_line_7(18,
                                                   "error: point 'p' limit: most is '5C | 41F | 5C'; wanted: "
                                                   "one measure, or the same one in two units: \"21C | 70F\"",
                                                   three, "leave two of them"));
    const std::string kinds = "limit = { least = \"4.0pH\", most = \"30C\" }";
    REQUIRE(faults_with(point(kinds)) == at_line_7(35, "error: point 'p': 30C stands beside 4pH; wanted: measures of one kind", kinds,
                                                   "correct the unit of one of them"));
}

TEST_CASE("stages that do not fall, times not in ascending order, a target above the start, no temperature") {
    const std::string above =
        "limit = { cooling = { from = \"57C\", stages = [ { to = \"60C\", within = \"2h\" } ], counted = "
        "\"start\" } }";
    REQUIRE(faults_with(point(above)) ==
            at_line_7(55, "error: point 'p': stage 1 cools from 57C to 60C; wanted: a target below where the stage begins", above,
                      "correct the temperatures, or their order"));
    const std::string rising =
        "limit = { cooling = { from = \"57C\", stages = [ { to = \"5C\", within = \"2h\" }, { to = \"21C\", "
        "within = \"6h\" } ], counted = \"start\" } }";
    REQUIRE(faults_with(point(rising)) ==
            at_line_7(85, "error: point 'p': stage 2 cools from 5C to 21C; wanted: a target below where the stage begins", rising,
                      "correct the temperatures, or their order"));
    const std::string times =
        "limit = { cooling = { from = \"57C\", stages = [ { to = \"21C\", within = \"2h\" }, { to = \"5C\", "
        "within = \"1h\" } ], counted = \"start\" } }";
    REQUIRE(faults_with(point(times)) == at_line_7(101,
                                                   "error: point 'p': stage 2 ends 1 h from the start, the stage before 2 h; wanted: "
                                                   "times in ascending order, since each is counted "
                                                   "from the start",
                                                   times, "correct the time, or write counted = \"previous\""));
    const std::string mass =
        "limit = { cooling = { from = \"57kg\", stages = [ { to = \"5C\", within = \"2h\" } ], counted = "
        "\"start\" } }";
    REQUIRE(faults_with(point(mass)) == at_line_7(30,
                                                  "error: point 'p' cools: 57kg is no temperature; wanted: a temperature, like 57C or 135F",
                                                  mass, "correct the unit"));
}

TEST_CASE("how fast a critical cooling can be must be said, and shorter than its limit") {
    const auto cooling = [](const std::string& fastest, const std::string& grade) {
        return "[[point]]\nid = \"p\"\nname = \"p\"\nstep = \"cool\"\nproducts = [\"loaf\"]\nclass = \"" + grade +
               "\"\nlimit = { cooling = { from = \"57C\", stages = [ { to = \"21C\", within = \"2h\"" + fastest +
               " } ], counted = \"start\" } }\npossible = { most = \"103C\" }\nhow_often = \"each\"\nby = \"baker\"\nbasis = \"Food Code "
               "3-501.14(A)\"\n"
               "action = { product = \"discard\", process = \"repair\" }\n";
    };
    const std::string told =
        "error: point 'p': stage 1 does not say how fast 21C can be reached; wanted: fastest = \"15min\", counted as within is: a "
        "reading that gets there sooner contradicts the others";
    REQUIRE(faults_with(cooling("", "critical")).find(told) != std::string::npos);
    REQUIRE(faults_with(cooling("", "quality")) == "");
    REQUIRE(faults_with(cooling(", fastest = \"15min\"", "critical")) == "");
    REQUIRE(faults_with(cooling(", fastest = \"2h\"", "quality"))
                .find("error: point 'p': stage 1 gets there in 2 h at the fastest, and within 2 h; wanted: fastest shorter than within") !=
            std::string::npos);
}

TEST_CASE("a cooling that does not say how it counts") {
    const std::string line = "limit = { cooling = { from = \"57C\", stages = [ { to = \"21C\", within = \"2h\" } ] } }";
    REQUIRE(faults_with(point(line)) ==
            at_line_7(21, "error: point 'p' limit cooling has no counted; wanted: counted = \"start\"", line, "write it into this table"));
}

TEST_CASE("a warning outside its limit, or of no limit") {
    const std::string line = "limit = { least = \"93C\" }";
    const auto at_line_8 = [](int column, const std::string& told, const std::string& warn, const std::string& remedy) {
        return "plan.toml:8:" + std::to_string(column) + ": " + told + "\n    " + warn + "\n    " +
               std::string(static_cast<std::size_t>(column - 1), ' ') + "^\n    [" + remedy + "]";
    };
    REQUIRE(faults_with(point(line, "warn = { least = \"90C\" }\n")) ==
            at_line_8(18,
                      "error: point 'p' warns at least 90C, beyond its limit 93C; wanted: a warning that "
                      "comes before the limit breaks",
                      "warn = { least = \"90C\" }", "bring it inside the limit"));
    REQUIRE(faults_with(point(line, "warn = { most = \"99C\" }\n")) ==
            at_line_8(17,
                      "error: point 'p' warns at most 99C and has no such limit; wanted: a limit that the "
                      "warning comes before",
                      "warn = { most = \"99C\" }", "take the warning out, or write the limit"));
}

TEST_CASE("a unit that is none, or of another kind than the limit") {
    REQUIRE(faults_with(point("unit = \"kg\"", "limit = { least = \"93C\" }\n")) ==
            at_line_7(8,
                      "error: point 'p': unit 'kg' is of mass, but the limit is of temperature; wanted: one "
                      "and the same",
                      "unit = \"kg\"", "correct the unit or the limit"));
    REQUIRE(
        faults_with(point("unit = \"degrees\"", "limit = { least = \"93C\" }\n")) ==
        at_line_7(8, "error: point 'p': unit is 'degrees'; wanted: a unit of measure", "unit = \"degrees\"", "write it like unit = \"C\""));
}

TEST_CASE("a point that is read nowhere, or on two kinds of thing") {
    REQUIRE(faults_with("[[point]]\nid = \"p\"\nname = \"p\"\nclass = \"quality\"\nlimit = { yes_no = true }\n") ==
            at_point("error: point 'p' is read nowhere; wanted: products = [...], materials = [...] or place "
                     "= \"...\"",
                     "write what it is read on"));
    REQUIRE(faults_with(point("limit = { yes_no = true }", "place = \"line-1\"\nevery = \"1h\"\n")) ==
            at_point("error: point 'p' is read on products and place; wanted: one of the three", "make a point of its own for each"));
}

TEST_CASE("names that a point cites must be there") {
    const Outcome outcome = outcome_with(
        "[[point]]\nid = \"p\"\nname = \"p\"\nstep = \"bake\"\nproducts = [\"loaf\", \"laof\"]\nclass = "
        "\"quality\"\nhazard = \"gorwth\"\n"
        "limit = { yes_no = true }\n[[hazard]]\nid = \"growth\"\nkind = \"biological\"\nwhat = \"x\"\n"
        "[[point]]\nid = \"q\"\nname = \"q\"\nmaterials = [\"mlik\"]\nclass = \"quality\"\nlimit = { yes_no "
        "= true }\n"
        "[[point]]\nid = \"r\"\nname = \"r\"\nplace = \"line-2\"\nclass = \"quality\"\nlimit = { yes_no = "
        "true }\nevery = \"1h\"\n");
    std::vector<std::string> told;
    for (const Fault& f : outcome.faults)
        told.push_back(std::to_string(f.line) + ":" + std::to_string(f.column) + " " + f.found + " / " + f.remedy);
    REQUIRE(told ==
            std::vector<std::string>{"5:21 point 'p' products: no product 'laof' / did you mean 'loaf'? If not: add it to the plan",
                                     "7:10 point 'p' hazard: no hazard 'gorwth' / did you mean 'growth'? If not: add it to the plan",
                                     "16:14 point 'q' materials: no material 'mlik' / did you mean 'milk'? If not: add it to the plan",
                                     "22:9 point 'r' place: no place 'line-2' / did you mean 'line-1'? If not: add it to the plan"});
}

TEST_CASE("a step that the product does not have") {
    REQUIRE(faults_with("[[point]]\nid = \"p\"\nname = \"p\"\nproducts = [\"loaf\"]\nclass = "
                        "\"quality\"\nlimit = { yes_no = true }\nstep = \"bkae\"\n") ==
            at_line_7(8,
                      "error: point 'p' step: product 'loaf' has no step 'bkae'; wanted: one of its steps: "
                      "mix, bake, cool, pack",
                      "step = \"bkae\"", "did you mean 'bake'? If not: correct it, or the product's steps"));
    const std::string time = "limit = { time = { from = \"mixing\", until = \"ship\", most = \"1d\" } }";
    REQUIRE(faults_with(point(time)) == at_line_7(27,
                                                  "error: point 'p' from: product 'loaf' has no step 'mixing'; wanted: one of its steps: "
                                                  "mix, bake, cool, pack, start, finish, "
                                                  "pack, ship",
                                                  time, "correct it, or the product's steps"));
    const std::string hot =
        "limit = { cooling = { from = \"57C\", stages = [ { to = \"5C\", within = \"2h\" } ], counted = "
        "\"start\", hot_at = \"boil\" } }";
    REQUIRE(faults_with(point(hot)) == at_line_7(108,
                                                 "error: point 'p' hot_at: product 'loaf' has no step "
                                                 "'boil'; wanted: one of its steps: mix, bake, cool, pack",
                                                 hot, "correct it, or the product's steps"));
}

TEST_CASE("a point on products needs a step") {
    REQUIRE(faults_with("[[point]]\nid = \"p\"\nname = \"p\"\nproducts = [\"loaf\"]\nclass = "
                        "\"quality\"\nlimit = { yes_no = true }\n") ==
            at_point("error: point 'p' has no step; wanted: the step at which it is read", "write step = \"bake\""));
}

TEST_CASE("a time that runs backwards or to itself") {
    const std::string back = "limit = { time = { from = \"bake\", until = \"mix\", most = \"1h\" } }";
    REQUIRE(faults_with(point(back)) ==
            at_line_7(18, "error: point 'p': 'mix' comes before 'bake' in product 'loaf'; wanted: the earlier step first", back,
                      "swap from and until"));
    const std::string itself = "limit = { time = { from = \"bake\", until = \"bake\", most = \"1h\" } }";
    REQUIRE(faults_with(point(itself)) == at_line_7(18,
                                                    "error: point 'p': the time runs from 'bake' to itself; wanted: two different moments",
                                                    itself, "correct one of the two"));
    const std::string open = "limit = { time = { from = \"mix\", until = \"bake\" } }";
    REQUIRE(faults_with(point(open)) ==
            at_line_7(18, "error: point 'p' limit time has no bound; wanted: least = \"1h\", most = \"4h\" or both", open, "write one"));
}

TEST_CASE("rule 12: a device check names its lines and how often") {
    REQUIRE(faults_with(place_point("every = \"1h\"\ndevice_check = true")) ==
            "plan.toml:8:16: error: point 'p' checks a device that no line runs through; wanted: lines = "
            "[\"...\"], whose batches pass it\n"
            "    device_check = true\n"
            "                   ^\n"
            "    [write the lines: a failed check holds what passed on them]");
    REQUIRE(faults_with(place_point("device_check = true")) ==
            at_point("warning: point 'p' is read on a place and never owed; wanted: every = \"...\", or optional "
                     "= true",
                     "write how often it is owed") +
                "\n" +
                at_line_7(16, "error: point 'p': device_check without every; wanted: how often the device is checked",
                          "device_check = true", "write every = \"1h\" too"));
    REQUIRE(faults_with(place_point("every = \"1h\"\ndevice_check = true\nlines = [\"line-1\"]\nat = [\"start\", \"ende\"]")) ==
            "plan.toml:10:16: error: point 'p': moment 'ende'; wanted: one of: start, change, end\n"
            "    at = [\"start\", \"ende\"]\n"
            "                   ^\n"
            "    [did you mean 'end'? If not: take it out]");
    REQUIRE(faults_with(place_point("every = \"1h\"\nat = [\"start\"]")) ==
            "plan.toml:8:6: error: point 'p': at of a check that is of no device; wanted: at with device_check = true\n"
            "    at = [\"start\"]\n"
            "         ^\n"
            "    [write device_check = true, or take at out]");
    REQUIRE(faults_with(place_point("lines = [\"line-1\"]\nevery = \"1h\"")) ==
            at_line_7(9, "error: point 'p' names lines and is no device check; wanted: lines with device_check = true",
                      "lines = [\"line-1\"]", "write device_check = true, or take lines out"));
}

TEST_CASE("hours that are none, hours without an interval, an interval on no place") {
    REQUIRE(faults_with(place_point("hours = \"4-20\"\nevery = \"1h\"")) ==
            at_line_7(9, "error: point 'p': hours is '4-20'; wanted: two different times of day", "hours = \"4-20\"",
                      "write it like hours = \"04:00-20:00\""));
    REQUIRE(faults_with(place_point("hours = \"04:00-20:00\"\noptional = true")) ==
            at_line_7(9, "error: point 'p': hours without every; wanted: how often within these hours", "hours = \"04:00-20:00\"",
                      "write every = \"1h\" too"));
    REQUIRE(faults_with(point("every = \"1h\"", "limit = { yes_no = true }\n")) ==
            at_line_7(9, "error: point 'p' is owed at intervals and on no place; wanted: place = \"...\", what is checked",
                      "every = \"1h\"", "write the place, or take every out"));
}

TEST_CASE("what shows a place in closed hours") {
    const std::string bell =
        "[[point]]\nid = \"bell\"\nname = \"bell\"\nplace = \"line-1\"\nclass = \"quality\"\nlimit = { yes_no = true }\n"
        "every = \"7days\"\n";
    const Outcome outcome = outcome_with(place_point("every = \"1h\"\nclosed = \"alarm\"\nalarm = \"bell\"") + bell);
    REQUIRE(outcome.faults.empty());
    CHECK(outcome.plan.points[0].interval->closed == Closed::alarm);
    CHECK(outcome.plan.points[0].interval->alarm == "bell");
    CHECK(outcome.plan.points[1].interval->closed == Closed::unsaid);
    CHECK(closed_words(*outcome.plan.points[0].interval) == "watched by the alarm that bell tests");
    CHECK(closed_words(*outcome.plan.points[1].interval).empty());

    REQUIRE(faults_with(place_point("closed = \"nothing\"\noptional = true")) ==
            at_line_7(10, "error: point 'p': closed without every; wanted: how often it is checked while the house is open",
                      "closed = \"nothing\"", "write every = \"1h\" too"));
    REQUIRE(faults_with(place_point("closed = \"camera\"\nevery = \"1h\"")) ==
            at_line_7(10, "error: point 'p': closed is 'camera'; wanted: 'logger', 'min-max', 'alarm' or 'nothing'", "closed = \"camera\"",
                      "write one of these words"));
    REQUIRE(faults_with(place_point("closed = \"alarm\"\nevery = \"1h\"")) ==
            at_line_7(10, "error: point 'p': closed = \"alarm\" and no alarm; wanted: closed = \"alarm\", alarm = \"POINT\" that tests it",
                      "closed = \"alarm\"", "write both, or neither"));
    REQUIRE(faults_with(place_point("alarm = \"bell\"\nevery = \"1h\"") + bell) ==
            at_line_7(9, "error: point 'p': alarm without closed = \"alarm\"; wanted: closed = \"alarm\", alarm = \"POINT\" that tests it",
                      "alarm = \"bell\"", "write both, or neither"));
    REQUIRE(faults_with(place_point("alarm = \"bel\"\nevery = \"1h\"\nclosed = \"alarm\"") + bell) ==
            at_line_7(9, "error: point 'p' alarm: no point 'bel'; wanted: a point of this plan", "alarm = \"bel\"",
                      "did you mean 'bell'? If not: add it to the plan"));
    REQUIRE(faults_with(place_point("alarm = \"p\"\nevery = \"1h\"\nclosed = \"alarm\"")) ==
            at_line_7(9,
                      "error: point 'p' alarm: 'p' is no test that is owed again and again; wanted: a point of a place with every, which "
                      "rests on no alarm itself",
                      "alarm = \"p\"", "name the test of the alarm"));
    REQUIRE(faults_with(place_point("closed = \"min-max\"\nevery = \"1h\"")) ==
            at_line_7(10, "error: point 'p' has no highest or lowest value that a thermometer could keep; wanted: a limit in numbers",
                      "closed = \"min-max\"", "say what else shows the closed hours"));
    REQUIRE(faults_with("[[point]]\nid = \"p\"\nname = \"p\"\nplace = \"line-1\"\nclass = \"quality\"\nlimit = { most = \"5C\" }\n"
                        "closed = \"min-max\"\nevery = \"1h\"\nunits = [\"left\", \"right\"]\n") ==
            at_line_7(10, "error: point 'p' has units, and a reading of an extreme says max or min there; wanted: a point for each of them",
                      "closed = \"min-max\"", "part the point, or say what else shows the closed hours"));
}

TEST_CASE("with shifts a critical point in numbers says what shows it while nobody is there") {
    const std::string day = "[[shift]]\nid = \"day\"\nname = \"day\"\nfrom = \"06:00\"\nuntil = \"14:00\"\n";
    const auto air = [](const std::string& grade, const std::string& more) {
        return "[[point]]\nid = \"air\"\nname = \"air\"\nplace = \"line-1\"\nclass = \"" + grade +
               "\"\nlimit = { most = \"5C\" }\npossible = { most = \"25C\" }\nevery = \"1h\"\nby = \"store\"\nbasis = \"b\"\n"
               "action = { product = \"a\", process = \"b\" }\n" +
               more;
    };
    CHECK(faults_with(air("critical", "") + day) ==
          at_point("error: point 'air' is critical and does not say what shows it while nobody is there; wanted: closed = \"logger\", "
                   "\"min-max\", \"alarm\" or \"nothing\"",
                   "write it: the plan has shifts"));
    CHECK(faults_with(air("critical", "closed = \"min-max\"\n") + day).empty());
    CHECK(faults_with(air("operating", "") + day).empty());
    CHECK(faults_with(air("critical", "")).empty());  // no shifts: its hours are the whole day
}

TEST_CASE("a material read at another step, a place read at a step") {
    REQUIRE(faults_with("[[point]]\nid = \"p\"\nname = \"p\"\nmaterials = [\"milk\"]\nclass = "
                        "\"quality\"\nlimit = { most = \"5C\" }\nstep = \"bake\"\n") ==
            at_line_7(8, "error: point 'p' is read on materials at step 'bake'; wanted: step \"receive\"", "step = \"bake\"",
                      "take step out, or read it on products"));
    REQUIRE(faults_with(place_point("step = \"bake\"\nevery = \"1h\"")) ==
            at_line_7(8, "error: point 'p' is read on a place at step 'bake'; wanted: no step", "step = \"bake\"", "take step out"));
}

TEST_CASE("an unknown key deep in a limit") {
    const std::string line = "limit = { least = \"93C\", mots = \"99C\" }";
    REQUIRE(faults_with(point(line)) == at_line_7(26, "error: point 'p' limit: unknown key 'mots'; wanted: a key of this table", line,
                                                  "did you mean 'most'? If not: it may be one of: least, most, time, cooling, "
                                                  "before_packing, lethality, ph_aw, loss, souring, label, market, yes_no"));
}
