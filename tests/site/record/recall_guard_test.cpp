// While a recall is open: all that it covers, or would, and is here, is held; it leaves only as waste, a sample or back to the supplier.
// A narrowing falls with its grounds. What is wanted follows from rules 39 and 40 of the trade (common practice) and was written
// before the code.
#include <algorithm>

#include "site/bakery.h"

namespace peelbook::site::testing {
namespace {

using Words = std::vector<std::string>;

struct Guarded : Bakery {
    std::string recall;

    Guarded() {
        receive("WF-1", "wheat-flour", "100kg", "W-44 71");
        receive("WF-2", "wheat-flour", "300kg", "W-9");
        did(metal(true));
    }
    record::RecallOpened opening(const Words& lots) const {
        record::RecallOpened r;
        r.lots = lots;
        r.hazard = "stones";
        r.why = "the miller called";
        return r;
    }
    void open(const record::RecallOpened& r) {
        did(r);
        recall = site->recalls().front().code;
        pass(minutes(1));
    }
    void open(const Words& lots) { open(opening(lots)); }
    RecallView view() const {
        auto found = site->recall(recall);
        REQUIRE(found.ok());
        return *found;
    }
    Words covered() const {  // "P-1?" possible, "L-1 left out"
        Words out;
        for (const auto& line : view().lots) {
            const bool left_out = line.state == RecallLotState::left_out;
            out.push_back(line.lot.code + (left_out ? " left out" : "") + (line.certain ? "" : "?"));
        }
        std::sort(out.begin(), out.end());
        return out;
    }
    bool covers(const std::string& code) const {
        const auto all = covered();
        return std::find(all.begin(), all.end(), code) != all.end() || std::find(all.begin(), all.end(), code + "?") != all.end();
    }
    Receipt narrow(const Words& lots, const std::string& why = "weigh sheet and bag agree") {
        return did(record::RecallDecided{recall, "", "", "stones", lots, why});
    }
    Receipt release(const std::string& lot) { return did(record::Released{{lot}, "left out of the recall"}); }
    Receipt widen(const Words& lots) { return did(record::RecallWidened{recall, {}, lots, "the miller named it too", 0}); }
    // The whole gate in one question: whoever asks to send it on is refused, naming the recall.
    void check_kept(const std::string& lot) {
        INFO(lot);
        CHECK(held(lot));
        const bool goods = Bakery::lot(lot).made_pieces.has_value();
        auto way = out("customer", lot, goods ? 1 : 0, "CAFE");
        if (!goods) way.mass = measure("1kg");
        CHECK(refused(way).given == "shipping " + lot + ", covered by " + recall + ": stones");
        CHECK(refused(record::Released{{lot}, "looked at"}).given == "a release of " + lot + ", covered by " + recall + ": stones");
    }
};

}  // namespace

TEST_CASE("rule 61: the recalled lot comes again with the next truck: covered and held at the door, however its code is written") {
    Guarded b;
    auto opening = b.opening({"MILL:W-44 71"});
    opening.material = "wheat-flour";
    b.open(opening);
    const auto again = b.receive("WF-3", "wheat-flour", "50kg", "w4471");
    CHECK(again.holds.size() == 1);
    CHECK(again.next.front() == b.recall + " now covers WF-3");
    b.check_kept("WF-3");
    CHECK(b.covered() == Words{"WF-1", "WF-3"});
    b.start("L-1", "loaf");
    CHECK(b.refused(Bakery::used("L-1", "WF-3", "30kg")).given == "use of WF-3, covered by " + b.recall + ": stones");
    b.receive("WF-4", "wheat-flour", "50kg", "W-4472");
    b.receive("RF-1", "rye-flour", "50kg", "W-44 71");  // another material of theirs may have the same number
    CHECK_FALSE(b.held("WF-4"));
    CHECK_FALSE(b.held("RF-1"));
    b.did(record::PartnerAdded{"SHOPKEEPER", "Shopkeeper", {"supplier"}, "", "", "", ""});
    record::Received sold_on;
    sold_on.lot = "WF-7";
    sold_on.material = "wheat-flour";
    sold_on.supplier = "SHOPKEEPER";
    sold_on.supplier_lot = "W-44 71";
    sold_on.mass = measure("50kg");
    CHECK(b.did(sold_on).next.front() == b.recall + " covers lot W-44 71 of MILL: if this is the same, sold on by another, take it in: " +
                                             "peelbook recall widen " + b.recall + " WF-7");
    b.did(record::RecallClosed{b.recall, "nothing was baked of it", 0, 0, 0, 0, 0, 0});
    CHECK(b.held("WF-3"));  // until somebody looks at it
    const auto after = b.receive("WF-5", "wheat-flour", "50kg", "W-44 71");
    CHECK(after.holds.empty());
    CHECK(std::find(after.next.begin(), after.next.end(), "it was recalled by " + b.recall + ": stones. Hold it, or open that anew") !=
          after.next.end());
    CHECK(b.faults() == "");
}

TEST_CASE("rule 19: while a recall is open one's own slip is taken back without anybody else, unless the recall covers what it is about") {
    Guarded b;
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "1kg");
    b.open(Words{"WF-1"});
    b.receive("SALT-9", "salt", "5kg");
    CHECK(b.site->undo("MK").ok());
    b.step("L-1", "mix");
    const auto refused = b.site->undo("MK");
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.refusal().wanted == "a second person: someone may already have acted on what was recorded");
}

