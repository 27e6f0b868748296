// The load of a plan, worked out by hand beside each case.
#include "plan/load.h"

#include <catch2/catch.hpp>

#include "plan/reader.h"
#include "plan/starter.h"

using namespace peelbook;
using namespace peelbook::plan;

namespace {

const std::string house = R"(
[site]
name = "House"
zone = "UTC"
allergen_list = "eu"
people = 2
[calendar]
open = ["mon", "tue", "wed", "thu", "fri"]
[[place]]
id = "room"
name = "room"
[[place]]
id = "line"
name = "line"
[[place]]
id = "detector"
name = "detector"
[[material]]
id = "milk"
name = "milk"
allergens = ["milk"]
a_week = 3
[[product]]
id = "loaf"
name = "loaf"
formula = [ { item = "milk", percent = "100%", flour = true } ]
steps = ["bake", "cool", "pack"]
line = "line"
label = "loaf-1"
a_week = 10
[[label]]
id = "loaf-1"
name = "loaf"
product = "loaf"
market = "eu"
declares = ["milk"]
)";

std::string load_point(const std::string& id, const std::string& rest) {
    return "[[point]]\nid = \"" + id + "\"\nname = \"" + id + "\"\nclass = \"quality\"\n" + rest + "\n";
}

Load load(const std::string& points) {
    const Outcome outcome = read_plan({{"plan.toml", house + points}});
    for (const Fault& fault : outcome.faults) UNSCOPED_INFO(to_text(fault));
    REQUIRE(outcome.usable());
    return load_of(outcome.plan);
}

void check_only(const Load& load, std::int64_t checks, Duration time) {
    REQUIRE(load.points.size() == 1);
    CHECK(load.points[0].checks == checks);
    CHECK(load.points[0].time == time);
}

}  // namespace

TEST_CASE("a product's point is checked once a batch and unit") {
    const std::string core = "step = \"bake\"\nproducts = [\"loaf\"]\nlimit = { least = \"93C\" }\n";
    check_only(load(load_point("core", core)), 10, minutes(10));                                      // 10 batches
    check_only(load(load_point("core", core + "units = [\"left\", \"right\"]\n")), 20, minutes(20));  // two a batch
    check_only(load(load_point("core", core + "takes = \"90s\"\n")), 10, minutes(15));                // 10 x 1.5 min
    check_only(load(load_point("seen", "step = \"bake\"\nproducts = [\"loaf\"]\nlimit = { yes_no = true }\n")), 10,
               minutes(5));  // 10 x 30 s
    CHECK(load(load_point("core", core + "optional = true\n")).points.empty());
}

TEST_CASE("a cooling is read once more than it has stages; what other entries show asks nothing") {
    const std::string of_loaf = "step = \"cool\"\nproducts = [\"loaf\"]\n";
    const std::string cooling =
        "limit = { cooling = { from = \"57C\", stages = [ { to = \"21C\", within = \"2h\" }, { to = \"5C\", within = \"6h\" } ], counted = "
        "\"start\" } }\n";
    check_only(load(load_point("cooling", of_loaf + cooling)), 30, minutes(30));  // 10 batches x 3
    CHECK(load(load_point("time", of_loaf + "limit = { time = { from = \"bake\", until = \"cool\", most = \"4h\" } }\n")).points.empty());
}

TEST_CASE("a delivery is one check of each material that comes, a place is checked within its hours or the shifts") {
    check_only(load(load_point("door", "materials = [\"milk\"]\nlimit = { most = \"5C\" }\n")), 3, minutes(3));
    const std::string air = "place = \"room\"\nlimit = { most = \"5C\" }\nevery = \"4h\"\n";
    check_only(load(load_point("air", air)), 30, minutes(30));                                // 5 days x 24 h / 4 h
    check_only(load(load_point("air", air + "hours = \"22:00-06:00\"\n")), 10, minutes(10));  // 5 x 8 h / 4 h
    const std::string shifts =
        "[[shift]]\nid = \"a\"\nname = \"a\"\nfrom = \"04:00\"\nuntil = \"12:00\"\n"
        "[[shift]]\nid = \"b\"\nname = \"b\"\nfrom = \"10:00\"\nuntil = \"16:00\"\ndays = [\"sat\"]\n";
    check_only(load(load_point("air", air) + shifts), 12, minutes(12));  // 5 x 8 h and 6 h: 46 h / 4 h, and the part of one
}

