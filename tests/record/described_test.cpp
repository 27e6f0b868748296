#include <catch2/catch.hpp>

#include "record/entry.h"

using namespace peelbook;
using namespace peelbook::record;
using Pairs = std::vector<std::pair<std::string, std::string>>;

TEST_CASE("A reading in words") {
    CHECK(described(ReadingTaken{"RYE-1", "bake-core", *parse_measure("200F"), "oven-1", "T-2", ""}) ==
          Pairs{{"subject", "RYE-1"}, {"point", "bake-core"}, {"value", "200F"}, {"unit", "oven-1"}, {"instrument", "T-2"}});
}

TEST_CASE("Parts, declarations and findings in words") {
    Packed packed;
    packed.lot = "P-1";
    packed.from = {{"A", 12, {}}, {"B", 12, {}}, {"C", 0, *parse_measure("3kg")}, {"D", 0, {}}};
    packed.printed_code = "L24";
    packed.date = Date{2026, 11, 30};
    CHECK(described(packed) ==
          Pairs{{"lot", "P-1"}, {"from", "A 12 pieces, B 12 pieces, C 3kg, D"}, {"printed code", "L24"}, {"date", "2026-11-30"}});

    Received received;
    received.lot = "F-1";
    received.allergens = {true, {"wheat", "rye"}, {"soy"}};
    CHECK(described(received) == Pairs{{"lot", "F-1"}, {"allergens", "contains wheat, rye; may contain soy"}});
    received.allergens = {true, {}, {}};
    CHECK(described(received) == Pairs{{"lot", "F-1"}, {"allergens", "contains none"}});

    CHECK(described(Acted{{17, "bake-core", 0}, "set aside", "", "discard", "", ""}) ==
          Pairs{{"finding", "entry 17, bake-core, 0"}, {"product", "set aside"}, {"disposition", "discard"}});
}

TEST_CASE("Truth values and times in words") {
    Filled filled{"silo-1", "F-1", "S-1", {}, true, Instant{1795500000000}};
    // 1795500000 s is 2026-11-24T06:00:00Z: 20,781 days and 6 hours after the epoch.
    CHECK(described(filled) ==
          Pairs{{"vessel", "silo-1"}, {"lot", "F-1"}, {"blend", "S-1"}, {"rest", "yes"}, {"until", "2026-11-24T06:00:00.000Z"}});
}
