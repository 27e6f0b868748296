// How the plan says that a logger's file is written, and what is wrong with it.
#include <catch2/catch.hpp>

#include "plan/described.h"
#include "plan_texts.h"

using namespace peelbook;
using namespace peelbook::plan;
using namespace peelbook::plan::testing;

namespace {

const std::string room = R"toml([[place]]
id = "store"
name = "store"
[[point]]
id = "store-air"
name = "air"
place = "store"
class = "operating"
limit = { most = "5C" }
optional = true
chart = true
)toml";

const std::string logger = "[[logger]]\nid = \"export\"\nname = \"export\"\n";

}  // namespace

TEST_CASE("a logger is read with all its keys and told in words") {
    const auto outcome = outcome_with(room + logger + R"toml(separator = "tab"
decimal = ","
header_lines = 3
date = "Date"
time = "2"
time_format = "DD.MM.YYYY hh:mm"
zone = "+01:00"
every = "5min"
no_value = ["---", "open"]
values = [ { column = "T1", unit = "F", point = "store-air", probed = "left" }, { column = "4", unit = "%" } ]
)toml");
    const Logger* known = outcome.plan.logger("export");
    REQUIRE(known);
    CHECK(known->separator == "\t");
    CHECK(known->header_lines == 3);
    CHECK(known->every == minutes(5));
    REQUIRE(known->columns.size() == 2);
    CHECK(known->columns[0].unit == Unit::fahrenheit);
    CHECK(outcome.plan.point("store-air")->chart);
    std::string words;
    for (const auto& d : described(outcome.plan))
        if (d.section == "logger")
            for (const auto& [what, text] : d.says) words += what + ": " + text + "\n";
    CHECK(words ==
          "name: export\ncolumns parted by: a tab\ndecimal mark: ','\nheader lines: 3\ndate in column: Date\n"
          "time in column: 2\ntimes written: DD.MM.YYYY hh:mm\nclock of: +01:00\none row every: 5 min\n"
          "no value is written: ---, open\nvalues in column T1: in F, for store-air, left\nvalues in column "
          "4: in %\n");
}

TEST_CASE("what is wrong with a logger is told with its line") {
    const std::string one = "values = [ { column = \"2\", unit = \"C\" } ]\n";
    const auto fault = [&](const std::string& keys) { return faults_with(room + logger + keys); };
    CHECK(fault(one) == "");
    CHECK(fault("").find("logger 'export' has no values") != std::string::npos);
    CHECK(fault(one + "separator = \"--\"\n").find("separator is '--'") != std::string::npos);
    CHECK(fault(one + "separator = \",\"\ndecimal = \",\"\n").find("separator and decimal are both ','") != std::string::npos);
    CHECK(fault(one + "time_format = \"DD.MM.YYYY\"\n").find("time format 'DD.MM.YYYY'") != std::string::npos);
    CHECK(fault(one + "date = \"1\"\n").find("has no time_format") != std::string::npos);
    CHECK(fault(one + "zone = \"Europe/Berln\"\n").find("Europe/Berlin") != std::string::npos);
    CHECK(fault(one + logger + one).find("logger 'export' is there twice") != std::string::npos);
    CHECK(fault("values = [ { column = \"2\", unit = \"K\" } ]\n").find("unit is 'K'") != std::string::npos);
    CHECK(fault("values = [ { column = \"2\", unit = \"C\", point = \"store-ari\" } ]\n").find("store-air") != std::string::npos);
    CHECK(fault("values = [ { column = \"2\", unit = \"%\", point = \"store-air\" } ]\n")
              .find("unit '%' is of percentage, but point 'store-air' is of temperature") != std::string::npos);
    const std::string yes_no =
        "[[point]]\nid = \"lid\"\nname = \"lid\"\nplace = \"store\"\nclass = \"quality\"\nlimit = { yes_no = "
        "true }\noptional = true\nchart = true\n";
    CHECK(faults_with(room + yes_no).find("chart of a point that gives no number") != std::string::npos);
    CHECK(faults_with(room + yes_no).find("a measured value, a time between two events or a loss") != std::string::npos);
}
