// What later entries change about an open recall: hand examples.
#include <catch2/catch.hpp>

#include "trace/recall.h"

using namespace peelbook;
using namespace peelbook::trace;

namespace {

Reached reached(LotId lot, bool certain) {
    Reached r;
    r.lot = lot;
    r.certain = certain;
    r.depth = 1;
    r.share_expected = r.share_largest = 0.5;
    r.suspect_mg = 5;
    return r;
}

Delivery delivery(const char* partner, const char* code, std::int64_t pieces) {
    Delivery d;
    d.partner = partner;
    d.printed_code = code;
    d.pieces = pieces;
    d.way = "customer";
    return d;
}

}  // namespace

TEST_CASE("rule 44: a recall shows what was added, removed and changed since its snapshot") {
    const Snapshot before{{reached(1, true), reached(2, true), reached(3, false)},
                          {delivery("ALDER", "B1", 10), delivery("MILLS", "B1", 20)}};
    const SnapshotChanges same = compare(before, before);
    CHECK((same.added_lots.empty() && same.removed_lots.empty()));
    CHECK((same.surer_lots.empty() && same.less_sure_lots.empty()));
    CHECK((same.added_deliveries.empty() && same.removed_deliveries.empty() && same.changed_deliveries.empty()));
    const Snapshot now{{reached(1, true), reached(3, true), reached(4, false)}, {delivery("MILLS", "B1", 15), delivery("OAK", "B2", 1)}};
    const SnapshotChanges changes = compare(before, now);
    CHECK(changes.added_lots == std::vector<LotId>{4});
    CHECK(changes.removed_lots == std::vector<LotId>{2});
    CHECK(changes.surer_lots == std::vector<LotId>{3});
    CHECK(changes.less_sure_lots.empty());
    REQUIRE(changes.added_deliveries.size() == 1);
    CHECK(changes.added_deliveries[0].partner == "OAK");
    REQUIRE(changes.removed_deliveries.size() == 1);
    CHECK(changes.removed_deliveries[0].partner == "ALDER");
    REQUIRE(changes.changed_deliveries.size() == 1);
    CHECK(changes.changed_deliveries[0].before.pieces == 20);
    CHECK(changes.changed_deliveries[0].now.pieces == 15);
    CHECK(compare(now, before).less_sure_lots == std::vector<LotId>{3});
}