TEST_CASE("rule 61: a recall of one of our codes takes the same supplier's lot under another of our codes too") {
    Guarded b;
    b.receive("WF-3", "wheat-flour", "50kg", "W-4471");
    b.open(Words{"WF-1"});
    CHECK(b.covered() == Words{"WF-1", "WF-3"});
    b.check_kept("WF-3");
    b.receive("WF-4", "wheat-flour", "50kg", "w 9");
    CHECK(b.widen({"WF-2"}).holds.size() == 1);  // and so does whoever takes one in later
    CHECK(b.covered() == Words{"WF-1", "WF-2", "WF-3", "WF-4"});
    b.check_kept("WF-4");
}

TEST_CASE("rule 61: covered goods do not get out by a count, by product, or under a printed code that is recalled") {
    Guarded b;
    b.loaf("L-1", "WF-1");
    b.loaf("L-2", "WF-2");
    b.did(Bakery::packed("P-1", "L-1", 40, "K1"));
    b.did(Bakery::packed("P-2", "L-2", 10, "K2"));
    b.end_of_run();
    b.did(Bakery::out("customer", "P-1", 40, "CAFE"));
    b.open(Words{"WF-1"});
    CHECK_FALSE(b.held("P-1"));  // nothing of it is here
    record::Counted found{"P-1", 3, {}, "behind the rack"};
    b.did(found);
    b.check_kept("P-1");
    auto any = Bakery::out("customer", "", 11, "CAFE");
    any.product = "loaf";
    CHECK(b.refused(any).given.find("more by product than stands free: 10 pieces; not shipping P-1, covered by " + b.recall) == 0);
    b.did(Bakery::packed("P-3", "L-2", 10, "K1"));  // nobody can tell it from P-1
    b.check_kept("P-3");
    CHECK(b.covered() == Words{"L-1", "P-1", "P-3?", "WF-1"});
    const auto waste = Bakery::out("waste", "P-1", 3);
    auto thrown = b.draft(waste);
    thrown.why = "recalled";
    b.did(thrown);
    CHECK(b.faults() == "");
}

TEST_CASE("rule 59: what left all the same is not moved to another lot by an amendment") {
    Guarded b;
    b.loaf("L-1", "WF-1");
    b.loaf("L-2", "WF-2");
    b.did(Bakery::packed("P-1", "L-1", 40, "K1"));
    b.did(Bakery::packed("P-2", "L-2", 40, "K2"));
    b.end_of_run();
    b.open(Words{"WF-1"});
    const auto left = b.already_done(Bakery::out("customer", "P-1", 5, "CAFE"), "gone before the call");
    auto other = Bakery::out("customer", "P-2", 5, "CAFE");
    other.already_done = true;
    other.why = "gone before the call";
    const auto amended = b.site->amend(left.seq, other, {}, "QA", "it was the other rack");
    REQUIRE_FALSE(amended.ok());
    CHECK(amended.refusal().given == "another lot in place of P-1, of which it is recorded that it was done although the book refuses it");
    CHECK(b.finding("P-1", "already-done").verdict == Verdict::deviation);
}

