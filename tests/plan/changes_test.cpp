// What differs between two plans, and the plan in words.
#include "plan/changes.h"

#include <catch2/catch.hpp>

#include "base/text.h"
#include "plan/starter.h"
#include "plan_texts.h"

using namespace peelbook;
using namespace peelbook::plan;
using namespace peelbook::plan::testing;

namespace {

Plan plan_of(const std::string& goods, const std::string& more) {
    const Outcome outcome = read_plan({{"site.toml", sound_site}, {"goods.toml", goods}, {"plan.toml", more}});
    for (const Fault& f : outcome.faults) UNSCOPED_INFO(to_text(f));
    REQUIRE(outcome.usable());
    return outcome.plan;
}

std::string with(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

const std::string core =
    "[[point]]\nid = \"bake-core\"\nname = \"core\"\nstep = \"bake\"\nproducts = [\"loaf\"]\nclass = "
    "\"critical\"\nlimit = { least = \"93C\" }\n"
    "how_often = \"each batch\"\nby = \"baker\"\nbasis = \"study 4\"\naction = { product = \"bake on\", "
    "process = \"check the oven\" }\n";

}  // namespace

TEST_CASE("nothing differs between a plan and itself") {
    const Plan plan = plan_of(sound_goods, core);
    REQUIRE(changes(plan, plan).empty());
    const Plan starter = read_plan(starter_plan("S", "UTC")).plan;
    REQUIRE(changes(starter, starter).empty());
}

TEST_CASE("a changed limit, a new warning and a changed action are a sentence each") {
    const Plan before = plan_of(sound_goods, core);
    const Plan after =
        plan_of(sound_goods, with(with(core, "\"93C\" }", "\"94C\" }\nwarn = { least = \"95C\" }"), "bake on", "bake on, then hold"));
    REQUIRE(changes(before, after) ==
            std::vector<std::string>{"point bake-core: limit was at least 93C, now at least 94C",
                                     "point bake-core: warning was not stated, now at least 95C",
                                     "point bake-core: action for the product was bake on, now bake on, then hold"});
}

TEST_CASE("a formula and an allergen that change") {
    const Plan before = plan_of(sound_goods, "");
    std::string goods = with(sound_goods, "percent = \"60%\"", "percent = \"62.5%\"");
    goods = with(goods, "allergens = [\"milk\"]", "allergens = [\"milk\"]\nmay_contain = [\"soy\"]");
    REQUIRE(changes(before, plan_of(goods, "")) ==
            std::vector<std::string>{"material milk: may contain was none, now soy", "product loaf: formula milk was 60%, now 62.5%"});
    goods = with(sound_goods, ", { item = \"milk\", percent = \"60%\" }", "");
    REQUIRE(changes(before, plan_of(goods, "")) == std::vector<std::string>{"product loaf: formula milk was 60%, now not stated"});
}

TEST_CASE("what is added and removed, in plan order") {
    const Plan before = plan_of(sound_goods, core);
    const Plan after = plan_of(sound_goods, "[[place]]\nid = \"chill\"\nname = \"chill\"\n[[material]]\nid = \"salt\"\nname = \"salt\"\n");
    REQUIRE(changes(before, after) == std::vector<std::string>{"material salt: added", "place chill: added", "point bake-core: removed"});
}

TEST_CASE("a change of the site") {
    const Plan before = plan_of(sound_goods, "");
    Plan after = before;
    after.site.late_after = minutes(30);
    after.site.carry_over_ppm = 5000;
    REQUIRE(changes(before, after) ==
            std::vector<std::string>{"site: late after was 15 min, now 30 min", "site: shares grouped below was 0.1%, now 0.5%"});
}

TEST_CASE("a point in words has limit, basis and actions, and the caution stands last") {
    const Plan plan = plan_of(sound_goods, core);
    REQUIRE(shown(plan, "bake-core") ==
            "point bake-core: core\n"
            "  class: critical\n"
            "  step: bake\n"
            "  products: loaf\n"
            "  limit: at least 93C\n"
            "  instrument needed: yes\n"
            "  how often: each batch\n"
            "  by: baker\n"
            "  basis: study 4\n"
            "  action for the product: bake on\n"
            "  action for the process: check the oven\n"
            "\n" +
                std::string(caution) + "\n");
}

TEST_CASE("one section, one id, the whole plan, or nothing of that name") {
    const Plan plan = plan_of(sound_goods, core);
    REQUIRE(shown(plan, "materials") == shown(plan, "material"));
    REQUIRE(shown(plan, "milk") ==
            "material milk\n"
            "  lot codes begin: MILK\n"
            "  contains: milk\n"
            "  may contain: none\n"
            "  date: best-before\n"
            "\n" +
                std::string(caution) + "\n");
    const std::string whole = shown(plan, "");
    for (const char* part : {"site\n", "material wheat-flour", "product loaf", "label loaf-1", "place line-1", "point bake-core"})
        REQUIRE(whole.find(part) != std::string::npos);
    REQUIRE(whole.substr(whole.size() - caution.size() - 1) == std::string(caution) + "\n");
    REQUIRE(shown(plan, "nothing-here").empty());
}

TEST_CASE("the vocabulary in words names the lists and the exceptions") {
    const std::string text = shown(plan_of(sound_goods, ""), "allergens");
    REQUIRE(text.find("rye: rye (gluten); listed by EU, Codex\n") != std::string::npos);
    REQUIRE(text.find("molluscs: molluscs; listed by EU, Codex, where a region adds it\n") != std::string::npos);
    REQUIRE(text.find("wheat-based glucose syrups including dextrose") != std::string::npos);  // 1169/2011 Annex II point 1 (a)
    REQUIRE(text.find(caution) != std::string::npos);
}
