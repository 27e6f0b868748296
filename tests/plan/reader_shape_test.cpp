// What is wrong with the form of a text: syntax, sections, keys, kinds of value. Each message is asserted
// whole.
#include <catch2/catch.hpp>

#include "plan_texts.h"

using namespace peelbook::plan;
using namespace peelbook::plan::testing;

TEST_CASE("the sound plan of these tests has no fault") { REQUIRE(faults_with("") == ""); }

TEST_CASE("a plan without a site") {
    REQUIRE(faults_of("[[place]]\nid = \"a\"\nname = \"a\"\n") ==
            "error: the plan has no [site]; wanted: one [site] with name, zone and allergen_list\n"
            "    [write it into site.toml]");
}

TEST_CASE("two sites") {
    REQUIRE(faults_with("[site]\nname = \"B\"\n") ==
            "plan.toml:1:2: error: [site] is there twice; wanted: one [site] in all files together\n"
            "    [site]\n"
            "     ^\n"
            "    [bring the two together]");
}

TEST_CASE("a syntax error does not stop the other files") {
    const Outcome outcome = read_plan({{"a.toml", "[site]\nname = \n"}, {"b.toml", "[[place]]\nid = \"x y\"\nname = \"n\"\n"}});
    REQUIRE_FALSE(outcome.usable());
    REQUIRE(outcome.faults.size() == 2);
    const Fault& syntax = outcome.faults[0];
    REQUIRE(syntax.file == "a.toml");
    REQUIRE(syntax.line == 2);
    REQUIRE(syntax.source_line == "name = ");
    REQUIRE(syntax.found.rfind("this is no TOML: ", 0) == 0);  // what follows is the parser's
    REQUIRE(syntax.wanted == "valid TOML");
    REQUIRE(syntax.remedy ==
            "correct it and check again: until then this file counts as empty, and names are not checked "
            "across files");
    REQUIRE(to_text(outcome.faults[1]) ==
            "b.toml:2:6: error: place id: id 'x y'; wanted: letters A-Z a-z, digits and - _ . / # only\n"
            "    id = \"x y\"\n"
            "         ^\n"
            "    [leave out spaces and other signs]");
}

TEST_CASE("an unknown section, with the nearest name") {
    REQUIRE(faults_with("[[products]]\nid = \"x\"\n") ==
            "plan.toml:1:3: error: unknown section 'products'; wanted: a section of a plan\n"
            "    [[products]]\n"
            "      ^\n"
            "    [did you mean 'product'? If not: it may be one of: site, calendar, shift, material, product, label, vessel, "
            "place, instrument, logger, possible, role, "
            "hazard, point, equipment, cleaning, reference_dose, deadline]");
}

TEST_CASE("a section in the wrong form") {
    REQUIRE(faults_with("[place]\nid = \"x\"\n") ==
            "plan.toml:1:2: error: place is a table; wanted: [[place]]\n"
            "    [place]\n"
            "     ^\n"
            "    [begin it with a line [[place]]]");
    REQUIRE(faults_of("[[site]]\nname = \"x\"\n") ==
            "error: the plan has no [site]; wanted: one [site] with name, zone and allergen_list\n"
            "    [write it into site.toml]\n"
            "plan.toml:1:3: error: site is a list; wanted: [site]\n"
            "    [[site]]\n"
            "      ^\n"
            "    [begin it with a line [site]]");
}

TEST_CASE("an unknown key, with the nearest name") {
    REQUIRE(faults_with("[[place]]\nid = \"x\"\nnmae = \"x\"\nname = \"y\"\n") ==
            "plan.toml:3:1: error: place 'x': unknown key 'nmae'; wanted: a key of this table\n"
            "    nmae = \"x\"\n"
            "    ^\n"
            "    [did you mean 'name'? If not: it may be one of: id, name]");
}

TEST_CASE("a key that is missing") {
    REQUIRE(faults_with("[[place]]\nid = \"x\"\n") ==
            "plan.toml:1:1: error: place 'x' has no name; wanted: name = \"...\"\n"
            "    [[place]]\n"
            "    ^\n"
            "    [write it into this table]");
    REQUIRE(faults_with("[[place]]\nname = \"x\"\n") ==
            "plan.toml:1:1: error: place has no id; wanted: id = \"rye-flour\"\n"
            "    [[place]]\n"
            "    ^\n"
            "    [write it into this table]");
}

