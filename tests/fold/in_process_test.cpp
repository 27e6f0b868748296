// While a step still takes readings, as the book derives it: what is not settled yet, when it is over by what was written, the step begun
// again, and what `finish` makes of spoiled pieces.
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

// A loaf out of the oven at 06:00, read 88 C four minutes later; cores are read on for ten minutes.
class OutOfTheOven : public Bakery {
  public:
    OutOfTheOven() {
        std::string plan(bakery_plan);
        const std::string limit = "limit = { least = \"94C\" }\n";
        plan.insert(plan.find(limit) + limit.size(), "read_on = \"10min\"\n");
        adopt(plan);
        receive("WF-1", "wheat-flour", "900kg");
        start("L-1", "loaf");
        set("06:00");
        step("L-1", "bake");
        set("06:04");
        did(reading("L-1", "core", "88C"));
    }
    Receipt again(const std::string& when) { return did_at(record::StepDone{"L-1", "bake", "", true}, when); }
    // Something is written of the lot that says nothing of its core.
    void look() { did(record::Stored{"L-1", "line-1"}); }
};

}  // namespace

TEST_CASE("rule 4: the next entry after the time of readings writes finding and hold, and no clock does") {
    OutOfTheOven b;
    CHECK_FALSE(b.has_finding("L-1", "core"));
    CHECK_FALSE(b.held("L-1"));
    b.set("06:09");
    b.look();
    CHECK_FALSE(b.has_finding("L-1", "core"));
    b.set("06:20");
    CHECK_FALSE(b.has_finding("L-1", "core"));
    CHECK(b.faults() == "");
    b.look();
    CHECK(b.finding("L-1", "core").verdict == Verdict::deviation);
    CHECK(b.finding("L-1", "core").happened == b.at("06:04").ms);
    CHECK(b.held("L-1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 4: begun again in time: corrected, listed, and nothing is held") {
    OutOfTheOven b;
    b.set("06:06");
    b.again("06:06");
    b.set("06:40");
    b.look();  // the bake goes on: however long it takes, nothing is decided
    CHECK_FALSE(b.has_finding("L-1", "core"));
    b.did_at(Bakery::reading("L-1", "core", "96C"), "06:30");
    b.did_at(record::StepDone{"L-1", "bake", ""}, "06:31");
    const auto corrected = b.finding("L-1", "core");
    CHECK(corrected.verdict == Verdict::within);
    CHECK(corrected.raised == Verdict::within);
    CHECK(corrected.corrected == "88C");
    CHECK_FALSE(b.held("L-1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 4: begun again on time and typed when the batch was held: the finding stands until it is corrected, the hold stays") {
    OutOfTheOven b;
    b.set("06:20");
    b.look();
    REQUIRE(b.held("L-1"));
    b.again("06:08");
    CHECK(b.finding("L-1", "core").verdict == Verdict::deviation);
    CHECK_FALSE(b.finding("L-1", "core").cleared_by.has_value());
    b.did_at(Bakery::reading("L-1", "core", "96C"), "06:18");
    CHECK(b.finding("L-1", "core").verdict == Verdict::deviation);
    const auto end = b.did_at(record::StepDone{"L-1", "bake", ""}, "06:19");
    const auto cleared = b.finding("L-1", "core");
    CHECK(cleared.verdict == Verdict::within);
    CHECK(cleared.raised == Verdict::deviation);
    CHECK(cleared.cleared_by == end.seq);
    CHECK(cleared.corrected == "88C");
    CHECK(b.held("L-1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 4: what may not be begun again is refused") {
    OutOfTheOven b;
    const auto refused = [&b](const std::string& lot, const std::string& step, const std::string& when) {
        auto draft = b.draft(record::StepDone{lot, step, "", true});
        draft.happened = b.at(when);
        return b.refused(draft);
    };
    b.set("06:30");
    CHECK(refused("L-1", "bake", "06:11").given == "bake of L-1 again at 2026-11-16 06:11, 11 min after its end");
    CHECK(refused("L-1", "bake", "05:59").given == "bake of L-1 again at 2026-11-16 05:59, before its end");
    CHECK(refused("L-1", "cool", "06:05").given == "cool of L-1 again at 2026-11-16 06:05, which has not ended");
    b.step("L-1", "mix");
    CHECK(refused("L-1", "mix", "06:30").wanted == "a step with a point that is read on after its end: the plan has none (read_on)");
    b.again("06:10");
    CHECK(refused("L-1", "bake", "06:12").given == "bake of L-1 again at 2026-11-16 06:12, which has not ended");
}

TEST_CASE("rule 4: of a batch in racks the bake goes on as that of the batch") {
    OutOfTheOven b;
    b.set("06:05");
    b.finish("L-1", 54, "43.2kg");
    record::Split split;
    split.lot = "L-1";
    split.unit = "rack-1";
    split.pieces = 54;
    b.did(split);
    b.set("06:07");
    CHECK(b.refused(record::StepDone{"L-1/rack-1", "bake", "", true}).next == "say it of the batch, or of the rack");
    b.again("06:07");
    b.set("06:20");
    b.did(Bakery::reading("L-1", "core", "96C"));
    b.step("L-1", "bake");
    CHECK(b.finding("L-1", "core").corrected == "88C");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 48: spoiled pieces are made and wasted by the finish, and an amendment moves both") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    b.start("L-1", "loaf");
    b.pass(minutes(90));
    const auto stock = [&b] {
        return b.ask(
            "SELECT s.made_pieces, out_pieces, on_hand_pieces, s.made_mg, out_mg, on_hand_mg FROM stock s "
            "JOIN lot ON lot.id = lot WHERE code = 'L-1'");
    };
    const auto finished = b.did(record::Finished{"L-1", 50, measure("40kg"), "", 4, "burnt"});
    CHECK(stock() == std::vector<std::string>{"54 4 50 43200000 3200000 40000000"});
    CHECK_FALSE(b.has_finding("L-1", "yield"));
    b.amended(finished.seq, record::Finished{"L-1", 40, measure("32kg"), "", 7, "burnt, and counted again"});
    CHECK(stock() == std::vector<std::string>{"47 7 40 37600000 5600000 32000000"});
    const auto yield = b.finding("L-1", "yield");  // 47 of 54: 13 % fewer
    CHECK(yield.verdict == Verdict::deviation);
    CHECK(yield.grade == Grade::operating);
    CHECK(yield.measured == "47 of 54 pieces");
    const auto again = b.amended(finished.seq, record::Finished{"L-1", 54, measure("43.2kg"), "", 0, ""});
    CHECK(stock() == std::vector<std::string>{"54 0 54 43200000 0 43200000"});
    CHECK(b.finding("L-1", "yield").kept_by == again.seq);  // rule 59: until somebody else has looked
    b.countersigned(again.seq);
    CHECK(b.finding("L-1", "yield").cleared_by.has_value());
    CHECK(b.faults() == "");
}
TEST_CASE("rule 48: the good pieces keep the mass that was stated, whatever share of it the spoiled ones weigh") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "100kg");
    b.did(Bakery::reading("L-1", "core", "96C"));
    b.pass(minutes(5));
    record::Finished finished{"L-1", 147, measure("111.7kg"), ""};  // 3 of 150 weigh 2,279,591.8 mg by that
    finished.spoiled = 3;
    finished.why = "slid off the rack";
    b.did(finished);
    b.did(Bakery::packed("P-1", "L-1", 147, "A1"));
    CHECK(*b.lot("P-1").made_mg == 111'700'000);
    CHECK(b.faults() == "");
}
