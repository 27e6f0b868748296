// A check on a place that was recorded at the wrong point: its verdict belongs where it is now, and what was raised where it never was is
// cleared by the amendment, not left standing.
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

struct TwoPoints : Bakery {
    TwoPoints() {
        adopt(std::string(bakery_plan) + R"toml(
[[point]]
id = "cold-floor"
name = "floor of the cold store"
place = "cold-store"
class = "operating"
measures = "floor"
unit = "C"
limit = { most = "8C" }
[[point]]
id = "store-core"
name = "core of what lies in the cold store"
place = "cold-store"
class = "critical"
measures = "core"
unit = "C"
limit = { most = "5C" }
basis = "invented for this test"
action = { product = "Hold what lies there.", process = "Look at the chiller." }
)toml");
    }
    // point, verdict now, worst so far, by which entry it was cleared; "-" when by none
    std::vector<std::string> findings() const {
        const auto rows = site->ask(
            "SELECT point || ' ' || verdict || ' ' || raised || ' ' || coalesce(cleared_by, '-') FROM finding "
            "WHERE place = 'cold-store' ORDER BY happened, point");
        REQUIRE(rows.ok());
        std::vector<std::string> out;
        for (const auto& row : rows->rows) out.push_back(std::get<std::string>(row[0]));
        return out;
    }
};

}  // namespace

TEST_CASE("a check amended to another point of its place is judged there and cleared where it never was") {
    TwoPoints b;
    const auto wrong = b.did(Bakery::reading("cold-store", "cold-air", "7C"));
    CHECK(b.findings() == std::vector<std::string>{"cold-air 3 3 -"});
    const auto amended = b.amended(wrong.seq, Bakery::reading("cold-store", "cold-floor", "7C"));
    CHECK(b.findings() == std::vector<std::string>{"cold-air 3 3 -"});  // until another person has said so: rule 59
    b.countersigned(amended.seq);
    CHECK(b.findings() == std::vector<std::string>{"cold-air 3 3 " + std::to_string(b.site->status().entries), "cold-floor 0 0 -"});

    SECTION("and the other way round: it deviates where it belongs") {
        const auto back = b.amended(wrong.seq, Bakery::reading("cold-store", "cold-air", "7C"), "it was the air after all");
        CHECK(b.findings() == std::vector<std::string>{"cold-air 3 3 -"});
        CHECK(back.judged_bad());
        CHECK(b.site->verify(true).empty());
    }
    SECTION("a void takes it from both, and clears nothing") {
        REQUIRE(b.site->void_entry(wrong.seq, "QA", "nobody read it").ok());
        CHECK(b.findings().front().substr(0, 13) == "cold-air 3 3 ");
    }
}

TEST_CASE("a reading goes to the lot that it is amended to and back to the one that it was typed for, whichever is folded first") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.start("L-1", "loaf");
    b.start("L-2", "loaf");
    const std::string first = GENERATE("L-1", "L-2"), second = first == "L-1" ? "L-2" : "L-1";
    const auto of = [&] { return b.ask("SELECT code FROM reading JOIN lot ON lot.id = reading.lot"); };
    const Seq typed = b.did(Bakery::reading(first, "core", "96C")).seq;
    const Seq moved = b.amended(typed, Bakery::reading(second, "core", "96C")).seq;
    CHECK(of() == std::vector<std::string>{second});
    b.countersigned(moved, "MK", true);
    CHECK(of() == std::vector<std::string>{first});
    CHECK(b.faults() == "");
}

TEST_CASE("what was within leaves nothing behind at the point that a check was amended away from") {
    TwoPoints b;
    const auto wrong = b.did(Bakery::reading("cold-store", "cold-air", "4C"));
    const auto amended = b.amended(wrong.seq, Bakery::reading("cold-store", "cold-floor", "4C"));
    CHECK(b.findings() == std::vector<std::string>{"cold-air 0 0 -"});
    b.countersigned(amended.seq);
    CHECK(b.findings() == std::vector<std::string>{"cold-floor 0 0 -"});
    CHECK(b.site->verify(true).empty());
}

TEST_CASE("a failed calibration reaches the checks on places since the last good one") {
    TwoPoints b;
    const auto calibrated = [&](bool passed, const std::string& when) { return b.did_at(Bakery::calibrated(passed), when); };
    b.set("2026-11-16 20:00");
    calibrated(true, "05:30");
    b.did_at(Bakery::reading("cold-store", "store-core", "4C"), "05:40");  // before the last good one: not in doubt
    calibrated(true, "06:00");
    b.did_at(Bakery::reading("cold-store", "store-core", "4C"), "08:00");
    b.did_at(Bakery::reading("cold-store", "cold-floor", "4C", "old-probe"), "09:00");  // another instrument
    REQUIRE(b.findings() == std::vector<std::string>{"store-core 0 0 -", "store-core 0 0 -", "cold-floor 0 0 -"});
    const auto failed = calibrated(false, "12:00");
    CHECK(b.findings() == std::vector<std::string>{"store-core 0 0 -", "store-core 1 1 -", "cold-floor 0 0 -"});
    REQUIRE(failed.findings.size() == 1);
    CHECK(failed.findings.front().finding.point == "store-core");
    CHECK(failed.findings.front().finding.detail.find("has failed a calibration since its last good one") != std::string::npos);
    CHECK(b.site->verify(true).empty());
}