TEST_CASE("a detector is looked at before and after each run on its line, a label at its moments") {
    const std::string device =
        "place = \"detector\"\nlimit = { yes_no = true }\nevery = \"2h\"\nhours = \"06:00-10:00\"\ndevice_check = true\n"
        "lines = [\"line\"]\nat = [\"start\", \"end\"]\n";
    check_only(load(load_point("metal", device)), 30, minutes(15));  // 5 days x 4 h / 2 h, and 10 runs x 2
    check_only(load(load_point("label", "place = \"line\"\nlimit = { label = { at = [\"start\", \"change\", \"end\"] } }\n")), 30,
               minutes(15));
}

TEST_CASE("the load is told for a day and a person, and too much of it is said") {
    const std::string core = "step = \"bake\"\nproducts = [\"loaf\"]\nlimit = { least = \"93C\" }\n";
    const std::string door = "materials = [\"milk\"]\nlimit = { most = \"5C\" }\n";
    CHECK(to_text(load(load_point("core", core) + load_point("door", door))) ==  // 13 checks in 5 days; 13 min / 5 / 2 = 1.3 min
          "load of a usual day: 2.6 checks, 2.6 min, of which each of 2 people has 1.3 min\n"
          "  core: 2 checks, 2 min\n"
          "  door: 0.6 checks, 0.6 min\n");
    CHECK(to_text(load(load_point("core", core + "takes = \"15min\"\n"))) ==  // 150 min / 5 = 30 min: 15 each, which is not more than 15
          "load of a usual day: 2 checks, 30 min, of which each of 2 people has 15 min\n  core: 2 checks, 30 min\n");
    CHECK(to_text(load(load_point("core", core + "takes = \"16min\"\n"))) ==
          "load of a usual day: 2 checks, 32 min, of which each of 2 people has 16 min\n"
          "  more than 15 min a person: what nobody has time for is left out or made up\n"
          "  core: 2 checks, 32 min\n");
}

TEST_CASE("the small starter asks for eight points at most and 15 minutes of each of its six people") {
    const Outcome outcome = read_plan(starter_plan("Sample Bakery", "Europe/Berlin", "small"));
    for (const Fault& fault : outcome.faults) UNSCOPED_INFO(to_text(fault));
    REQUIRE(outcome.faults.empty());
    CHECK(outcome.plan.points.size() == 8);
    for (const Point& point : outcome.plan.points) {
        INFO(point.id);
        CHECK(point.basis.rfind("Starting point, to be validated: ", 0) == 0);
        CHECK_FALSE((point.interval && point.interval->device_check));
    }
    CHECK(outcome.plan.roles.empty());
    // Six days a week: label 24 x 2 x 0.5 = 24 min, loaf-core 24, cool 24, small-core 30, custard 6 + 18, air 12 x 1 (12 h / 6 h), door 5;
    // together 143 min, or 23.8 a day and 3.9 a person.
    CHECK(to_text(load_of(outcome.plan)) ==
          "load of a usual day: 27.8 checks, 23.8 min, of which each of 6 people has 3.9 min\n"
          "  small-core: 5 checks, 5 min\n"
          "  loaf-core: 4 checks, 4 min\n"
          "  label-check: 8 checks, 4 min\n"
          "  cool-before-packing: 4 checks, 4 min\n"
          "  custard-cooling: 3 checks, 3 min\n"
          "  chill-air: 2 checks, 2 min\n"
          "  custard-boil: 1 check, 1 min\n"
          "  chilled-receipt: 0.8 checks, 0.8 min\n");
}
