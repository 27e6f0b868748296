// Materials, products, formulas and labels: values read and faults told. Each message is asserted whole.
#include <catch2/catch.hpp>

#include "plan_texts.h"

using namespace peelbook;
using namespace peelbook::plan;
using namespace peelbook::plan::testing;

namespace {

// A product of its own beside the sound ones.
std::string product(const std::string& formula, const std::string& more = "") {
    return "[[product]]\nid = \"bun\"\nname = \"bun\"\nsteps = [\"mix\", \"bake\"]\nformula = [ " + formula + " ]\n" + more;
}

std::string under(int column) { return "    " + std::string(static_cast<std::size_t>(column - 1), ' ') + "^\n"; }

// A fault of the formula line above, with the caret under `column`.
std::string formula_fault(int column, const std::string& told, const std::string& formula, const std::string& remedy) {
    return "plan.toml:5:" + std::to_string(column) + ": " + told + "\n    formula = [ " + formula + " ]\n" + under(column) + "    [" +
           remedy + "]";
}

}  // namespace

TEST_CASE("a material's values") {
    const Outcome outcome = outcome_with(
        "[[material]]\nid = \"nougat\"\nname = \"nougat\"\nallergens = [\"hazelnut\", \"milk\"]\n"
        "may_contain = [\"almond\"]\ndate = \"use-by\"\ntraceability_list = true\n"
        "gtin = \"6291041500213\"\nsuppliers = [\"SWEETS-1\"]\n"  // GTIN as printed by GS1
        "[[material]]\nid = \"bag\"\nname = \"bag\"\ncode = \"BG\"\npackaging = true\n"
        "[[material]]\nid = \"water\"\nname = \"water\"\nsupply = true\n");
    REQUIRE(outcome.faults.empty());
    const Material& nougat = *outcome.plan.material("nougat");
    REQUIRE(nougat.code == "NOUGAT");
    REQUIRE(nougat.allergens == std::vector<std::string>{"hazelnut", "milk"});
    REQUIRE(nougat.may_contain == std::vector<std::string>{"almond"});
    REQUIRE(nougat.date_kind == DateKind::use_by);
    REQUIRE(nougat.traceability_list);
    REQUIRE(nougat.suppliers == std::vector<std::string>{"SWEETS-1"});
    REQUIRE(outcome.plan.material("bag")->code == "BG");
    REQUIRE(outcome.plan.material("bag")->packaging);
    REQUIRE(outcome.plan.material("water")->supply);
}

