// Lethality, pH and water activity, losses, souring, acceptance, rooms and wanted dough temperatures: values
// read, words, faults told.
#include <catch2/catch.hpp>

#include "plan/changes.h"
#include "plan_texts.h"

using namespace peelbook;
using namespace peelbook::plan;
using namespace peelbook::plan::testing;

namespace {

// The sound plan's loaf gets a sort, so that a study can be of its kind of food.
std::string sorted_goods() {
    std::string goods = sound_goods;
    const std::string id = "id = \"loaf\"\nname = \"loaf\"\n";
    return goods.insert(goods.find(id) + id.size(), "sort = \"pan bread\"\n");
}

Outcome read(const std::string& text) {
    return read_plan({{"site.toml", sound_site}, {"goods.toml", sorted_goods()}, {"plan.toml", text}});
}

// found; wanted [remedy] of each fault.
std::string faults(const std::string& text) {
    std::string all;
    for (const Fault& f : read(text).faults)
        all += (f.warning ? "warning: " : "") + f.found + "; wanted: " + f.wanted + " [" + f.remedy + "]\n";
    return all;
}

std::string limited_point(const std::string& limit, const std::string& more = "") {
    return "[[point]]\nid = \"p\"\nname = \"p\"\nstep = \"bake\"\nproducts = [\"loaf\"]\nclass = "
           "\"quality\"\nlimit = { " +
           limit + " }\n" + more;
}

const Point& only(const Outcome& outcome) {
    for (const Fault& f : outcome.faults) UNSCOPED_INFO(to_text(f));
    REQUIRE(outcome.faults.empty());
    return outcome.plan.points.back();
}

std::string heat(const std::string& cap = "7", const std::string& food = "\"pan bread\"", const std::string& t_ref = "61C",
                 const std::string& z = "10.4C", const std::string& to = "61C") {
    return "lethality = { t_ref = \"" + t_ref + "\", z = \"" + z + "\", d = \"16min30s\", studied = { from = \"55C\", to = \"" + to +
           "\" }, log = 5, cap = " + cap + ", longest_gap = \"2min\", food = [" + food + "], source = \"Study A\" }";
}

const std::string weighings =
    "[[point]]\nid = \"scaled\"\nname = \"scaled\"\nstep = \"mix\"\nproducts = [\"loaf\"]\nclass = "
    "\"quality\"\n"
    "limit = { least = \"900g\" }\n[[point]]\nid = \"core\"\nname = \"core\"\nstep = \"bake\"\nproducts = "
    "[\"loaf\"]\n"
    "class = \"quality\"\nlimit = { least = \"90C\" }\n";

}  // namespace

TEST_CASE("a lethality limit is read and told in words") {
    const Outcome outcome = read(limited_point(heat("6.5")));
    const Point& p = only(outcome);
    const auto& limit = std::get<LethalityLimit>(p.limit);
    CHECK(limit.d == seconds(990));
    CHECK(limit.z.typed_micro == 10'400'000);
    CHECK(limit.wanted_milli_log == 5000);
    CHECK(limit.cap_milli_log == 6500);
    CHECK(limit.source == "Study A");
    CHECK(p.dimension == Dimension::temperature);
    CHECK(p.limit_text == "at least 5 log: D 16 min 30 s at 61C, z 10.4C, studied 55C to 61C for pan bread; cap 6.5 log");
    CHECK(limit.longest_gap == minutes(2));
    CHECK(shown(outcome.plan, "p").find("  readings: at most 2 min apart: a longer gap counts nothing\n  D and z: Study A\n") !=
          std::string::npos);
}

TEST_CASE("a lethality limit that cannot hold is refused, and one of another food is warned of") {
    CHECK(faults(limited_point(heat("4"))) ==
          "point 'p': cap 4 log is below the wanted 5 log; wanted: a cap at or above the log wanted [correct "
          "one of the two]\n");
    CHECK(faults(limited_point(heat("7", "\"pan bread\"", "70C"))) ==
          "point 'p': D is stated at 70C, outside the studied 55C to 61C; wanted: a temperature of the study "
          "[state D at a temperature "
          "that was studied]\n");
    CHECK(faults(limited_point(heat("7", "\"pan bread\"", "61C", "0C"))) ==
          "point 'p': z is 0C; wanted: a difference above 0, like \"10.4C\" or \"10F\" [take z from the "
          "study]\n");
    CHECK(faults(limited_point(heat("7", "\"pan bread\"", "61C", "10.4C", "55C"))) ==
          "point 'p': studied from 55C to 55C; wanted: the lower temperature first [swap the two, or correct "
          "one]\n");
    CHECK(faults(limited_point(heat("7", "\"muffin batter\""))) ==
          "warning: point 'p': D and z are of muffin batter, product 'loaf' is pan bread; wanted: a study of "
          "the same kind of food "
          "[every verdict of it will be unproven; find a study of this food, or correct food or sort]\n");
    CHECK(faults(limited_point(heat("0"))) ==
          "point 'p' limit lethality: cap is not above 0 and at most 1000; wanted: a number like 5 or 6.5 "
          "[correct the number]\n");
    std::string without_gap = heat();
    const std::string gap = "longest_gap = \"2min\", ";
    CHECK(faults(limited_point(without_gap.erase(without_gap.find(gap), gap.size()))) ==
          "point 'p' does not say how far apart two readings may be; wanted: longest_gap = \"2min\" [write the time in which the core "
          "cannot have cooled and warmed again unseen]\n");
    CHECK(faults(limited_point("lethality = { t_ref = \"61C\", z = \"10.4C\", d = \"16min\", log = 5, cap = 7, food "
                               "= [\"pan bread\"], source = "
                               "\"A\" }")) ==
          "point 'p' limit lethality has no studied; wanted: studied = { from = \"55C\", to = \"61C\" }, the "
          "temperatures of the study "
          "of D and z [write them: outside them a rate is not known]\n");
}

