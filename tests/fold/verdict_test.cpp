// What a verdict does to the goods: packing, shipping and release wait for it, a device check reaches back to
// the last good one, corrections never tidy away what was raised. The facts of the trade here are common
// practice unless a source is named.
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

using enum Verdict;

record::Acted disposition(const book::Finding& f, const std::string& what) {
    record::Acted act;
    act.finding = {f.anchor, f.point, f.ord};
    act.product = "looked at by quality";
    act.disposition = what;
    return act;
}

bool names(const std::vector<std::string>& list, const std::string& part) {
    return std::any_of(list.begin(), list.end(), [&](const auto& one) { return one.find(part) != std::string::npos; });
}

// Loaves on the bread line, from started to packed; 54 packs.
void packed_loaf(Bakery& b, const std::string& code, const std::string& printed) {
    b.loaf(code, "WF-1");
    b.pass(minutes(60));
    b.did(Bakery::packed(code + "-P", code, 54, printed));
}

}  // namespace

TEST_CASE("rule 1: an open point is not within, and neither is one whose only reading was voided") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.start("L-1", "loaf");
    CHECK_FALSE(b.has_finding("L-1", "core"));  // not owed yet: no verdict of any kind
    b.pass(minutes(30));
    const auto read = b.did(Bakery::reading("L-1", "core", "96C"));
    CHECK(b.finding("L-1", "core").verdict == within);
    b.step("L-1", "bake");
    REQUIRE(b.site->void_entry(read.seq, "MK", "another loaf was probed").ok());
    const auto voided = b.finding("L-1", "core");  // every reading voided: not judged, and that is not within
    CHECK(voided.verdict == Verdict::unproven);
    CHECK(voided.measured == "not judged");
    b.finish("L-1", 54, "43.2kg");
    const auto refusal = b.refused(Bakery::packed("P-1", "L-1", 54, "A1"));
    CHECK(refusal.given.find("unproven: core of L-1") != std::string::npos);
    b.did_at(Bakery::reading("L-1", "core", "95C"), "05:20");
    b.did(Bakery::packed("P-1", "L-1", 54, "A1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 2: a critical reading without an instrument in service is unproven") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.start("L-1", "loaf");
    b.did(Bakery::reading("L-1", "core", "96C", ""));
    CHECK(b.finding("L-1", "core").verdict == Verdict::unproven);
    b.start("L-2", "loaf");
    b.did(Bakery::reading("L-2", "core", "96C", "old-probe"));  // never calibrated
    CHECK(b.finding("L-2", "core").verdict == Verdict::unproven);
}

TEST_CASE(
    "rule 14: packing and shipping wait for a missing critical reading, and a signed disposition lets them "
    "go on") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    b.step("L-1", "mix");
    b.pass(minutes(35));
    b.step("L-1", "bake");
    CHECK(b.finding("L-1", "core").verdict == missing);
    b.finish("L-1", 54, "43.2kg");
    const auto refusal = b.refused(Bakery::packed("P-1", "L-1", 54, "A1"));
    CHECK(refusal.given.find("missing: core of L-1") != std::string::npos);
    CHECK(refusal.next.find("disposition") != std::string::npos);
    CHECK(b.refused(Bakery::out("own-shop", "L-1", 10)).given.find("missing: core") != std::string::npos);
    b.did(disposition(b.finding("L-1", "core"), "release"));
    b.did(Bakery::packed("P-1", "L-1", 54, "A1"));
    b.end_of_run();
    b.did(Bakery::out("customer", "P-1", 20, "CAFE"));
    CHECK(b.finding("L-1", "core").verdict == missing);  // the decision stands beside the finding and does not change it
    CHECK(b.faults() == "");
}