TEST_CASE("rule 25: what left by product and is known by now left the one lot, and no other") {
    Guarded b;
    b.loaf("L-1", "WF-2");
    b.did(Bakery::packed("P-1", "L-1", 20, "K1"));
    b.did(Bakery::packed("P-2", "L-1", 20, "K2"));
    b.end_of_run();
    auto any = Bakery::out("customer", "", 5, "CAFE");
    any.product = "loaf";
    const auto left = b.did(any).seq;
    const std::string moves = "SELECT code, pieces, sure FROM move JOIN lot ON lot.id = move.lot ORDER BY code";
    CHECK(b.ask(moves) == Words{"P-1  0", "P-2  0"});
    auto known = std::get<record::MovedOut>(std::get<record::Statement>(b.site->entry(left)->payload));
    known.lot = "P-2";
    b.amended(left, known, "the crate label says so");
    CHECK(b.ask(moves) == Words{"P-2 5 1"});
    CHECK(b.ask("SELECT on_hand_pieces FROM stock JOIN lot ON lot.id = stock.lot WHERE code LIKE 'P-%' ORDER BY code") ==
          Words{"20", "15"});
    CHECK(b.faults() == "");
}

TEST_CASE("rule 61: a covered batch whose finish is corrected to be another's is here again, and held") {
    Guarded b;
    b.start("L-2", "loaf");
    b.start("L-1", "loaf");  // nobody wrote down its flour
    b.use("L-1", "water", "18kg");
    b.use("L-1", "SALT-1", "600g");
    b.step("L-1", "mix");
    b.pass(minutes(30));
    b.did(Bakery::reading("L-1", "core", "96C"));
    b.step("L-1", "bake");
    const auto finish = b.finish("L-1", 54, "43.2kg").seq;
    b.did(Bakery::packed("P-1", "L-1", 54, "K1"));
    b.end_of_run();
    b.open(Words{"WF-1"});
    CHECK(b.covered() == Words{"L-1?", "P-1?", "WF-1"});
    CHECK_FALSE(b.held("L-1"));  // all of it is in P-1
    auto finished = std::get<record::Finished>(std::get<record::Statement>(b.site->entry(finish)->payload));
    finished.lot = "L-2";
    b.amended(finish, finished, "it was the other dough");
    CHECK(b.held("L-1"));
}

TEST_CASE("rule 61: what came back of recalled goods is no feed; other returns may be") {
    Guarded b;
    b.loaf("L-1", "WF-1");
    b.loaf("L-2", "WF-2");
    b.did(Bakery::packed("P-1", "L-1", 40, "K1"));
    b.did(Bakery::packed("P-2", "L-2", 40, "K2"));
    b.end_of_run();
    for (const std::string lot : {"P-1", "P-2"}) {
        b.did(Bakery::out("customer", lot, 20, "CAFE"));
        record::Returned back;
        back.lot = lot;
        back.partner = "CAFE";
        back.pieces = 6;
        b.did(back);
    }
    b.open(Words{"WF-1"});
    CHECK(b.held("P-1"));
    auto feed = Bakery::out("animal-feed", "P-1", 6, "CAFE");
    feed.of_returned = true;
    CHECK(b.refused(feed).given == "shipping P-1, covered by " + b.recall + ": stones");
    feed.lot = "P-2";
    b.did(feed);
}