TEST_CASE("pH and water activity, souring and losses are read and told in words") {
    CHECK(only(read(limited_point("ph_aw = { table = \"A\" }"))).limit_text ==
          "pH and water activity need no temperature control by Table A (heat-treated and then packaged)");
    CHECK(std::get<ClassLimit>(only(read(limited_point("ph_aw = { table = \"A\" }"))).limit).heat_treated_and_packaged);
    const Outcome table_b = read(limited_point("ph_aw = { table = \"B\" }"));
    CHECK(only(table_b).limit_text == "pH and water activity need no temperature control by Table B (not heat-treated, or not packaged)");
    CHECK(is_measured(only(table_b)));
    CHECK(is_read_in(only(table_b), Dimension::ph));
    CHECK(is_read_in(only(table_b), Dimension::water_activity));
    CHECK_FALSE(is_read_in(only(table_b), Dimension::temperature));
    const Outcome sour =
        read(limited_point("souring = { starts_at = \"mix\", stages = [ { to = \"4.8pH\", within = \"6h\" }, { to = "
                           "\"4.2pH\", within = \"12h\" } ] }"));
    CHECK(only(sour).limit_text == "at most 4.8pH within 6 h, at most 4.2pH within 12 h of mix");
    CHECK(only(sour).dimension == Dimension::ph);
    const Outcome loss =
        read(weighings + limited_point("loss = { before = \"scaled\", after = \"finish\", least = \"10%\", most = \"13%\" }"));
    CHECK(only(loss).limit_text == "from 10% to 13% lost from scaled to finish");
    CHECK_FALSE(only(loss).dimension);
}

TEST_CASE("sourings and losses that cannot be are refused") {
    CHECK(faults(limited_point("souring = { starts_at = \"feed\", stages = [ { to = \"21C\", within = \"6h\" } ] }")) ==
          "point 'p' starts_at: product 'loaf' has no step 'feed'; wanted: one of its steps: mix, bake, cool, "
          "pack, start, finish, "
          "pack, ship [correct it, or the product's steps]\n"
          "point 'p' sours: 21C is no pH; wanted: a pH, like 4.2pH [correct the unit]\n");
    CHECK(faults(limited_point("souring = { starts_at = \"mix\", stages = [ { to = \"4.2pH\", within = \"6h\" }, { "
                               "to = \"4.2pH\", within = "
                               "\"6h\" } ] }")) ==
          "point 'p': pH 4.2pH does not fall from 4.2pH; wanted: values that fall from stage to stage "
          "[correct the values, or their "
          "order]\npoint 'p': stage 2 ends 6 h from the start, the stage before 6 h; wanted: times in "
          "ascending order, since each is counted "
          "from the start [correct the time]\n");
    CHECK(faults(weighings + limited_point("loss = { before = \"scalde\", after = \"core\", most = \"13C\" }")) ==
          "point 'p' loss before: 'scalde' is not weighed; wanted: 'inputs', or a point whose limit is a "
          "mass [did you mean 'scaled'? "
          "If not: name the point at which it is weighed]\n"
          "point 'p' loss after: 'core' is not weighed; wanted: 'finish', or a point whose limit is a mass "
          "[name the point at which it "
          "is weighed]\npoint 'p' loses 13C; wanted: a share, like 12% [correct the unit]\n");
    CHECK(faults("[[point]]\nid = \"p\"\nname = \"p\"\nplace = \"line-1\"\nclass = \"quality\"\noptional = "
                 "true\nlimit = { ph_aw = { "
                 "table = \"B\" } }\n") ==
          "point 'p' is reckoned over a batch and read on a place; wanted: products = [\"...\"] [read it on "
          "the products that it is "
          "about]\n");
}