TEST_CASE("rule 16: a critical deviation holds the batch by itself; release waits for the disposition") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    b.pass(minutes(35));
    b.did(Bakery::reading("L-1", "core", "91C"));
    const auto step = b.step("L-1", "bake");
    b.finish("L-1", 54, "43.2kg");
    CHECK(b.finding("L-1", "core").verdict == deviation);
    CHECK(b.held("L-1"));
    CHECK(b.refused(Bakery::packed("P-1", "L-1", 54, "A1")).given.find("on hold") != std::string::npos);
    CHECK(b.refused(record::Released{{"L-1"}, "looks fine"}).given.find("deviation: core") != std::string::npos);
    b.did(disposition(b.finding("L-1", "core"), "release"));
    b.did(record::Released{{"L-1"}, "decided in writing"});
    b.did(Bakery::packed("P-1", "L-1", 54, "A1"));
    CHECK_FALSE(b.held("P-1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 15: what had already been packed and shipped is recorded, held, and says who has it") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    b.pass(minutes(35));
    b.step("L-1", "bake");
    b.finish("L-1", 54, "43.2kg");
    auto done = b.draft(Bakery::packed("P-1", "L-1", 54, "A1"));
    done.already_done = true;
    CHECK(b.refused(done).wanted.find("why") != std::string::npos);
    done.why = "the packer did not wait";
    const auto packed = b.did(done);
    CHECK(packed.judged_bad());
    CHECK(b.finding("P-1", "already-done").verdict == deviation);
    CHECK(b.held("P-1"));
    CHECK(b.refused(Bakery::out("customer", "P-1", 20, "CAFE")).given.find("on hold") != std::string::npos);
    const auto shipped = b.already_done(Bakery::out("customer", "P-1", 20, "CAFE"), "the van had left");
    REQUIRE_FALSE(shipped.holds.empty());
    CHECK(names(shipped.holds.front().customers, "CAFE: 20 pieces of P-1, printed code A1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 16: a reading amended to a deviation after shipping holds what is here, names who has the rest") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    b.pass(minutes(35));
    const auto read = b.did(Bakery::reading("L-1", "core", "96C"));
    b.step("L-1", "bake");
    b.finish("L-1", 54, "43.2kg");
    b.did(Bakery::packed("P-1", "L-1", 54, "A1"));
    b.end_of_run();
    b.did(Bakery::out("customer", "P-1", 54, "CAFE"));
    const auto receipt = b.amended(read.seq, Bakery::reading("L-1", "core", "86C"));
    REQUIRE(receipt.holds.size() == 1);
    CHECK(names(receipt.holds.front().lots, "L-1"));
    CHECK(names(receipt.holds.front().customers, "CAFE: 54 pieces of P-1"));
    CHECK(receipt.judged_bad());
    CHECK(b.faults() == "");
}

TEST_CASE("rule 12: a failed device check lists and holds every lot since the last good check of that device") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    b.receive("MILK-1", "milk", "100kg");
    packed_loaf(b, "L-0", "A0");
    b.pass(minutes(10));
    b.did(Bakery::metal(true));  // what was packed before this good check is not in doubt
    b.pass(minutes(10));
    packed_loaf(b, "L-1", "A1");
    b.already_done(Bakery::out("customer", "L-1-P", 54, "CAFE"), "the van did not wait");  // packed and gone
    packed_loaf(b, "L-2", "A2");                                                           // packed, in the house
    b.bun("B-1", "WF-1", "MILK-1");                                                        // another line
    b.start("L-3", "loaf");                                                                // on its way
    b.pass(minutes(10));
    const auto failed = b.did(Bakery::metal(false));
    REQUIRE(failed.holds.size() == 1);
    const auto& hold = failed.holds.front();
    for (const std::string code : {"L-1", "L-2", "L-2-P", "L-3"}) {
        INFO(code);
        CHECK(names(hold.lots, code));
        CHECK(b.held(code));
    }
    CHECK(names(hold.customers, "CAFE: 54 pieces of L-1-P, printed code A1"));
    CHECK_FALSE(b.held("L-0"));
    CHECK_FALSE(b.held("L-0-P"));
    CHECK_FALSE(b.held("B-1"));
    CHECK(b.faults() == "");
}

TEST_CASE(
    "rule 12: a missed stretch is not a good check, and a failed one between two bad ones does not stop the "
    "search") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    packed_loaf(b, "L-1", "A1");  // no check was ever good before it
    b.did(Bakery::metal(false));
    CHECK(b.held("L-1-P"));
    b.pass(minutes(30));
    const auto again = b.did(Bakery::metal(false));
    REQUIRE(again.holds.size() == 1);
    CHECK(names(again.holds.front().lots, "L-1-P"));
}

