#include "plan/starter.h"

#include <catch2/catch.hpp>

#include "plan/reader.h"

using namespace peelbook;
using namespace peelbook::plan;

TEST_CASE("the starter plan reads without a fault or a warning") {
    const Outcome outcome = read_plan(starter_plan("Sample Bakery", "Europe/Berlin"));
    for (const Fault& fault : outcome.faults) UNSCOPED_INFO(to_text(fault));
    REQUIRE(outcome.faults.empty());
    REQUIRE(outcome.plan.site.name == "Sample Bakery");
    REQUIRE(outcome.plan.site.zone == "Europe/Berlin");
}

TEST_CASE("every limit of the starter plan says that it is a starting point to be validated") {
    const Outcome outcome = read_plan(starter_plan("Sample Bakery", "Europe/Berlin"));
    REQUIRE(outcome.plan.points.size() > 10);
    for (const Point& point : outcome.plan.points) {
        INFO(point.id);
        REQUIRE(point.basis.rfind("Starting point, to be validated: ", 0) == 0);
        REQUIRE_FALSE(point.limit_text.empty());
    }
}

TEST_CASE("a name with quotation marks and a backslash stays what it was in the starter plan") {
    const Outcome outcome = read_plan(starter_plan("Mill \"Am Bach\" \\ Co", "UTC"));
    REQUIRE(outcome.faults.empty());
    REQUIRE(outcome.plan.site.name == "Mill \"Am Bach\" \\ Co");
}