TEST_CASE("acceptance, rooms and the start of a cooling") {
    const Outcome guarded = read(limited_point("least = \"93C\"", "acceptance = \"guarded\"\n"));
    CHECK(only(guarded).guarded);
    CHECK(shown(guarded.plan, "p")
              .find("  acceptance: guarded: what the instrument's error could carry over the limit proves "
                    "nothing\n") != std::string::npos);
    CHECK_FALSE(only(read(limited_point("least = \"93C\"", "acceptance = \"simple\"\n"))).guarded);
    CHECK(faults(limited_point("yes_no = true", "acceptance = \"guarded\"\n")) ==
          "point 'p' is guarded and its limit has no value with an error of its own; wanted: guarded "
          "acceptance of a range, "
          "before_packing, cooling, souring, lethality, ph_aw or market [take acceptance out: no instrument reads what "
          "this limit is about]\n");
    for (const std::string without : {"time = { from = \"mix\", until = \"bake\", most = \"4h\" }",
                                      "loss = { before = \"inputs\", after = \"finish\", most = \"13%\" }"}) {
        CHECK(faults(limited_point(without, "acceptance = \"guarded\"\n")).find("its limit has no value with an error of its own") !=
              std::string::npos);
    }
    for (const std::string with : {"cooling = { from = \"57C\", stages = [ { to = \"21C\", within = \"2h\" } ], counted = \"start\" }",
                                   "souring = { starts_at = \"mix\", stages = [ { to = \"4.2pH\", within = \"9h\" } ] }"}) {
        const Outcome outcome = read(limited_point(with, "acceptance = \"guarded\"\n"));
        CHECK(only(outcome).guarded);
        CHECK(shown(outcome.plan, "p").find("  acceptance: guarded: ") != std::string::npos);
    }
    const std::string ambient =
        "cooling = { from = \"21C\", stages = [ { to = \"5C\", within = \"4h\" } ], counted = \"start\", "
        "starts_at = \"mix\"";
    const Outcome cooled = read(limited_point(ambient + " }", "room = \"4C\"\n"));
    CHECK(std::get<CoolingLimit>(only(cooled).limit).starts_at == "mix");
    CHECK(only(cooled).limit_text == "from 21C to 5C within 4 h, counted from the start; the clock starts with mix");
    CHECK(only(cooled).room->value == 4000);
    CHECK(faults(limited_point(ambient + ", hot_at = \"bake\" }")) ==
          "point 'p' limit cooling: both hot_at and starts_at are given; wanted: one start of the clock "
          "[leave hot_at for food that is "
          "cooked, starts_at for food made of ambient ingredients]\n");
    CHECK(faults(limited_point(ambient + " }", "room_point = \"q\"\n")) ==
          "point 'p' room_point: 'q' reads no place's temperature; wanted: a point on a place that reads a "
          "temperature [write room = "
          "\"4C\" when no point reads it]\n");
    CHECK(faults(limited_point("least = \"93C\"", "room = \"4C\"\n")) ==
          "point 'p' names a room and cools nothing; wanted: a room on a point with a limit cooling or "
          "before_packing [take it out]\n");
}

TEST_CASE("the dough temperature that a product wants names points that read temperatures of it") {
    const std::string loaf_2 =
        "[[product]]\nid = \"bun\"\nname = \"bun\"\nformula = [ { item = \"wheat-flour\", percent = "
        "\"100%\", flour = true } ]\n"
        "steps = [\"mix\", \"bake\"]\ndough = { wanted = \"26C\", read = \"bun-dough\", flour = \"air\", "
        "water = \"bun-water\", room = "
        "\"air\" }\n"
        "[[point]]\nid = \"air\"\nname = \"air\"\nplace = \"line-1\"\noptional = true\nclass = "
        "\"quality\"\nlimit = { most = \"30C\" }\n"
        "[[point]]\nid = \"bun-dough\"\nname = \"dough\"\nstep = \"mix\"\nproducts = [\"bun\"]\nclass = "
        "\"quality\"\nlimit = { most = "
        "\"28C\" }\n";
    const std::string water =
        "[[point]]\nid = \"bun-water\"\nname = \"water\"\nstep = \"mix\"\nproducts = [\"bun\"]\nclass = "
        "\"quality\"\nlimit = { most = "
        "\"40C\" }\n";
    const Outcome outcome = read(loaf_2 + water);
    only(outcome);
    CHECK(outcome.plan.product("bun")->dough->wanted.value == 26'000);
    CHECK(shown(outcome.plan, "bun").find("  dough wanted: 26C, read at bun-dough; water reckoned from air, air, bun-water\n") !=
          std::string::npos);
    CHECK(faults(loaf_2) ==
          "product 'bun' dough water: 'bun-water' reads no temperature of it; wanted: a point of this "
          "product that reads a temperature "
          "[write such a point, or take dough out]\n");
}