TEST_CASE("rule 12: what passed after the failed check and before the next good one is in doubt too") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    b.did(Bakery::metal(true));
    b.pass(minutes(10));
    b.did(Bakery::metal(false));
    b.pass(minutes(10));
    b.loaf("L-1", "WF-1");
    b.pass(minutes(10));
    const auto refusal = b.refused(Bakery::packed("P-1", "L-1", 54, "A1"));
    CHECK(refusal.given.find("metal") != std::string::npos);
    const auto done = b.already_done(Bakery::packed("P-1", "L-1", 20, "A1"), "packed before anybody looked");
    CHECK(b.held("P-1"));
    b.pass(minutes(10));
    b.did(Bakery::metal(true));  // repaired
    b.pass(minutes(10));
    b.loaf("L-2", "WF-1");
    b.did(Bakery::packed("P-2", "L-2", 54, "A2"));
    CHECK_FALSE(b.held("P-2"));
    CHECK(done.judged_bad());
    CHECK(b.faults() == "");
}

TEST_CASE("rule 12: a bad check written down late reaches up to the next good one") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    b.did(Bakery::metal(true));
    b.pass(minutes(60));
    const std::string bad = "06:00";
    b.set("06:30");
    packed_loaf(b, "L-1", "A1");
    b.pass(minutes(10));
    b.did(Bakery::metal(true));
    b.pass(minutes(10));
    packed_loaf(b, "L-2", "A2");
    const auto late = b.did_at(Bakery::metal(false), bad);
    CHECK(late.late);
    CHECK(b.held("L-1-P"));
    CHECK_FALSE(b.held("L-2-P"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 13: a batch belongs to the production day and week of its start") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    b.set("2026-11-23 02:59");  // Monday, before the day begins at 03:00: still Sunday of week 47 (ISO 8601)
    b.start("L-1", "loaf");
    b.set("2026-11-23 03:00");
    b.start("L-2", "loaf");
    b.did(Bakery::reading("L-1", "core", "96C"));  // read in week 48, of a batch of week 47
    CHECK(b.lot("L-1").day == to_days({2026, 11, 22}));
    CHECK(b.lot("L-1").week == 202647);
    CHECK(b.lot("L-2").day == to_days({2026, 11, 23}));
    CHECK(b.lot("L-2").week == 202648);
    CHECK(b.finding("L-1", "core").week == 202647);
    record::Started unnamed;
    unnamed.product = "loaf";
    CHECK(b.did(unnamed).code == "L-261123-1");  // the code tells the production day
    CHECK(b.did_at(unnamed, "2026-11-23 01:00").code == "L-261122-1");
}

TEST_CASE("rule 18: a correction reopens a review, and the review stays") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    b.start("L-1", "loaf");
    const auto read = b.did(Bakery::reading("L-1", "core", "96C"));
    b.step("L-1", "bake");
    b.did(record::Reviewed{"L-1", "", "all in order"});
    b.did(record::Reviewed{"2026-W47", "", ""});
    CHECK(b.ask("SELECT what FROM review WHERE reopened_by IS NULL ORDER BY what") == std::vector<std::string>{"2026-W47", "L-1"});
    const auto amended = b.amended(read.seq, Bakery::reading("L-1", "core", "95C"));
    const std::string by = std::to_string(amended.seq);
    CHECK(b.ask("SELECT what, reopened_by FROM review ORDER BY what") == std::vector<std::string>{"2026-W47 " + by, "L-1 " + by});
    b.did(record::Reviewed{"L-1", "", "again"});
    CHECK(b.ask("SELECT what FROM review WHERE reopened_by IS NULL") == std::vector<std::string>{"L-1"});
    CHECK(b.faults() == "");
}

TEST_CASE("rule 18: what is written late into a reviewed batch reopens the review as well") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    b.start("L-1", "loaf");
    b.pass(minutes(30));
    b.step("L-1", "bake");
    b.did(record::Reviewed{"L-1", "", ""});
    b.did(record::Reviewed{"2026-W47", "", ""});
    b.pass(minutes(10));
    b.finish("L-1", 54, "43.2kg");  // what happens afterwards leaves a review as it is
    CHECK(b.ask("SELECT count(*) FROM review WHERE reopened_by IS NULL").front() == "2");
    b.did_at(Bakery::reading("L-1", "core", "96C"), "05:20");
    CHECK(b.ask("SELECT what FROM review WHERE reopened_by IS NULL").empty());
    CHECK(b.faults() == "");
}

