// Recalls and drills through the public face. The amounts are worked out by hand: a batch is 54 loaves of 0.8
// kg out of 30 kg of flour, so a pack of 40 loaves is 32 kg. Reconciliation: common practice, made = on hand
// + shipped + rework + waste + samples + not accounted for; shipped = returned + destroyed + consumed + not
// accounted for.
#include "site/ask/recall.h"

#include <map>
#include <random>
#include <set>

#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

// Two batches of flour WF-1, one of WF-2. P-3, of the third, bears the printed code of P-1.
//   P-1 K1: 30 to CAFE, 10 to SHOP     P-2 K2: 20 to CAFE, 20 here     P-3 K1: 10 to SHOP, 10 here
struct Sold : Bakery {
    Seq use_of_second = 0;
    Sold() {
        receive("WF-1", "wheat-flour", "100kg", "W-1");
        receive("WF-2", "wheat-flour", "100kg", "W-2");
        did(metal(true));
        loaf("L-1", "WF-1");
        loaf("L-2", "WF-1");
        use_of_second = ask_seq("SELECT seq FROM use JOIN lot ON lot.id = into_lot WHERE code = 'L-2' ORDER BY seq LIMIT 1");
        loaf("L-3", "WF-2");
        did(packed("P-1", "L-1", 40, "K1"));
        did(packed("P-2", "L-2", 40, "K2"));
        did(packed("P-3", "L-3", 20, "K1"));
        end_of_run();
        did(out("customer", "P-1", 30, "CAFE"));
        did(out("customer", "P-1", 10, "SHOP"));
        did(out("customer", "P-2", 20, "CAFE"));
        did(out("customer", "P-3", 10, "SHOP"));
    }
    Seq ask_seq(const std::string& sql) const { return std::stoll(ask(sql).front()); }

    static record::RecallOpened opening(bool drill = false) {
        record::RecallOpened r;
        r.drill = drill;
        r.lots = {"MILL:W-1"};
        r.hazard = "stones";
        r.why = "the miller called";
        return r;
    }
    std::string open(bool drill = false) {
        const auto receipt = did(opening(drill));
        return view_of(receipt.seq).recall.code;
    }
    RecallView view_of(Seq seq) const {
        for (const auto& one : site->recalls()) {
            if (one.seq == seq) return view(one.code);
        }
        FAIL("no such recall");
        return {};
    }
    RecallView view(const std::string& code) const {
        auto found = site->recall(code);
        INFO((found ? "" : told(found.refusal())));
        REQUIRE(found.ok());
        return *found;
    }
    // "L-1" "P-3?" "L-2 cut off?": code, state where it is not plainly covered, "?" for possible.
    std::vector<std::string> covered(const std::string& code) const {
        std::vector<std::string> out;
        for (const auto& line : view(code).lots) {
            out.push_back(line.lot.code + (line.state == site::RecallLotState::covered ? "" : " " + in_words(line.state)) +
                          (line.certain ? "" : "?"));
        }
        std::sort(out.begin(), out.end());
        return out;
    }
    record::RecallCounted said(const std::string& recall, const std::string& code, const std::string& what, std::int64_t pieces,
                               const std::string& partner) {
        record::RecallCounted c;
        c.recall = recall;
        c.code = code;
        c.what = what;
        c.pieces = pieces;
        c.partner = partner;
        return c;
    }
};

using Words = std::vector<std::string>;

const trace::Account& pieces_of(const RecallView& view, const std::string& code) {
    for (const auto& lot : view.reconciliation.lots) {
        if (lot.code == code && lot.pieces) return *lot.pieces;
    }
    throw std::runtime_error("no pieces of " + code);
}

