// Equipment, cleanings and reference doses: values read, and faults told at their place.
#include <catch2/catch.hpp>

#include "plan_texts.h"

using namespace peelbook;
using namespace peelbook::plan;
using namespace peelbook::plan::testing;

namespace {

const std::string slicer = R"toml([[equipment]]
id = "slicer"
name = "slicer"
lines = ["line-1"]
step = "pack"
residue = "50g"
[[point]]
id = "slicer-seen"
name = "slicer seen clean"
place = "slicer"
class = "operating"
limit = { yes_no = true }
[[cleaning]]
id = "wet"
name = "washed"
kind = "wet"
equipment = ["slicer"]
verify = ["slicer-seen"]
time = "25min"
)toml";

bool told(const std::string& faults, const std::string& part) {
    INFO(faults);
    return faults.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a piece of equipment, its cleaning and a dose, read; the piece is a place too") {
    const Outcome outcome = outcome_with(slicer +
                                         "clears = [\"milk\"]\ncost = 7\n[[reference_dose]]\nallergen = \"milk\"\ndose = \"2mg\"\n"
                                         "source = \"FAO/WHO 2022\"\n");
    REQUIRE(outcome.faults.empty());
    const Plan& plan = outcome.plan;
    REQUIRE(plan.equipment.size() == 1);
    REQUIRE(plan.equipment[0].residue->value == 50'000);  // mg
    REQUIRE(plan.place("slicer") != nullptr);
    REQUIRE(plan.cleaning("wet")->time == minutes(25));
    REQUIRE(plan.cleaning("wet")->cost == 7);
    REQUIRE(plan.cleaning("wet")->clears == std::vector<std::string>{"milk"});
    REQUIRE(plan.reference_doses[0].dose.value == 2);  // mg
    REQUIRE(plan.pieces_of("loaf", "line-1").size() == 1);
    REQUIRE(plan.pieces_of("loaf", "line-2").empty());
}

TEST_CASE("a cleaning that clears nothing, at its line") {
    REQUIRE(faults_with(slicer + "clears = []\n") ==
            "plan.toml:20:10: error: cleaning 'wet': it clears nothing; wanted: clears = [\"hazelnut\"], "
            "what its validation shows that it "
            "takes off\n"
            "    clears = []\n"
            "             ^\n"
            "    [write them, or take the cleaning out]");
}

TEST_CASE("an allergen word that no list has, in another list's wording") {
    const std::string faults = faults_with(slicer + "clears = [\"dairy\"]\n");
    REQUIRE(told(faults, "plan.toml:20:11: error: cleaning 'wet' clears: allergen 'dairy'"));
    REQUIRE(told(faults, "milk"));
}

TEST_CASE("equipment of an unknown line, an unknown piece and point, with the nearest") {
    REQUIRE(told(faults_with("[[equipment]]\nid = \"slicer\"\nname = \"slicer\"\nlines = [\"line-2\"]\n"), "no place 'line-2'"));
    const std::string faults = faults_with(slicer +
                                           "clears = [\"milk\"]\n[[cleaning]]\nid = \"dry\"\nname = \"brushed\"\nkind = \"dry\"\n"
                                           "equipment = [\"slicre\"]\nclears = [\"milk\"]\ntime = \"5min\"\nverify = [\"slicer-sene\"]\n");
    REQUIRE(told(faults, "no equipment 'slicre'"));
    REQUIRE(told(faults, "did you mean 'slicer'?"));
    REQUIRE(told(faults, "did you mean 'slicer-seen'?"));
}

TEST_CASE("a cleaning that nothing verifies on one of its pieces") {
    REQUIRE(told(faults_with(slicer + "clears = [\"milk\"]\n[[equipment]]\nid = \"mixer\"\nname = \"mixer\"\nlines = [\"line-1\"]\n"
                                      "[[cleaning]]\nid = \"dry\"\nname = \"brushed\"\nkind = \"dry\"\nequipment = [\"mixer\"]\n"
                                      "clears = [\"milk\"]\ntime = \"5min\"\nverify = [\"slicer-seen\"]\n"),
                 "cleaning 'dry' is verified on 'mixer' by none of its points"));
}

TEST_CASE("a product that is packed and on no line, once there is equipment") {
    const std::string bun =
        "[[product]]\nid = \"bun\"\nname = \"bun\"\nformula = [ { item = \"milk\", absolute = \"1kg\" } "
        "]\nsteps = [\"mix\"]\nlabel = \"bun-1\"\n"
        "[[label]]\nid = \"bun-1\"\nname = \"bun\"\nproduct = \"bun\"\nmarket = \"eu\"\ndeclares = "
        "[\"milk\"]\n";
    REQUIRE(faults_with(bun).empty());
    REQUIRE(told(faults_with(bun + slicer + "clears = [\"milk\"]\n"), "plan.toml:1:1: error: product 'bun' is on no line"));
}

TEST_CASE("labels that are not read at the start of a run, and a moment that is none") {
    const std::string faults = faults_with(
        "[[point]]\nid = \"labels\"\nname = \"labels\"\nplace = \"line-1\"\nclass = \"operating\"\n"
        "limit = { label = { at = [\"ende\"] } }\n");
    REQUIRE(told(faults, "moment 'ende'; wanted: one of: start, reel, change, end"));
    REQUIRE(told(faults, "did you mean 'end'?"));
    REQUIRE(told(faults, "labels are not read at the start of a run"));
}