TEST_CASE("a product's values") {
    const Outcome outcome = outcome_with(
        product("{ item = \"wheat-flour\", percent = \"100%\", flour = true }, "
                "{ item = \"milk\", percent = \"62.5%\" }, "
                "{ item = \"bun\", percent = \"3%\", optional = true }",
                "unit_mass = \"95g\"\npieces = 240\nusual_flour = \"200lb\"\ntolerance = \"1.5%\"\nyield_tolerance = \"12.5%\"\n"
                "shelf_life = \"36h\"\nline = \"line-1\"\ndate = \"use-by\"\n"));
    REQUIRE(outcome.faults.empty());
    const Product& bun = *outcome.plan.product("bun");
    REQUIRE(bun.formula[1].micro_percent == 62'500'000);
    REQUIRE(bun.formula[0].flour);
    REQUIRE(bun.formula[2].optional);
    REQUIRE(bun.unit_mass->value == 95'000);
    REQUIRE(bun.pieces == 240);
    REQUIRE(bun.counted_in_pieces());
    REQUIRE(bun.usual_flour->value == 90'718'474);  // 200 x 453,592.37 mg exactly: international pound
    REQUIRE(bun.tolerance_milli_percent == 1500);
    REQUIRE(bun.yield_tolerance_milli_percent == 12'500);
    REQUIRE(outcome.plan.product("loaf")->yield_tolerance_milli_percent == 10'000);
    REQUIRE(*bun.shelf_life == hours(36));
    REQUIRE(bun.finish_step == "bake");                            // no packing: the last
    REQUIRE(outcome.plan.product("loaf")->finish_step == "cool");  // the last before packing
    REQUIRE(outcome.plan.product("loaf")->code == "LOAF");
}

TEST_CASE("dates and ages: the step that kills, an age, clocks") {
    const Outcome outcome = outcome_with(product("{ item = \"milk\", absolute = \"10kg\" }",
                                                 "kill_step = \"bake\"\nuse_within = \"3days\"\nopened_within = \"24h\"\n"
                                                 "thawed_within = \"2days\"\nrefreeze = true\n"));
    REQUIRE(outcome.faults.empty());
    const Product& bun = *outcome.plan.product("bun");
    REQUIRE(bun.kill_step == "bake");
    REQUIRE(*bun.use_within == days(3));
    const Clocks clocks = outcome.plan.clocks_of("bun");
    REQUIRE(*clocks.opened_within == hours(24));
    REQUIRE(*clocks.thawed_within == days(2));
    REQUIRE(clocks.refreeze);
    REQUIRE_FALSE(outcome.plan.clocks_of("milk").opened_within.has_value());
}

TEST_CASE("a formula in masses needs no flour") {
    const Outcome outcome = outcome_with(product("{ item = \"milk\", absolute = \"10kg\" }"));
    REQUIRE(outcome.faults.empty());
    REQUIRE(outcome.plan.product("bun")->formula[0].absolute->value == 10'000'000);
}

TEST_CASE("a formula without flour and without masses") {
    const std::string formula = "{ item = \"milk\", percent = \"62%\" }";
    REQUIRE(faults_with(product(formula)) ==
            formula_fault(11,
                          "error: product 'bun': its formula has percentages and no flour; wanted: flour = "
                          "true on the items that are the 100%",
                          formula, "mark the flour, or write masses: absolute = \"20kg\""));
}

TEST_CASE("flour that does not add up to 100 percent") {
    const std::string formula = "{ item = \"wheat-flour\", percent = \"95%\", flour = true }";
    REQUIRE(faults_with(product(formula)) == formula_fault(11, "error: product 'bun': its flour adds up to 95%; wanted: 100%", formula,
                                                           "correct the percentages of the items marked flour"));
}

TEST_CASE("a formula that mixes percentages and masses") {
    const std::string formula =
        "{ item = \"wheat-flour\", percent = \"100%\", flour = true }, { item = \"milk\", absolute = \"6kg\" "
        "}";
    REQUIRE(faults_with(product(formula)) ==
            formula_fault(11, "error: product 'bun': its formula mixes percentages and masses; wanted: all items in one way", formula,
                          "write every item as percent, or every item as absolute"));
}

TEST_CASE("an item without an amount, with two, with nothing") {
    const std::string none = "{ item = \"milk\" }";
    REQUIRE(faults_with(product(none)) == formula_fault(13,
                                                        "error: product 'bun' formula item 1 has no amount; "
                                                        "wanted: percent = \"62%\" or absolute = \"20kg\"",
                                                        none, "write one of the two"));
    const std::string both = "{ item = \"wheat-flour\", percent = \"100%\", absolute = \"6kg\", flour = true }";
    REQUIRE(faults_with(product(both)) ==
            formula_fault(11, "error: product 'bun': its formula mixes percentages and masses; wanted: all items in one way", both,
                          "write every item as percent, or every item as absolute") +
                "\n" +
                formula_fault(66,
                              "error: product 'bun' formula item 1: both percent and absolute are given; wanted: "
                              "one of the two",
                              both, "take one of them out"));
    const std::string nothing = "{ item = \"milk\", absolute = \"0kg\" }";
    REQUIRE(faults_with(product(nothing)) ==
            formula_fault(41, "error: product 'bun' formula item 1: absolute is nothing; wanted: more than 0kg", nothing,
                          "correct it, or take the item out"));
}

TEST_CASE("an item that is unknown, named twice, or packaging") {
    const std::string unknown = "{ item = \"mlik\", absolute = \"6kg\" }";
    REQUIRE(faults_with(product(unknown)) ==
            formula_fault(22,
                          "error: product 'bun' formula: no material or product 'mlik'; wanted: a material "
                          "or product of this plan",
                          unknown, "did you mean 'milk'? If not: add it to the plan"));
    const std::string twice = "{ item = \"milk\", absolute = \"6kg\" }, { item = \"milk\", absolute = \"1kg\" }";
    REQUIRE(faults_with(product(twice)) ==
            formula_fault(59, "error: product 'bun' formula names 'milk' twice; wanted: each item once", twice, "add the two together"));
    const std::string bag = "{ item = \"bag\", absolute = \"6kg\" }";
    REQUIRE(faults_with(product(bag, "[[material]]\nid = \"bag\"\nname = \"bag\"\npackaging = true\n")) ==
            formula_fault(22, "error: product 'bun' formula: 'bag' is packaging; wanted: what goes into the product", bag,
                          "take it out: packaging counts pieces and is used when packing"));
}

TEST_CASE("usual_flour beside masses") {
    const std::string text = product("{ item = \"milk\", absolute = \"6kg\" }", "usual_flour = \"10kg\"\n");
    REQUIRE(faults_with(text) ==
            "plan.toml:6:15: error: product 'bun': usual_flour with a formula in masses; wanted: usual_flour "
            "for a formula in percent only\n"
            "    usual_flour = \"10kg\"\n" +
                under(15) + "    [take usual_flour out: the masses are the usual batch]");
}

TEST_CASE("a product without formula and steps") {
    REQUIRE(faults_with("[[product]]\nid = \"bun\"\nname = \"bun\"\n") ==
            "plan.toml:1:1: error: product 'bun' has no formula; wanted: formula = [ { item = \"...\", percent = "
            "\"100%\", flour = true } ]\n"
            "    [[product]]\n"
            "    ^\n"
            "    [write what goes into it]\n"
            "plan.toml:1:1: error: product 'bun' has no steps; wanted: steps = [\"mix\", \"bake\", \"pack\"]\n"
            "    [[product]]\n"
            "    ^\n"
            "    [write its steps in order]");
}

TEST_CASE("an empty formula") {
    REQUIRE(faults_with(product("")) ==
            formula_fault(11, "error: product 'bun': its formula is empty; wanted: at least one item", "", "write what goes into it"));
}

TEST_CASE("a product that is made of itself") {
    const std::string leaven = "{ item = \"wheat-flour\", percent = \"100%\", flour = true }, { item = \"bun\", percent = \"20%\" }";
    REQUIRE(faults_with(product(leaven)) == "");  // a leaven is fed from itself
    const std::string round =
        "{ item = \"wheat-flour\", percent = \"100%\", flour = true }, { item = \"crumb\", percent = \"20%\" "
        "}";
    const std::string crumb =
        "[[product]]\nid = \"crumb\"\nname = \"crumb\"\nsteps = [\"dry\"]\nformula = [ { item = \"bun\", "
        "absolute = \"1kg\" } ]\n";
    REQUIRE(faults_with(product(round, crumb)) ==
            formula_fault(11,
                          "warning: product 'bun' is made of itself: bun is made of crumb, that of bun; "
                          "wanted: a product that is made of "
                          "itself only directly (a leaven) or by optional items (rework)",
                          round, "mark the rework optional = true, or check the items"));
    const std::string rework =
        "{ item = \"wheat-flour\", percent = \"100%\", flour = true }, { item = \"crumb\", percent = "
        "\"20%\", optional = true }";
    REQUIRE(faults_with(product(rework, crumb)) == "");
}

TEST_CASE("ids and lot codes are one name space for materials and products") {
    REQUIRE(faults_with("[[material]]\nid = \"loaf\"\nname = \"x\"\n[[material]]\nid = \"m2\"\nname = "
                        "\"x\"\ncode = \"Milk\"\n") ==
            "goods.toml:13:6: error: product 'loaf' is there twice, also as a material; wanted: each id once "
            "among materials and products\n"
            "    id = \"loaf\"\n"
            "         ^\n"
            "    [rename one of the two, or take it out]\n"
            "plan.toml:7:8: error: material 'm2': its lot codes begin 'Milk' like those of material 'milk'; "
            "wanted: a beginning of its own\n"
            "    code = \"Milk\"\n"
            "           ^\n"
            "    [write code = \"...\" for one of the two]");
}

TEST_CASE("line, label and finish_step of a product must be there") {
    const std::string text =
        product("{ item = \"milk\", absolute = \"6kg\" }", "line = \"line-9\"\nlabel = \"loaf-1\"\nfinish_step = \"baek\"\n");
    REQUIRE(faults_with(text) ==
            "plan.toml:6:8: error: product 'bun' line: no place 'line-9'; wanted: a place of this plan\n"
            "    line = \"line-9\"\n" +
                under(8) +
                "    [did you mean 'line-1'? If not: add it to the plan]\n"
                "plan.toml:7:9: error: product 'bun': label 'loaf-1' is of product 'loaf'; wanted: a label of "
                "this product\n"
                "    label = \"loaf-1\"\n" +
                under(9) +
                "    [name another label, or correct the label's product]\n"
                "plan.toml:8:15: error: product 'bun' finish_step: no step 'baek'; wanted: a step of this plan\n"
                "    finish_step = \"baek\"\n" +
                under(15) + "    [did you mean 'bake'? If not: add it to the plan]");
}

TEST_CASE("a kill_step of a product must be there; without one what is in it and lasts for a time ends it, which is told") {
    REQUIRE(faults_with(product("{ item = \"milk\", absolute = \"6kg\" }", "kill_step = \"baek\"\n")) ==
            "plan.toml:6:13: error: product 'bun' kill_step: no step 'baek'; wanted: a step of this plan\n"
            "    kill_step = \"baek\"\n" +
                under(13) + "    [did you mean 'bake'? If not: add it to the plan]");
    const std::string fed = "{ item = \"wheat-flour\", percent = \"100%\", flour = true }, { item = \"bun\", percent = \"20%\" }";
    REQUIRE(faults_with(product(fed, "use_within = \"2days\"\nkill_step = \"bake\"\n")).empty());
    REQUIRE(
        faults_with(product(fed, "use_within = \"2days\"\n")) ==
        "plan.toml:1:1: warning: product 'bun' lasts no longer than the 'bun' in it; wanted: the step that kills what went in before it, "
        "if there is one\n"
        "    [[product]]\n"
        "    ^\n"
        "    [write kill_step = \"bake\" (or the souring, of a leaven); without one the date of 'bun' counts]");
}

TEST_CASE("an allergen word that no list has, or that another list has") {
    REQUIRE(faults_with("[[material]]\nid = \"ink\"\nname = \"ink\"\nallergens = [\"squid\"]\nmay_contain = "
                        "[\"gluten\", \"granite\"]\n") ==
            "plan.toml:4:14: error: material 'ink' allergens: allergen 'squid'; wanted: a word of the "
            "published lists; it is a mollusc\n"
            "    allergens = [\"squid\"]\n" +
                under(14) +
                "    [did you mean 'molluscs'? If not: write what is in the material]\n"
                "plan.toml:5:16: error: material 'ink' may_contain: allergen 'gluten'; wanted: a word of the "
                "published lists; a group word "
                "covers no cereal: name each cereal\n"
                "    may_contain = [\"gluten\", \"granite\"]\n" +
                under(16) +
                "    [did you mean 'wheat', 'rye', 'barley', 'oats', 'spelt' or 'khorasan'? If not: write "
                "what is in the material]\n"
                "plan.toml:5:26: error: material 'ink' may_contain: allergen 'granite'; wanted: a word of "
                "the published lists\n"
                "    may_contain = [\"gluten\", \"granite\"]\n" +
                under(26) + "    [see the words with: plan show allergens]");
}

TEST_CASE("a label without a declared set, of an unknown product, for an unknown market") {
    REQUIRE(faults_with("[[label]]\nid = \"l\"\nname = \"l\"\nproduct = \"laof\"\nmarket = \"uk\"\n") ==
            "plan.toml:1:1: error: label 'l' has no declares; wanted: declares = [\"wheat\", \"milk\"], or "
            "[] when the label declares nothing\n"
            "    [[label]]\n"
            "    ^\n"
            "    [copy the allergens from the printed label, not from the formula]\n"
            "plan.toml:4:11: error: label 'l' product: no product 'laof'; wanted: a product of this plan\n"
            "    product = \"laof\"\n" +
                under(11) +
                "    [did you mean 'loaf'? If not: add it to the plan]\n"
                "plan.toml:5:10: error: label 'l': market is 'uk'; wanted: 'eu', 'us' or 'codex'\n"
                "    market = \"uk\"\n" +
                under(10) + "    [write one of these words]");
}

TEST_CASE("a label that declares too little or too much is a warning") {
    const std::string label = "[[label]]\nid = \"l\"\nname = \"l\"\nproduct = \"loaf\"\nmarket = \"eu\"\n";
    REQUIRE(faults_with(label + "declares = [\"wheat\", \"egg\"]\n") ==
            "plan.toml:6:12: warning: label 'l' does not declare milk, which the formula of 'loaf' brings; "
            "wanted: every allergen that "
            "market 'eu' lists\n"
            "    declares = [\"wheat\", \"egg\"]\n" +
                under(12) +
                "    [correct the label, or the allergens of the material, before anything is packed under it]\n"
                "plan.toml:6:22: warning: label 'l' declares egg, which nothing in the formula of 'loaf' brings; "
                "wanted: what is in it; what "
                "may be there by accident is may_contain\n"
                "    declares = [\"wheat\", \"egg\"]\n" +
                under(22) + "    [check the label against the formula and the specifications]");
}

TEST_CASE("the market of the label says what it must declare") {
    const std::string rye = "[[material]]\nid = \"rye-flour\"\nname = \"rye\"\nallergens = [\"rye\"]\n" +
                            std::string(
                                "[[product]]\nid = \"sour\"\nname = \"sour\"\nsteps = [\"feed\"]\nformula = "
                                "[ { item = \"rye-flour\", absolute = "
                                "\"1kg\" }, { item = \"sour\", absolute = \"1kg\" } ]\n") +
                            "[[product]]\nid = \"bun\"\nname = \"bun\"\nsteps = [\"mix\"]\nformula = [ { "
                            "item = \"sour\", absolute = \"1kg\" } ]\n";
    const std::string label = "[[label]]\nid = \"l\"\nname = \"l\"\nproduct = \"bun\"\ndeclares = []\n";
    REQUIRE(faults_with(rye + label + "market = \"us\"\n") == "");       // rye is none of the US nine (FALCPA, from memory)
    const Outcome eu = outcome_with(rye + label + "market = \"eu\"\n");  // Annex II point 1, through the leaven
    REQUIRE(eu.faults.size() == 1);
    REQUIRE(eu.faults[0].found == "label 'l' does not declare rye, which the formula of 'bun' brings");
    REQUIRE(eu.faults[0].warning);
    REQUIRE(eu.usable());
}