TEST_CASE("rule 61: clean flour is not filled onto what is held or recalled; an emptying that somebody looked into makes room") {
    Guarded b;
    record::Filled fill;
    fill.vessel = "silo";
    fill.lot = "WF-1";
    fill.mass = measure("50kg");
    const auto blend = b.did(fill).code;
    b.pass(minutes(10));
    b.open(Words{"WF-1"});
    b.check_kept(blend);
    fill.lot = "WF-2";
    CHECK(b.refused(fill).given == "a fill onto " + blend + ", covered by " + b.recall + ": stones");
    b.did(record::RecallClosed{b.recall, "sent back", 0, 0, 0, 0, 0, 0});
    CHECK(b.refused(fill).given == "a fill onto " + blend + ", on hold: " + b.recall + ": stones");
    b.did(record::Emptied{"silo", true, "swept"});
    b.pass(minutes(10));
    CHECK_FALSE(b.held(b.did(fill).code));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 61: nor onto it in a vessel from which what was filled first leaves first") {
    Guarded b;
    record::Filled fill;
    fill.vessel = "tower";
    fill.lot = "WF-1";
    fill.mass = measure("50kg");
    const auto below = b.did(fill).code;
    b.pass(minutes(10));
    b.open(Words{"WF-1"});
    fill.lot = "WF-2";
    CHECK(b.refused(fill).given == "a fill onto " + below + ", covered by " + b.recall + ": stones");
    b.did(record::Emptied{"tower", true, "swept"});
    b.pass(minutes(10));
    CHECK_FALSE(b.held(b.did(fill).code));
}

TEST_CASE("rule 62: a narrowing falls when the lot is surely one of them, holds again and stays in the reconciliation meanwhile") {
    Guarded b;
    b.loaf("L-1", "WF-2");
    auto possible = Bakery::used("L-1", "WF-1", "1kg");
    possible.possible = true;
    auto late = b.draft(possible);
    late.happened = b.clock.now() - minutes(20);
    const auto use = b.did(late);
    b.open(Words{"WF-1"});
    CHECK(b.covered() == Words{"L-1?", "WF-1"});
    b.narrow({"L-1"});
    CHECK(b.covered() == Words{"L-1 left out?", "WF-1"});
    b.release("L-1");
    CHECK_FALSE(b.held("L-1"));
    CHECK(b.view().reconciliation.goods.pieces.made == 54);  // left out, and counted
    b.pass(minutes(5));
    b.did(Bakery::packed("P-1", "L-1", 20, "K1"));  // it rests on the same decision
    b.end_of_run();
    CHECK(b.covered() == Words{"L-1 left out?", "WF-1"});
    b.did(Bakery::out("customer", "P-1", 5, "CAFE"));
    auto sure = possible;
    sure.possible = false;
    const auto amended = b.amended(use.seq, sure, "it was in it");
    b.countersign_if_it_waits(amended.seq);
    CHECK(b.covered() == Words{"L-1", "P-1", "WF-1"});
    b.check_kept("L-1");
    b.check_kept("P-1");
    CHECK(b.view().partners.size() == 1);
    CHECK(b.ask("SELECT count(*) FROM recall_out WHERE ended_by IS NOT NULL") == Words{"1"});
    b.narrow({"L-1", "P-1"}, "sieved at 1 mm");  // anew, on what is known now
    CHECK(b.covered() == Words{"L-1 left out", "P-1 left out", "WF-1"});
    CHECK(b.faults() == "");
}

TEST_CASE("a narrowing falls too when what its lot was made of is surely one of them") {
    Guarded b;
    b.loaf("L-1", "WF-2");
    auto possible = Bakery::used("L-1", "WF-1", "1kg");
    possible.possible = true;
    auto late = b.draft(possible);
    late.happened = b.clock.now() - minutes(20);
    const auto use = b.did(late);
    b.did(Bakery::packed("P-1", "L-1", 20, "K1"));
    b.end_of_run();
    b.open(Words{"WF-1"});
    b.narrow({"P-1"});
    b.release("P-1");
    CHECK(b.covered() == Words{"L-1?", "P-1 left out?", "WF-1"});
    auto sure = possible;
    sure.possible = false;
    b.countersign_if_it_waits(b.amended(use.seq, sure, "it was in it").seq);
    CHECK(b.covered() == Words{"L-1", "P-1", "WF-1"});
    b.check_kept("P-1");
    CHECK(b.faults() == "");
}