// Both sums of every lot and of the totals, to the milligram and the piece.
void check_adds_up(const RecallView& view) {
    const auto check = [](const trace::Account& a) {
        CHECK(a.made == a.on_hand + a.shipped + a.moved_on + a.rework + a.waste + a.samples + a.unaccounted());
        CHECK(a.shipped == a.returned + a.destroyed + a.consumed + a.found_there + a.shipped_unaccounted());
    };
    for (const auto& lot : view.reconciliation.lots) {
        INFO(lot.code);
        if (lot.mg) check(*lot.mg);
        if (lot.pieces) check(*lot.pieces);
    }
    for (const auto* total : {&view.reconciliation.all, &view.reconciliation.goods, &view.reconciliation.materials}) {
        check(total->mg);
        check(total->pieces);
    }
}

std::vector<std::string> changes_of(const RecallView& view) {
    std::vector<std::string> out;
    for (const auto& c : view.changes) {
        std::string by;
        for (const auto seq : c.by) by += " " + std::to_string(seq);
        out.push_back(c.what + " " + c.text + " by" + by);
    }
    return out;
}

}  // namespace

TEST_CASE("a recall freezes what is covered and holds all that is here at once") {
    Sold b;
    b.pass(minutes(10));
    auto opening = Sold::opening();
    opening.aware = b.clock.now() - minutes(8);
    const auto receipt = b.did(opening);
    const auto view = b.view_of(receipt.seq);
    CHECK(view.recall.code == "RECALL-261116-1");
    CHECK(b.covered(view.recall.code) == Words{"L-1", "L-2", "P-1", "P-2", "P-3?", "WF-1"});
    for (const auto* held : {"WF-1", "L-1", "L-2", "P-2", "P-3"}) {
        INFO(held);
        CHECK(b.held(held));
    }
    CHECK_FALSE(b.held("L-3"));  // another batch: it only shares its pack's printed code, and what is here is
                                 // told apart by our own
    CHECK_FALSE(b.held("P-1"));  // all of it has left
    CHECK(view.to_hold.empty());
    REQUIRE(receipt.holds.size() == 1);
    CHECK(receipt.holds.front().why == "RECALL-261116-1: stones");
    CHECK(view.changes.empty());
    CHECK(view.timings.at(0).step == "word came");
    CHECK(*view.timings.at(1).done - *view.timings.at(0).done == minutes(8).ms);
    CHECK(b.faults() == "");
}

TEST_CASE("a drill does all of it and holds nothing; its code says that it is one") {
    Sold b;
    const auto code = b.open(true);
    CHECK(code == "DRILL-261116-1");
    CHECK(b.ask("SELECT count(*) FROM hold") == Words{"0"});
    const auto view = b.view(code);
    CHECK(view.stamp() == "DRILL");
    CHECK(view.to_hold == Words{"WF-1", "L-1", "L-2", "P-2", "P-3"});
    b.did(b.said(code, "K2", "found", 20, "CAFE"));
    CHECK(b.ask("SELECT count(*) FROM move WHERE way = 'returned'") == Words{"0"});
    b.did(b.said(code, "K2", "returned", 20, "CAFE"));  // played: nothing moves
    CHECK(b.ask("SELECT count(*) FROM move WHERE way = 'returned'") == Words{"0"});
    CHECK(pieces_of(b.view(code), "P-2").returned == 20);
    CHECK(pieces_of(b.view(code), "P-2").found_there == 0);  // what was found there is what was sent
    CHECK(b.faults() == "");
}

TEST_CASE(
    "rule 36: the printed code is what a customer is told and counts by; batches that share it cannot be "
    "told apart") {
    Sold b;
    const auto code = b.open();
    const auto view = b.view(code);
    Words told;
    for (const auto& d : view.deliveries)
        told.push_back(d.partner + " " + d.printed_code + " " + std::to_string(d.pieces) + (d.certain ? "" : " possible"));
    CHECK(told == Words{"CAFE K1 30", "CAFE K2 20", "SHOP K1 20"});
    // SHOP has 10 of P-1 and 10 of P-3 under one code; 15 are spread over both, those of the first lot first.
    b.did(b.said(code, "K1", "destroyed", 15, "SHOP"));
    CHECK(pieces_of(b.view(code), "P-1").destroyed == 10);
    CHECK(pieces_of(b.view(code), "P-3").destroyed == 5);
    const auto refusal = b.refused(b.said(code, "K22", "destroyed", 1, "SHOP"));
    CHECK(refusal.given == "code 'K22'");
    CHECK(refusal.nearest.front() == "K2");
}