TEST_CASE("a value of the wrong kind") {
    REQUIRE(faults_with("[[place]]\nid = \"x\"\nname = 3\n") ==
            "plan.toml:3:8: error: place 'x': name is a whole number; wanted: a text\n"
            "    name = 3\n"
            "           ^\n"
            "    [write it like name = \"...\"]");
    REQUIRE(faults_with("[[material]]\nid = \"x\"\nname = \"x\"\nallergens = \"milk\"\n") ==
            "plan.toml:4:13: error: material 'x': allergens is a text; wanted: a list\n"
            "    allergens = \"milk\"\n"
            "                ^\n"
            "    [write it like allergens = [\"first\", \"second\"]]");
    REQUIRE(faults_with("[[material]]\nid = \"x\"\nname = \"x\"\nsuppliers = [\"A\", 3]\nsupply = \"yes\"\n") ==
            "plan.toml:4:19: error: material 'x': suppliers holds a whole number; wanted: texts only\n"
            "    suppliers = [\"A\", 3]\n"
            "                      ^\n"
            "    [write it like suppliers = [\"first\", \"second\"]]\n"
            "plan.toml:5:10: error: material 'x': supply is a text; wanted: true or false\n"
            "    supply = \"yes\"\n"
            "             ^\n"
            "    [write it like supply = true]");
}

TEST_CASE("a list that names a thing twice, and an empty name") {
    REQUIRE(faults_with("[[material]]\nid = \"x\"\nname = \" \"\nsuppliers = [\"A\", \"A\"]\n") ==
            "plan.toml:3:8: error: material 'x' name: an empty name; wanted: a name that says something\n"
            "    name = \" \"\n"
            "           ^\n"
            "    [type the name]\n"
            "plan.toml:4:19: error: material 'x': suppliers names 'A' twice; wanted: each name once\n"
            "    suppliers = [\"A\", \"A\"]\n"
            "                      ^\n"
            "    [take one of the two out]");
}

TEST_CASE("a measure without a unit, with an unknown unit, of another dimension") {
    REQUIRE(faults_with("[[vessel]]\nid = \"t\"\nname = \"t\"\nmodel = \"mixed\"\nholds = \"milk\"\nheel = "
                        "\"40\"\nsmear = \"3C\"\n") ==
            "plan.toml:6:8: error: vessel 't' heel: '40'; wanted: a unit after the number: mg, g, kg, t, lb, oz\n"
            "    heel = \"40\"\n"
            "           ^\n"
            "    [type the unit too, like 40kg]\n"
            "plan.toml:7:9: error: vessel 't' smear: '3C', a temperature; wanted: a mass in mg, g, kg, t, lb, "
            "oz\n"
            "    smear = \"3C\"\n"
            "            ^\n"
            "    [check what is asked for]");
    REQUIRE(faults_with("[[vessel]]\nid = \"t\"\nname = \"t\"\nmodel = \"mixed\"\nholds = \"milk\"\nheel = 40\n") ==
            "plan.toml:6:8: error: vessel 't': heel is a whole number; wanted: a text\n"
            "    heel = 40\n"
            "           ^\n"
            "    [write it like heel = \"20kg\"]");
}

TEST_CASE("the caret stands under the character, behind tabs and umlauts, and a long line is cut around it") {
    REQUIRE(faults_with("[[place]]\nid = \"x\"\n\tname = \"n\"\n\t\"\xC3\xA4\xC3\xB6\" = 1\n") ==
            "plan.toml:4:2: error: place 'x': unknown key '\xC3\xA4\xC3\xB6'; wanted: a key of this table\n"
            "    \t\"\xC3\xA4\xC3\xB6\" = 1\n"
            "    \t^\n"
            "    [it may be one of: id, name]");
    const std::string long_name(200, 'n');
    REQUIRE(faults_with("[[place]]\nid = \"x\"\nname = \"" + long_name + "\"\n") ==
            "plan.toml:3:8: error: place 'x' name: name of 200 bytes; wanted: at most 120 bytes\n"
            "    name = \"" +
                std::string(112, 'n') +
                "...\n"
                "           ^\n"
                "    [shorten it]");
}

TEST_CASE("several faults are told in one run, in the order of files and lines") {
    const Outcome outcome = read_plan({{"site.toml", "[site]\nzone = \"Nowhere/Town\"\nname = 3\n"},
                                       {"b.toml",
                                        "[[place]]\nid = \"x\"\n[[vessel]]\nid = \"v\"\nname = \"v\"\nmodel "
                                        "= \"mxied\"\nholds = \"q\"\n"}});
    std::vector<std::string> places;
    for (const Fault& f : outcome.faults) places.push_back(f.file + ":" + std::to_string(f.line) + " " + f.found);
    REQUIRE(places == std::vector<std::string>{"site.toml:1 site has no allergen_list", "site.toml:2 site zone: time zone 'Nowhere/Town'",
                                               "site.toml:3 site: name is a whole number", "b.toml:1 place 'x' has no name",
                                               "b.toml:6 vessel 'v': model is 'mxied'",
                                               "b.toml:7 vessel 'v' holds: no material or product 'q'"});
}