TEST_CASE("what comes in the time of a recall brings in the same supplier's lot that had come before") {
    Guarded b;
    b.receive("WF-3", "wheat-flour", "50kg", "W-77");
    b.pass(minutes(60));
    record::RecallOpened of_supplier = b.opening({});
    of_supplier.material = "wheat-flour";
    of_supplier.supplier = "MILL";
    of_supplier.from = b.clock.now();
    b.receive("WF-4", "wheat-flour", "50kg", "W-5");
    b.open(of_supplier);
    CHECK(b.covered() == Words{"WF-4"});
    b.receive("WF-5", "wheat-flour", "50kg", "w 77");
    CHECK(b.covered() == Words{"WF-3", "WF-4", "WF-5"});
    b.check_kept("WF-3");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 62: a lot is left out about the hazard of the recall, and no other") {
    Guarded b;
    b.loaf("L-1", "WF-1");
    b.open(Words{"WF-1"});
    const auto refusal = b.refused(record::RecallDecided{b.recall, "", "", "colour", {"L-1"}, "it looks fine"});
    CHECK(refusal.given == "lots left out of " + b.recall + " about the hazard 'colour'");
    CHECK(refusal.wanted == "the hazard that it is about: stones");
    CHECK(refusal.next == "if another one is known by now, state it first: peelbook recall decide " + b.recall + " --hazard ... --why ...");
    b.check_kept("L-1");
    b.did(record::RecallDecided{b.recall, "", "", "Stones", {"L-1"}, "sieved"});
    CHECK_FALSE(b.refused(record::Released{{"WF-1"}, "looked at"}).given.empty());
    CHECK(b.covered() == Words{"L-1 left out", "WF-1"});
}