TEST_CASE("rule 45: what was made and what was shipped add up, to the milligram and the piece") {
    Sold b;
    const auto code = b.open();
    const auto before = b.view(code);
    // 54 + 54 loaves of the two batches, 20 of P-3 (its batch is not covered); packs count once.
    CHECK(before.reconciliation.goods.pieces.made == 128);
    CHECK(before.reconciliation.goods.pieces.on_hand == 14 + 14 + 20 + 10);
    CHECK(before.reconciliation.goods.pieces.shipped == 30 + 10 + 20 + 10);
    CHECK(before.reconciliation.goods.mg.made == 128 * 800'000);
    CHECK(before.reconciliation.materials.mg.made == 100'000'000);
    CHECK(before.reconciliation.materials.mg.rework == 60'000'000);
    CHECK(before.missing_pieces() == 70);  // shipped, and no customer has said anything yet
    CHECK(before.placed() == 100'000);
    CHECK(before.found() == 45'312);  // 58 of 128 are 45.3125 %, rounded down
    b.did(b.said(code, "K1", "returned", 20, "CAFE"));
    b.did(b.said(code, "K1", "used", 10, "CAFE"));
    b.did(b.said(code, "K2", "found", 20, "CAFE"));
    b.did(b.said(code, "K1", "destroyed", 20, "SHOP"));
    const auto after = b.view(code);
    check_adds_up(after);
    CHECK(after.missing_pieces() == 0);
    CHECK(after.missing_mg() == 0);
    CHECK(after.found() == 100'000);
    CHECK(b.held("P-1"));  // what came back is held
    CHECK(b.ask("SELECT returned_pieces FROM stock JOIN lot ON lot.id = stock.lot WHERE code = 'P-1'") == Words{"20"});
    for (const auto* whom : {"authority", "public", "supplier"}) b.did(record::RecallTold{code, whom, "", "telephone", ""});
    for (const auto* partner : {"CAFE", "SHOP"}) {
        record::Contacted call;
        call.recall = code;
        call.partner = partner;
        call.reached = true;
        b.did(call);
    }
    b.did(record::RecallClosed{code, "", 0, 0, 0, 0, 0, 0});
    CHECK(b.view(code).stamp() == "");
    CHECK(b.site->recalls().front().found == 100'000);
    CHECK(b.faults() == "");
}

TEST_CASE("closing with something not accounted for wants a reason, and it stands on every page") {
    Sold b;
    const auto code = b.open();
    const auto refusal = b.refused(record::RecallClosed{code, "", 0, 0, 0, 0, 0, 0});
    CHECK(told(refusal) ==
          "RECALL-261116-1 closed with NOT ACCOUNTED FOR: 70 pieces, 56kg; NOT DONE: authority told; NOT DONE: public told; NOT DONE: "
          "supplier told; NOT TOLD: CAFE of K1, K2; NOT TOLD: SHOP of K1 | a reason; it then stands on every page | "
          "do what is left (peelbook recall status RECALL-261116-1), or add --why \"...\"");
    b.did(record::RecallClosed{code, "sold on a market", 0, 0, 0, 0, 0, 0});
    const auto view = b.view(code);
    CHECK(view.stamp() ==
          "NOT ACCOUNTED FOR: 70 pieces, 56kg; NOT DONE: authority told; NOT DONE: public told; NOT DONE: supplier told; NOT TOLD: CAFE of "
          "K1, "
          "K2; NOT TOLD: SHOP of K1 (sold on a market)");
    const auto workbook = b.site->recall_workbook(view);
    REQUIRE(workbook.ok());
    CHECK(workbook->mark.find("NOT ACCOUNTED FOR: 70 pieces, 56kg; and 5 more") == 0);
    for (const auto& sheet : workbook->sheets) CHECK(sheet.note.find(view.stamp() + ". ") == 0);
    CHECK(told(b.refused(b.said(code, "K1", "used", 1, "CAFE"))).find(", closed by entry ") != std::string::npos);
}

TEST_CASE(
    "rule 44: a recall keeps its snapshot and shows what each later entry took away, until quality leaves it "
    "out") {
    Sold b;
    const auto code = b.open();
    const auto before = b.view(code);
    const auto amended = b.amended(b.use_of_second, Bakery::used("L-2", "WF-2", "30kg"), "the bag was WF-2");
    CHECK(b.covered(code) == Words{"L-1", "L-2?", "P-1", "P-2?", "P-3?", "WF-1"});  // possible, until somebody else has said so
    b.countersigned(amended.seq);
    const auto by = std::to_string(amended.seq);
    CHECK(b.covered(code) == Words{"L-1", "L-2 cut off?", "P-1", "P-2 cut off?", "P-3?", "WF-1"});
    const auto view = b.view(code);
    const auto told = changes_of(view);
    CHECK(std::find(told.begin(), told.end(), "removed L-2 by " + by) != told.end());
    CHECK(std::find(told.begin(), told.end(), "removed P-2 by " + by) != told.end());
    CHECK(view.recall.digest == before.recall.digest);
    CHECK(b.ask("SELECT count(*) FROM recall_lot") == Words{"6"});
    check_adds_up(view);
    record::RecallDecided out{code, "", "", "stones", {"L-2", "P-2"}, "weigh sheet and bag label agree: WF-2"};
    b.did(out);
    CHECK(b.covered(code) == Words{"L-1", "L-2 left out?", "P-1", "P-2 left out?", "P-3?", "WF-1"});
    CHECK(b.faults() == "");
}

TEST_CASE("rule 44: what a later entry adds is shown with that entry, and held at once") {
    Sold b;
    const auto code = b.open();
    auto late = b.draft(Bakery::used("L-3", "WF-1", "100g"));
    late.happened = b.clock.now() - minutes(2);  // before it was finished
    late.already_done = true;
    late.why = "dusting flour, forgotten";
    const auto receipt = b.did(late);
    CHECK(b.held("L-3"));
    CHECK(b.covered(code) == Words{"L-1", "L-2", "L-3 added", "P-1", "P-2", "P-3", "WF-1"});
    const auto told = changes_of(b.view(code));
    CHECK(std::find(told.begin(), told.end(), "added L-3 by " + std::to_string(receipt.seq)) != told.end());
    CHECK(b.view(code).to_hold.empty());
    CHECK(b.faults() == "");
}

TEST_CASE("rule 19: while a recall is open a correction needs a second person and tells the old and new reach") {
    Sold b;
    const auto salt = b.receive("SALT-2", "salt", "5kg");  // nothing of it left the house
    b.open(true);
    b.did(record::Voided{b.receive("SALT-3", "salt", "5kg").seq, "typed twice"});  // a drill asks nothing
    const auto code = b.open();
    const auto refusal = b.refused(record::Voided{salt.seq, "typed twice"});
    CHECK(refusal.given == "a correction by MK of their own entry, while RECALL-261116-1 is open");
    CHECK(refusal.wanted == "a second person: someone may already have acted on what was recorded");
    const auto receipt = b.amended(b.use_of_second, Bakery::used("L-2", "WF-2", "30kg"), "the bag was WF-2");
    const auto says = [&](const std::string& line) {
        return std::find(receipt.next.begin(), receipt.next.end(), line) != receipt.next.end();
    };
    CHECK(says(code + " reached before, not now: L-2"));
    CHECK(says(code + " reached before, not now: CAFE: 20 pieces of printed code K2 (P-2)"));
    CHECK(says("DRILL-261116-1 reached before, not now: L-2"));
}

TEST_CASE("rule 43: nothing is left out but by a signed decision with hazard and reason") {
    Sold b;
    const auto code = b.open();
    record::RecallDecided out{code, "", "", "", {"L-1"}, "only a little"};
    CHECK(b.refused(out).given == "lots left out of " + code + " without a hazard");
    out.hazard = "stones";
    out.why = "";
    CHECK(b.refused(out).given == "a decision without a reason");
    out.why = "sieved at 1 mm, record 88";
    out.out = {"L-11"};
    CHECK(b.refused(out).nearest.front() == "L-1");
    // What the recall holds is not released behind its back.
    const auto refusal = b.refused(record::Released{{"L-1"}, "looked at"});
    CHECK(refusal.given == "a release of L-1, covered by " + code + ": stones");
    out.out = {"L-1"};
    const auto signed_out = b.did(out);
    const auto view = b.view(code);
    for (const auto& line : view.lots) {
        if (line.lot.code == "L-1") CHECK(line.by == std::vector<Seq>{signed_out.seq});
    }
    b.did(record::Released{{"L-1"}, "looked at"});
    CHECK_FALSE(b.held("L-1"));
    CHECK(b.faults() == "");
}

TEST_CASE(
    "a recall begins with a material in a time, a vessel in a time, or a code; an unknown one offers the "
    "nearest") {
    Sold b;
    const auto covered_by = [&](record::RecallOpened r) {
        r.drill = true;
        r.hazard = "pests";
        r.why = "found at cleaning";
        return b.covered(b.view_of(b.did(r).seq).recall.code);
    };
    record::RecallOpened by_time;
    by_time.material = "wheat-flour";
    by_time.until = b.clock.now();
    const auto both = covered_by(by_time);
    CHECK(std::find(both.begin(), both.end(), "L-1") != both.end());
    CHECK(std::find(both.begin(), both.end(), "L-3") != both.end());
    by_time.from = b.clock.now() + minutes(1);
    by_time.until.reset();
    auto none = by_time;
    none.hazard = "pests";
    none.why = "x";
    CHECK(b.refused(none).given == "no lot of wheat-flour in that time");

    record::Filled fill;
    fill.vessel = "silo";
    fill.lot = "WF-2";
    fill.mass = measure("10kg");
    b.pass(minutes(5));
    b.did(fill);
    const auto filled = b.clock.now();
    b.pass(minutes(5));
    b.start("L-4", "loaf");
    b.use("L-4", "silo", "5kg");
    b.did(record::Emptied{"silo", true, ""});
    b.pass(minutes(60));
    record::RecallOpened by_vessel;
    by_vessel.vessel = "silo";
    by_vessel.from = filled + minutes(4);  // of what was taken out, as in a trace: at five past
    by_vessel.until = filled + minutes(6);
    const auto silo = covered_by(by_vessel);
    CHECK(std::find(silo.begin(), silo.end(), "L-4") != silo.end());
    CHECK(std::find(silo.begin(), silo.end(), "WF-2") == silo.end());
    by_vessel.until = filled + minutes(4);
    by_vessel.from.reset();
    by_vessel.hazard = "pests";
    by_vessel.why = "x";
    CHECK(b.refused(by_vessel).given == "a recall of what was taken in a time in which nothing was");

    auto unknown = Sold::opening();
    unknown.lots = {"WF-11"};
    const auto refusal = b.refused(unknown);
    CHECK(refusal.given == "lot 'WF-11'");
    CHECK(refusal.nearest.front() == "WF-1");
    unknown.lots = {};
    CHECK(b.refused(unknown).given == "a recall of nothing");
}

TEST_CASE("the effectiveness sample is seeded, of customers, and the same each time; 21 CFR 7.42(b)(3)") {
    Sold b;
    auto opening = Sold::opening(true);
    opening.check_level = "b";
    opening.check_percent = measure("50%");
    opening.seed = 7;
    const auto first = b.view_of(b.did(opening).seq);
    REQUIRE(first.sample.size() == 1);  // half of two
    CHECK(b.view_of(b.did(opening).seq).sample == first.sample);
    opening.check_level = "A";
    opening.check_percent.reset();
    CHECK(b.view_of(b.did(opening).seq).sample == Words{"CAFE", "SHOP"});
    opening.check_level = "E";
    CHECK(b.view_of(b.did(opening).seq).sample.empty());
    opening.check_level = "B";
    opening.check_percent = measure("5%");
    CHECK(b.refused(opening).wanted == "a percentage above 10 and below 100");
}

TEST_CASE("who was reached and told, when, and by when it was owed") {
    Sold b;
    auto plan = std::string(bakery_plan) +
                "\n[[deadline]]\nid = \"hold\"\nname = \"all held\"\nstep = \"hold\"\nwithin = \"1h\"\nbasis "
                "= \"house rule\"\n"
                "[[deadline]]\nid = \"authority\"\nname = \"food office told\"\nstep = \"authority\"\nwithin "
                "= \"30min\"\nbasis = \"invented for this test\"\n"
                "[[deadline]]\nid = \"calls\"\nname = \"list tried\"\nstep = \"call-list\"\nwithin = "
                "\"365days\"\nbasis = \"house rule\"\n";
    std::filesystem::remove(b.folder / "site.toml");
    b.files.create(b.folder / "site.toml", plan);
    REQUIRE(b.site->adopt_plan("MK").ok());
    b.pass(minutes(1));
    const auto code = b.open();
    const auto timing = [&](const std::string& step) {
        for (const auto& t : b.view(code).timings) {
            if (t.step == step) return t;
        }
        FAIL(step);
        return RecallTiming{};
    };
    CHECK(timing("all held").state == "done");
    CHECK(timing("food office told").state == "open");
    b.pass(minutes(31));
    CHECK(timing("food office told").state == "overdue");
    b.did(record::RecallTold{code, "authority", "food office", "telephone", "case 17"});
    CHECK(timing("food office told").state == "done late");
    CHECK(timing("food office told").basis == "invented for this test");
    record::Contacted call;
    call.recall = code;
    call.partner = "CAFE";
    call.reached = true;
    b.did(call);
    CHECK_FALSE(timing("every customer reached").done.has_value());
    call.partner = "SHOP";
    call.reached = false;
    b.did(call);
    CHECK_FALSE(timing("every customer reached").done.has_value());
    call.reached = true;
    b.pass(minutes(3));
    b.did(call);
    CHECK(timing("every customer reached").done == b.clock.now().ms);
    call.partner = "CAEF";
    CHECK(b.refused(call).nearest.front() == "CAFE");

    CHECK(b.site->call_list().size() == 2);
    CHECK(b.site->call_list().front().overdue);
    b.did(record::Contacted{"", "CAFE", "Ms Lund", "telephone", true, false, ""});
    CHECK_FALSE(b.site->call_list().front().overdue);
    CHECK(b.site->call_list().back().overdue);
    CHECK(b.faults() == "");
}

TEST_CASE(
    "on random histories with counts and corrections both sums hold, and all spoken for is all, to the "
    "milligram") {
    const std::uint64_t seed = GENERATE(1u, 2u, 3u, 4u, 5u, 6u);
    INFO("seed " << seed);
    std::mt19937_64 random(seed);
    const auto below = [&](std::int64_t n) { return static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(n)); };
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg", "S-1");
    b.receive("WF-2", "wheat-flour", "500kg", "S-2");
    std::vector<std::pair<Seq, std::string>> finished;  // entries that may be corrected, with their batch
    for (int i = 0; i < 5; ++i) {
        const auto n = std::to_string(i);
        b.did(Bakery::metal(true));
        b.start("L-" + n, "loaf");
        b.use("L-" + n, i % 2 == 0 ? "WF-1" : "WF-2", "30kg");
        b.use("L-" + n, "SALT-1", "600g");
        b.did(Bakery::reading("L-" + n, "core", "96C"));
        const auto made = b.did(record::Finished{"L-" + n, 50 + below(9), measure_of(43'000'001 + below(999'999), Unit::g), ""});
        finished.emplace_back(made.seq, "L-" + n);
        b.did(Bakery::packed("P-" + n, "L-" + n, 30 + below(15), "K" + std::to_string(below(3))));
        b.end_of_run();
        for (const std::string partner : {"CAFE", "SHOP"}) b.did(Bakery::out("customer", "P-" + n, 1 + below(14), partner));
    }
    record::RecallOpened opening;
    opening.drill = seed % 2 == 0;
    opening.lots = {"WF-1"};
    opening.hazard = "stones";
    opening.why = "a test";
    b.did(opening);
    const auto code = b.site->recalls().front().code;
    const auto open = [&] { return *b.site->recall(code); };
    check_adds_up(open());
    std::map<std::string, std::set<std::string>> covered;  // partners, and the codes they are asked for
    for (const auto& d : open().deliveries) covered[d.partner].insert(d.printed_code);
    const auto say = [&](const std::string& partner, const std::string& printed, const std::string& what, std::int64_t pieces) {
        record::RecallCounted c;
        c.recall = code;
        c.code = printed;
        c.what = what;
        c.pieces = pieces;
        c.partner = partner;
        return b.did(c);
    };
    for (const auto& [partner, codes] : covered) {
        for (const auto& printed : codes) {
            std::int64_t left = 0;
            for (const auto& d : open().deliveries) {
                if (d.partner == partner && d.printed_code == printed) left += d.pieces;
            }
            while (left > 0) {
                const auto pieces = 1 + below(left);
                const auto what = std::vector<std::string>{"returned", "destroyed", "used"}[static_cast<std::size_t>(below(3))];
                if (below(3) == 0) say(partner, printed, "found", 1 + below(left));
                const auto receipt = say(partner, printed, what, pieces);
                check_adds_up(open());
                if (what != "returned" && below(4) == 0) {  // a slip: voided by a second person, said again
                    b.did(Draft{record::Voided{receipt.seq, "misheard"}, "QA", {}, "", false, ""});
                    continue;
                }
                left -= pieces;
            }
        }
    }
    const auto all = open();
    check_adds_up(all);
    CHECK(all.missing_pieces() == 0);
    CHECK(all.missing_mg() == 0);
    CHECK(all.reconciliation.all.mg.surplus == 0);
    CHECK(all.reconciliation.all.pieces.surplus == 0);
    // A batch that made one loaf more: what was not looked for is now missing nowhere, it stands on hand.
    const auto& [entry, batch] = finished.front();
    const auto lot = b.lot(batch);
    b.amended(entry, record::Finished{batch, *lot.made_pieces + 1, measure_of(*lot.made_mg + 7, Unit::g), ""}, "counted again");
    check_adds_up(open());
    CHECK(b.faults() == "");
}

TEST_CASE("rule 46: one step back and one step forward: who gave each ingredient, who got each pack") {
    Sold b;
    b.did(record::PartnerAdded{"MILL", "Weir Mill", {"supplier"}, "2 Weir Lane", "+00 555 0101", "", ""});
    b.did(record::PartnerAdded{"CAFE", "Corner Cafe", {"customer"}, "1 Square", "+00 555 0102", "", ""});
    record::MovedOut out = Bakery::out("customer", "P-2", 5, "CAFE");
    out.document = "D-1";
    b.did(record::PartnerAdded{"VAN", "own van", {"carrier"}, "", "", "", ""});
    out.carrier = "VAN";
    b.pass(minutes(1));
    b.did(out);
    const auto answer = b.site->one_step("L-2");
    REQUIRE(answer.ok());
    Words from;
    for (const auto& s : answer->sources)
        from.push_back(s.lot.code + " " + s.lot.supplier_lot + " from " + s.from.name + ", " + s.from.phone);
    CHECK(from == Words{"SALT-1 S-1 from Weir Mill, +00 555 0101", "WF-1 W-1 from Weir Mill, +00 555 0101"});
    Words to;
    for (const auto& r : answer->recipients) {
        to.push_back(r.printed_code + " " + std::to_string(*r.pieces) + " " + r.to.name + " " + r.carrier.name + " " + r.document);
    }
    CHECK(to == Words{"K2 20 Corner Cafe  ", "K2 5 Corner Cafe own van D-1"});
    CHECK(std::find(answer->missing.begin(), answer->missing.end(), "carrier of WF-1: not stated") != answer->missing.end());
    CHECK_FALSE(b.site->one_step("L-22").ok());
}