TEST_CASE("rule 9: a void never clears a finding; an amendment clears it and is named") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    b.start("L-1", "loaf");
    const auto bad = b.did(Bakery::reading("L-1", "core", "69C"));
    b.step("L-1", "bake");
    CHECK(b.finding("L-1", "core").verdict == deviation);
    SECTION("voided") {
        const auto voided = b.site->void_entry(bad.seq, "MK", "wrong batch");
        REQUIRE(voided.ok());
        const auto kept = b.finding("L-1", "core");
        CHECK(kept.verdict == deviation);
        CHECK(kept.waits == 1);  // for the void
        CHECK_FALSE(kept.cleared_by.has_value());
        b.did(Bakery::reading("L-1", "core", "96C"));  // nor does a good reading afterwards
        CHECK(b.finding("L-1", "core").verdict == deviation);
    }
    SECTION("amended") {
        const auto amended = b.amended(bad.seq, Bakery::reading("L-1", "core", "96C"), "69 for 96");
        CHECK(b.finding("L-1", "core").verdict == deviation);  // rule 59: both values count
        const auto countersigned = b.countersigned(amended.seq);
        const auto cleared = b.finding("L-1", "core");
        CHECK(cleared.verdict == within);
        CHECK(cleared.raised == deviation);
        CHECK(cleared.cleared_by == countersigned.seq);
        CHECK(b.held("L-1"));  // only a person lets the batch go
        b.finish("L-1", 54, "43.2kg");
        CHECK(b.refused(Bakery::packed("P-1", "L-1", 54, "A1")).given.find("on hold") != std::string::npos);
        b.did(record::Released{{"L-1"}, "the slip of the pen was seen by two"});
        b.did(Bakery::packed("P-1", "L-1", 54, "A1"));
    }
    CHECK(b.faults() == "");
}

TEST_CASE("an entry that others build on is not voided, and the refusal lists them") {
    Bakery b;
    const auto flour = b.receive("WF-1", "wheat-flour", "900kg");
    const auto started = b.start("L-1", "loaf");
    const auto used = b.use("L-1", "WF-1", "30kg");
    const auto before = b.state();
    const auto no = b.site->void_entry(flour.seq, "MK", "typed twice");
    REQUIRE_FALSE(no.ok());
    CHECK(no.refusal().next.find(std::to_string(used.seq) + " used") != std::string::npos);
    REQUIRE_FALSE(b.site->void_entry(started.seq, "MK", "typed twice").ok());
    CHECK(b.state() == before);
    REQUIRE(b.site->void_entry(used.seq, "MK", "typed twice").ok());
    REQUIRE(b.site->void_entry(started.seq, "MK", "typed twice").ok());
    REQUIRE(b.site->void_entry(flour.seq, "MK", "typed twice").ok());
    CHECK_FALSE(b.site->lot("WF-1").ok());
    CHECK(b.faults() == "");
}

TEST_CASE("a finish that racks or packs were taken from is not voided") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    b.did(Bakery::reading("L-1", "core", "96C"));
    b.step("L-1", "bake");
    const auto finish = b.finish("L-1", 54, "43.2kg");
    b.did(Bakery::packed("P-1", "L-1", 54, "A1"));
    const auto before = b.state();
    CHECK_FALSE(b.site->void_entry(finish.seq, "MK", "typed twice").ok());
    CHECK(b.state() == before);
}

TEST_CASE("an amendment after which less than nothing is left is refused") {
    Bakery b;
    const auto flour = b.receive("WF-1", "wheat-flour", "100kg");
    b.start("L-1", "loaf");
    const auto used = b.use("L-1", "WF-1", "30kg");
    const auto before = b.state();
    record::Received less;
    less.lot = "WF-1";
    less.material = "wheat-flour";
    less.supplier = "MILL";
    less.supplier_lot = "S-1";
    less.mass = measure("29kg");
    less.allergens = {true, {"wheat"}, {}};
    const auto no = b.site->amend(flour.seq, less, {}, "MK", "the note said 29");
    REQUIRE_FALSE(no.ok());
    CHECK(no.refusal().given.find("WF-1") != std::string::npos);
    REQUIRE_FALSE(b.site->amend(used.seq, Bakery::used("L-1", "WF-1", "101kg"), {}, "MK", "weighed again").ok());
    CHECK(b.state() == before);
    less.mass = measure("30kg");
    REQUIRE(b.site->amend(flour.seq, less, {}, "MK", "the note said 30").ok());
    CHECK(b.faults() == "");
}