TEST_CASE("rule 61: a pack whose code is corrected to that of others covers these too: nobody can tell them apart") {
    Guarded b;
    b.loaf("L-1", "WF-1");
    b.loaf("L-2", "WF-2");
    const auto packed = b.did(Bakery::packed("P-1", "L-1", 40, "K1")).seq;
    b.did(Bakery::packed("P-2", "L-2", 10, "K2"));
    b.end_of_run();
    b.open(Words{"WF-1"});
    CHECK_FALSE(b.held("P-2"));
    b.amended(packed, Bakery::packed("P-1", "L-1", 40, "K2"), "read from the pack again");
    b.check_kept("P-2");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 61: what a batch made of a lot that was left out lacks of another recalled lot is asked for all the same") {
    Guarded b;
    b.open(Words{"WF-1", "SALT-1"});
    b.narrow({"WF-1"});
    b.release("WF-1");
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    b.use("L-1", "water", "18kg");
    b.step("L-1", "mix");
    b.pass(minutes(30));
    b.did(Bakery::reading("L-1", "core", "96C"));
    b.step("L-1", "bake");
    CHECK_FALSE(b.covers("L-1"));
    b.finish("L-1", 54, "43.2kg");  // nobody wrote down its salt
    CHECK(b.covers("L-1"));
    b.check_kept("L-1");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 62: a narrowing falls when more of what is recalled went in, and with another hazard") {
    Guarded b;
    b.receive("WF-3", "wheat-flour", "50kg", "W-4471");
    b.loaf("L-1", "WF-2");
    auto late = b.draft(Bakery::used("L-1", "WF-1", "1kg"));
    late.happened = b.clock.now() - minutes(20);
    b.did(late);
    b.open(Words{"WF-1"});
    b.narrow({"L-1"}, "a kilogram, sieved");
    b.release("L-1");
    auto more = b.draft(Bakery::used("L-1", "WF-3", "2kg"));
    more.happened = b.clock.now() - minutes(20);
    more.already_done = true;
    more.why = "forgotten";
    b.did(more);
    CHECK(b.covered() == Words{"L-1", "WF-1", "WF-3"});
    b.check_kept("L-1");
    b.narrow({"L-1"}, "three kilograms, sieved");
    CHECK(b.covers("L-1 left out"));
    b.did(record::RecallDecided{b.recall, "", "", "ergot", {}, "the laboratory says so"});
    CHECK(b.covered() == Words{"L-1", "WF-1", "WF-3"});
    CHECK(b.refused(Bakery::out("customer", "L-1", 1, "CAFE")).given == "shipping L-1, covered by " + b.recall + ": ergot");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 62: recall widen takes back in what was left out, and in what the miller names later, with all that was made of it") {
    Guarded b;
    b.loaf("L-1", "WF-1");
    b.loaf("L-2", "WF-2");
    b.open(Words{"WF-1"});
    b.narrow({"L-1"});
    b.release("L-1");
    CHECK(b.widen({"L-1"}).holds.size() == 1);
    b.check_kept("L-1");
    CHECK(b.refused(record::RecallWidened{b.recall, {}, {"L-1"}, "again", 0}).given == "L-1, which " + b.recall + " covers already");
    CHECK(b.refused(record::RecallWidened{b.recall, {}, {"L-2"}, "", 0}).given == "a recall widened without a reason");
    b.widen({"MILL:W-9"});
    CHECK(b.covered() == Words{"L-1", "L-2", "WF-1", "WF-2"});
    b.check_kept("L-2");
    b.check_kept("WF-2");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 63: a recall means by a time what a trace means by it") {
    Guarded b;
    b.loaf("L-1", "WF-1");
    const auto between = b.clock.now();
    b.pass(minutes(60));
    b.loaf("L-2", "WF-1");
    auto by_water = b.opening({"water"});
    by_water.from = between;
    b.open(by_water);
    auto of_trace = b.site->trace_forward("water", "", {between, {}});
    REQUIRE(of_trace.ok());
    CHECK(b.view().lots.size() == of_trace->reached.size());
    CHECK(b.covers("L-2"));
    CHECK_FALSE(b.covers("L-1"));
    b.check_kept("L-2");
    b.loaf("L-3", "WF-2");  // the notice has no end yet
    b.check_kept("L-3");

    auto by_flour = b.opening({"MILL:W-44 71"});
    by_flour.drill = true;
    by_flour.until = between;
    b.open(by_flour);
    CHECK(b.covers("L-1"));
    CHECK_FALSE(b.covers("L-2"));
    auto supply = b.opening({});
    supply.drill = true;
    supply.material = "water";
    supply.until = between;
    b.open(supply);
    CHECK(b.covers("L-1"));
    CHECK_FALSE(b.covers("L-2"));
    supply.until = between - hours(24 * 30);
    CHECK(b.refused(supply).given == "a recall of what was taken in a time in which nothing was");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 63: a recall of what a supplier brought between two dates takes in what they bring until then") {
    Guarded b;
    b.pass(minutes(10));
    auto theirs = b.opening({});
    theirs.supplier = "MILL";
    theirs.until = b.clock.now() + hours(24);
    b.open(theirs);
    CHECK(b.covers("WF-1"));
    CHECK(b.covers("WF-2"));
    b.receive("SES-1", "sesame", "5kg", "Q-1");
    b.check_kept("SES-1");
    b.pass(hours(25));
    CHECK(b.receive("SES-2", "sesame", "5kg", "Q-2").holds.empty());
    auto nobody = b.opening({});
    nobody.supplier = "CAFE";
    CHECK(b.refused(nobody).given == "no lot of CAFE in that time");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 61: a recalled delivery is not voided away, and a batch with a missing use of it is held when it is finished") {
    Guarded b;
    const auto again = b.receive("WF-3", "wheat-flour", "50kg", "W-4471");
    b.start("L-1", "loaf");
    b.use("L-1", "water", "18kg");
    b.use("L-1", "SALT-1", "600g");
    b.open(Words{"WF-1"});
    auto away = b.draft(record::Voided{again.seq, "typed twice", false});
    away.by = "QA";
    CHECK(b.refused(away).given == "entry " + std::to_string(again.seq) + ", which later entries build on");
    b.step("L-1", "mix");
    b.pass(minutes(30));
    b.did(Bakery::reading("L-1", "core", "96C"));
    b.step("L-1", "bake");
    CHECK_FALSE(b.covers("L-1"));
    b.finish("L-1", 54, "43.2kg");  // no flour was recorded: any that was in the house may be in it
    CHECK(b.covered() == Words{"L-1?", "WF-1", "WF-3"});
    b.check_kept("L-1");
    CHECK(b.faults() == "");
}

}  // namespace peelbook::site::testing
