// Lots, amounts and dates: what is refused before it is done, what is recorded all the same, and that the
// sums are exact. Facts of the trade are common practice unless a source is named.
#include <numeric>

#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

std::vector<std::string> codes(const std::vector<book::Lot>& lots) {
    std::vector<std::string> out;
    for (const auto& lot : lots) out.push_back(lot.code);
    return out;
}

const trace::Balance& balance_of(const TraceAnswer& answer, const std::string& code) {
    for (const auto& lot : answer.graph.lots) {
        if (lot.code != code) continue;
        for (const auto& balance : answer.balances) {
            if (balance.lot == lot.id) return balance;
        }
    }
    FAIL("no balance of " + code);
    return answer.balances.front();
}

record::Split split(const std::string& lot, const std::string& rack, std::int64_t pieces) {
    record::Split s;
    s.lot = lot;
    s.unit = rack;
    s.pieces = pieces;
    return s;
}

}  // namespace

TEST_CASE("rule 20: a forgotten use is a missing use at finish, and the trace lists the batch as possible") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.loaf("L-1", "WF-1");
    CHECK_FALSE(b.has_finding("L-1", "missing-use"));
    b.start("L-2", "loaf");
    b.use("L-2", "water", "18kg");
    b.use("L-2", "SALT-1", "600g");
    b.did(Bakery::reading("L-2", "core", "96C"));
    b.step("L-2", "bake");
    b.finish("L-2", 54, "43.2kg");
    const auto finding = b.finding("L-2", "missing-use");
    CHECK(finding.verdict == Verdict::missing);
    CHECK(finding.unit == "wheat-flour");
    auto answer = b.site->trace_forward("WF-1");
    REQUIRE(answer.ok());
    CHECK(codes(answer->possible) == std::vector<std::string>{"L-2"});
    // Written down afterwards, at its time: no longer missing, and reached.
    b.did_at(Bakery::used("L-2", "WF-1", "30kg"), to_text(*Zone::named("Europe/Berlin"), {b.lot("L-2").happened}));
    CHECK(b.finding("L-2", "missing-use").cleared_by.has_value());
    answer = b.site->trace_forward("WF-1");
    CHECK(answer->possible.empty());
    CHECK(b.reached("WF-1") == std::vector<std::string>{"L-1", "L-2", "WF-1"});
    CHECK(b.faults() == "");
}

TEST_CASE("rule 20: a batch made before the lot came is not possible") {
    Bakery b;
    b.start("L-1", "loaf");
    b.did(Bakery::reading("L-1", "core", "96C"));
    b.finish("L-1", 54, "43.2kg");
    b.pass(minutes(30));
    b.receive("WF-1", "wheat-flour", "500kg");
    CHECK(b.site->trace_forward("WF-1")->possible.empty());
}

TEST_CASE("rule 21: an exhausted lot is refused with the arithmetic, and no other lot is offered") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "50kg");
    b.receive("WF-2", "wheat-flour", "500kg", "S-2");
    b.loaf("L-1", "WF-1");
    b.start("L-2", "loaf");
    const auto refusal = b.refused(Bakery::used("L-2", "WF-1", "30kg"));
    CHECK(refusal.given.find("30kg of lot WF-1") != std::string::npos);
    CHECK(refusal.wanted.find("50kg made - 30kg used - 0kg left the house = 20kg") != std::string::npos);
    CHECK(refusal.next.find("count WF-1") != std::string::npos);
    CHECK(refusal.nearest.empty());
    CHECK(told(refusal).find("WF-2") == std::string::npos);
    SECTION("a count shows more, and its gap stays visible") {
        record::Counted count;
        count.lot = "WF-1";
        count.mass = measure("32kg");
        count.why = "two sacks stood behind the door";
        b.did(count);
        b.use("L-2", "WF-1", "30kg");
        const auto answer = b.site->trace_forward("WF-1");
        REQUIRE(answer.ok());
        const auto& balance = balance_of(*answer, "WF-1");
        CHECK(balance.gap_mg == 12'000'000);
        CHECK(balance.on_hand_mg == 2'000'000);
        CHECK(balance.unaccounted_mg() == -12'000'000);
        CHECK_FALSE(balance.closes());
    }
    SECTION("it has already been done") {
        b.already_done(Bakery::used("L-2", "WF-1", "30kg"), "the sack was there");
        CHECK(b.held("L-2"));
        CHECK(b.reached("WF-1") == std::vector<std::string>{"L-1", "L-2", "WF-1"});
    }
    CHECK(b.faults() == "");
}

TEST_CASE("a lot refused at the door is not on hand, and what was used of it all the same is more than there was") {
    Bakery b;
    record::Received r;
    r.lot = "WF-1";
    r.material = "wheat-flour";
    r.supplier = "MILL";
    r.supplier_lot = "S-1";
    r.mass = measure("500kg");
    r.allergens = {true, {"wheat"}, {}};
    r.status = "refused";
    r.why = "sacks wet";
    b.did(r);
    auto answer = b.site->trace_forward("WF-1");
    REQUIRE(answer.ok());
    CHECK(balance_of(*answer, "WF-1").made_mg == 0);
    CHECK(balance_of(*answer, "WF-1").on_hand_mg == 0);
    CHECK(balance_of(*answer, "WF-1").closes());
    CHECK(b.lot("WF-1").made_mg == 500'000'000);  // what was delivered still stands in the book
    b.start("L-1", "loaf");
    b.already_done(Bakery::used("L-1", "WF-1", "30kg"), "the wrong sack was taken");
    answer = b.site->trace_forward("WF-1");
    REQUIRE(answer.ok());
    CHECK(balance_of(*answer, "WF-1").on_hand_mg == -30'000'000);
    CHECK(b.has_finding("WF-1", "negative-stock"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 22: past best-before wants a reason, past use-by is refused like a held lot") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg", "S-1", "2026-11-16");
    b.receive("WF-2", "wheat-flour", "500kg", "S-2", "2026-11-17");
    b.receive("MILK-1", "milk", "100kg", "S-3", "2026-11-16");
    b.receive("MILK-2", "milk", "100kg", "S-4", "2026-11-17");
    b.pass(days(1));  // on Tuesday
    b.start("B-1", "bun");
    CHECK(b.refused(Bakery::used("B-1", "WF-1", "10kg")).given.find("past its best-before date 2026-11-16") != std::string::npos);
    b.use("B-1", "WF-2", "1kg");  // the day itself still counts
    auto reasoned = Bakery::used("B-1", "WF-1", "9kg");
    reasoned.why = "sieved and smelled by quality";
    b.did(reasoned);
    CHECK(b.ask("SELECT note FROM \"use\" JOIN lot ON lot.id = from_lot WHERE code = 'WF-1'").front() == reasoned.why);
    auto milk = Bakery::used("B-1", "MILK-1", "6kg");
    CHECK(b.refused(milk).given.find("past its use-by date 2026-11-16") != std::string::npos);
    milk.why = "smells fresh";  // EU 1169/2011 art. 24: no reason makes it fit
    CHECK(b.refused(milk).given.find("use-by") != std::string::npos);
    b.use("B-1", "MILK-2", "3kg");
    b.already_done(Bakery::used("B-1", "MILK-1", "3kg"), "seen after mixing");
    CHECK(b.finding("B-1", "already-done").verdict == Verdict::deviation);
    CHECK(b.held("B-1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 23: racks sum exactly to the batch; readings and holds attach to the rack") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.receive("MILK-1", "milk", "100kg");
    b.start("B-1", "bun");
    b.use("B-1", "WF-1", "10kg");
    b.use("B-1", "MILK-1", "6kg");
    b.pass(minutes(10));
    b.finish("B-1", 160, "14.399999kg");  // a mass that no third divides
    for (const auto& [rack, pieces] : {std::pair{"rack-1", 53}, {"rack-2", 53}, {"rack-3", 54}}) b.did(split("B-1", rack, pieces));
    std::int64_t mass = 0, pieces = 0;
    for (const std::string code : {"B-1/rack-1", "B-1/rack-2", "B-1/rack-3"}) {
        mass += *b.lot(code).made_mg;
        pieces += *b.lot(code).made_pieces;
    }
    CHECK(pieces == 160);
    CHECK(mass == 14'399'999);
    CHECK(b.refused(split("B-1", "rack-4", 1)).wanted.find("160 made - 160 used - 0 left the house = 0 pieces") != std::string::npos);
    // Rack 1 cools in time, rack 2 too slowly, rack 3 is not read.
    b.pass(minutes(20));
    for (const std::string code : {"B-1/rack-1", "B-1/rack-2"}) b.did(Bakery::reading(code, "cooling", "58C"));
    b.pass(minutes(5));
    for (const std::string code : {"B-1/rack-1", "B-1/rack-2"}) b.did(Bakery::reading(code, "cooling", "56C"));
    b.pass(minutes(75));
    b.did(Bakery::reading("B-1/rack-1", "cooling", "20C"));
    b.did(Bakery::reading("B-1/rack-2", "cooling", "40C"));
    b.pass(minutes(50));
    b.did(Bakery::reading("B-1/rack-2", "cooling", "30C"));  // at least 2:05 since 57 C
    b.pass(minutes(180));
    b.did(Bakery::reading("B-1/rack-1", "cooling", "5C"));
    CHECK(b.finding("B-1/rack-1", "cooling").verdict == Verdict::within);
    CHECK(b.finding("B-1/rack-2", "cooling").verdict == Verdict::deviation);
    CHECK_FALSE(b.has_finding("B-1", "cooling"));
    CHECK(b.held("B-1/rack-2"));
    CHECK_FALSE(b.held("B-1/rack-1"));
    CHECK_FALSE(b.held("B-1"));
    b.did(Bakery::packed("P-1", "B-1/rack-1", 53, "X1"));
    CHECK(b.refused(Bakery::packed("P-2", "B-1/rack-2", 53, "X1")).given.find("on hold") != std::string::npos);
    CHECK(b.refused(Bakery::packed("P-3", "B-1/rack-3", 54, "X1")).given.find("cooling of B-1/rack-3") != std::string::npos);
    CHECK(b.faults() == "");
}

TEST_CASE("rule 23: a fault that is not tied to a rack holds them all") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.receive("MILK-1", "milk", "100kg");
    b.bun("B-1", "WF-1", "MILK-1");
    b.did(split("B-1", "rack-1", 80));
    b.did(split("B-1", "rack-2", 80));
    b.did(record::Held{{"B-1"}, "a glass broke in the mixing room", {}});
    CHECK(b.held("B-1/rack-1"));
    CHECK(b.held("B-1/rack-2"));
}

TEST_CASE("rule 23: a pack of a good and a held rack is refused, and held when it was already made") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.loaf("L-1", "WF-1");
    b.did(split("L-1", "rack-1", 27));
    b.did(split("L-1", "rack-2", 27));
    b.did(record::Held{{"L-1/rack-2"}, "fell on the floor", {}});
    auto both = Bakery::packed("P-1", "L-1/rack-1", 27, "A1");
    both.from.push_back({"L-1/rack-2", 27, {}});
    CHECK(b.refused(both).given.find("L-1/rack-2, on hold") != std::string::npos);
    b.already_done(both, "both were taken");
    CHECK(b.held("P-1"));
    CHECK_FALSE(b.held("L-1/rack-1"));
    CHECK(b.faults() == "");
}

TEST_CASE(
    "rule 17: a hold reaches what was made from the lot and names who has the rest; its release frees "
    "nothing else") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.loaf("L-1", "WF-1");
    b.did(Bakery::packed("P-1", "L-1", 30, "A1"));
    b.did(Bakery::packed("P-2", "L-1", 24, "A1"));
    b.end_of_run();
    b.did(Bakery::out("customer", "P-1", 30, "CAFE"));
    b.start("L-2", "loaf");
    b.use("L-2", "WF-1", "30kg");
    const auto hold = b.did(record::Held{{"WF-1"}, "the miller called", {}});
    REQUIRE(hold.holds.size() == 1);
    CHECK(hold.holds.front().customers == std::vector<std::string>{"CAFE: 30 pieces of P-1, printed code A1"});
    for (const std::string code : {"WF-1", "P-2", "L-2"}) {
        INFO(code);
        CHECK(b.held(code));
    }
    CHECK(b.refused(Bakery::used("L-2", "WF-1", "1kg")).given.find("on hold: the miller called") != std::string::npos);
    CHECK(b.refused(Bakery::out("customer", "P-2", 1, "CAFE")).given.find("on hold") != std::string::npos);
    b.did(record::Released{{"WF-1"}, "the laboratory found nothing"});
    CHECK_FALSE(b.held("WF-1"));
    CHECK(b.held("P-2"));
    CHECK(b.held("L-2"));
    CHECK(b.refused(Bakery::out("customer", "P-2", 1, "CAFE")).given.find("on hold") != std::string::npos);
    CHECK(b.refused(record::Released{{"WF-1"}, "again"}).given.find("not held") != std::string::npos);
    b.did(record::Released{{"P-2"}, "the laboratory found nothing"});
    b.did(Bakery::out("customer", "P-2", 1, "CAFE"));
    CHECK(b.faults() == "");
}

TEST_CASE("a hold that is written down after a release, though of an earlier time, stands: the release did not know it") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "100kg");
    b.did(record::Held{{"WF-1"}, "a torn sack", {}});
    b.pass(minutes(30));
    b.did(b.draft(record::Released{{"WF-1"}, "looked at"}));
    CHECK_FALSE(b.held("WF-1"));
    b.pass(minutes(5));
    auto late = b.draft(record::Held{{"WF-1"}, "the miller had called", {}});
    late.happened = b.clock.now() - minutes(20);
    b.did(late);
    CHECK(b.held("WF-1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 17: what is made from a held lot all the same is held") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.did(record::Held{{"WF-1"}, "wet sacks", {}});
    b.start("L-1", "loaf");
    const auto used = b.already_done(Bakery::used("L-1", "WF-1", "30kg"), "nobody saw the tag");
    REQUIRE(used.holds.size() == 1);
    CHECK(b.held("L-1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 24: pieces balance exactly, kilograms on the baked mass, and the bake loss is no gap") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.loaf("L-1", "WF-1");  // 48.6 kg of dough, 43.2 kg baked
    CHECK(*b.lot("L-1").input_mg == 48'600'000);
    CHECK(*b.lot("L-1").made_mg == 43'200'000);
    b.did(Bakery::packed("P-1", "L-1", 17, "A1"));
    b.did(Bakery::packed("P-2", "L-1", 19, "A1"));
    auto waste = Bakery::out("waste", "L-1", 3);
    waste.why = "torn";
    b.did(waste);
    b.end_of_run();
    b.did(Bakery::out("customer", "P-1", 16, "CAFE"));
    const auto answer = b.site->trace_forward("L-1");
    REQUIRE(answer.ok());
    const auto& batch = balance_of(*answer, "L-1");
    CHECK(batch.closes());
    CHECK(batch.on_hand_pieces == 15);
    CHECK(batch.on_hand_mg == 12'000'000);  // 15 of 54 pieces of 43.2 kg
    CHECK(balance_of(*answer, "P-1").closes());
    CHECK(*b.lot("P-1").made_mg == 13'600'000);
    REQUIRE(answer->customers.size() == 1);
    CHECK(answer->customers.front().pieces == 16);
    CHECK(b.refused(Bakery::packed("P-3", "L-1", 16, "A1")).given.find("16 pieces of lot L-1") != std::string::npos);
    CHECK(b.faults() == "");
}

TEST_CASE("rule 24: a weighed amount is never overwritten by the nominal one") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.loaf("L-1", "WF-1");
    auto weighed = Bakery::packed("P-1", "L-1", 27, "A1");
    weighed.from.front().mass = measure("21.7kg");
    b.did(weighed);
    b.did(Bakery::packed("P-2", "L-1", 27, "A1"));
    CHECK(*b.lot("P-1").made_mg == 21'700'000);
    const auto answer = b.site->trace_forward("L-1");
    CHECK(balance_of(*answer, "L-1").on_hand_pieces == 0);
    CHECK(balance_of(*answer, "L-1").closes());
    CHECK(b.faults() == "");
}

TEST_CASE(
    "rule 25: every way out is a move of its own kind, and leaving by product makes all lots on hand "
    "possible") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.loaf("L-1", "WF-1");
    b.did(Bakery::packed("P-1", "L-1", 54, "A1"));
    b.end_of_run();
    std::int64_t gone = 0;
    for (const auto way : record::ways_out) {
        auto move = Bakery::out(std::string(way), "P-1", 2, way == "customer" || way == "van" ? "CAFE" : "SHOP");
        move.why = "as every Monday";
        b.did(move);
        gone += 2;
    }
    CHECK(b.ask("SELECT count(DISTINCT way) FROM move").front() == std::to_string(std::size(record::ways_out)));
    CHECK(b.refused(Bakery::out("post", "P-1", 1)).given.find("way out 'post'") != std::string::npos);
    CHECK(b.refused(Bakery::out("customer", "P-1", 1)).given.find("customer ''") != std::string::npos);
    CHECK(b.refused(Bakery::out("waste", "P-1", 1)).given.find("without a reason") != std::string::npos);
    b.loaf("L-2", "WF-1");
    b.did(Bakery::packed("P-2", "L-2", 54, "A2"));
    b.end_of_run();
    record::MovedOut any;
    any.way = "customer";
    any.product = "loaf";
    any.partner = "SHOP";
    any.pieces = 12;
    const auto receipt = b.did(any);
    CHECK(receipt.next.front().find("P-1, P-2") != std::string::npos);
    CHECK(b.ask("SELECT on_hand_pieces FROM stock JOIN lot ON lot.id = lot WHERE code = 'P-1'").front() == std::to_string(54 - gone));
    const auto answer = b.site->trace_forward("L-2");
    REQUIRE(answer->customers.size() == 1);
    CHECK(answer->customers.front().partner == "SHOP");
    CHECK_FALSE(answer->customers.front().certain);
    any.product = "rye";
    CHECK(b.refused(any).given.find("a lot of rye on hand") != std::string::npos);
    CHECK(b.faults() == "");
}

TEST_CASE("rule 26: returns are kept apart from stock, held, and never more than went there") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.loaf("L-1", "WF-1");
    b.did(Bakery::packed("P-1", "L-1", 54, "A1"));
    b.end_of_run();
    b.did(Bakery::out("customer", "P-1", 20, "CAFE"));
    b.did(Bakery::out("customer", "P-1", 4, "SHOP"));
    record::Returned back;
    back.lot = "P-1";
    back.partner = "CAFE";
    back.pieces = 21;
    back.why = "too dark";
    CHECK(b.refused(back).wanted.find("20 pieces") != std::string::npos);
    back.pieces = 5;
    b.did(back);
    const auto answer = b.site->trace_forward("P-1");
    const auto& balance = balance_of(*answer, "P-1");
    CHECK(balance.on_hand_pieces == 30);  // the five are not among them
    CHECK(balance.returned_pieces == 5);
    CHECK(balance.closes());
    for (const auto& one : answer->customers) {
        if (one.partner == "CAFE") CHECK((one.pieces == 20 && one.returned_pieces == 5));
        if (one.partner == "SHOP") CHECK((one.pieces == 4 && one.returned_pieces == 0));
    }
    back.pieces = 16;
    CHECK(b.refused(back).wanted.find("15 pieces") != std::string::npos);
    auto waste = Bakery::out("waste", "P-1", 6);
    waste.of_returned = true;
    waste.why = "destroyed";
    CHECK(b.refused(waste).wanted.find("5 pieces") != std::string::npos);
    waste.pieces = 5;
    b.did(waste);
    CHECK(balance_of(*b.site->trace_forward("P-1"), "P-1").on_hand_pieces == 30);
    CHECK(b.ask("SELECT returned_pieces FROM stock JOIN lot ON lot.id = lot WHERE code = 'P-1'").front() == "0");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 26: returned goods cannot be sent out again as stock") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.loaf("L-1", "WF-1");
    b.did(Bakery::packed("P-1", "L-1", 20, "A1"));
    b.end_of_run();
    b.did(Bakery::out("customer", "P-1", 20, "CAFE"));
    record::Returned back;
    back.lot = "P-1";
    back.partner = "CAFE";
    back.pieces = 5;
    b.did(back);
    CHECK(b.refused(Bakery::out("customer", "P-1", 5, "SHOP")).wanted.find("0 pieces") != std::string::npos);
    auto again = Bakery::out("customer", "P-1", 5, "SHOP");
    again.of_returned = true;
    const auto refusal = b.refused(again);  // held on arrival: only waste, sample or a decision
    CHECK(refusal.given.find("return") != std::string::npos);
}

TEST_CASE("rule 27: a supplier's code that came twice is refused with the candidates, and a trace takes both") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg", "LOT7");
    b.start("L-1", "loaf");
    b.use("L-1", "LOT7", "10kg");  // still clear
    CHECK(b.reached("WF-1") == std::vector<std::string>{"L-1", "WF-1"});
    const auto again = b.receive("WF-2", "wheat-flour", "500kg", "LOT7");
    CHECK(again.next.front().find("WF-1") != std::string::npos);
    const auto refusal = b.refused(Bakery::used("L-1", "LOT7", "10kg"));
    CHECK(refusal.given.find("more than once") != std::string::npos);
    REQUIRE(refusal.nearest.size() == 2);
    CHECK(refusal.nearest[0].find("WF-") == 0);
    b.start("L-2", "loaf");
    b.use("L-2", "WF-2", "10kg");
    CHECK(b.reached("LOT7") == std::vector<std::string>{"L-1", "L-2", "WF-1", "WF-2"});
    CHECK(b.reached("MILL:LOT7").size() == 4);
    CHECK_FALSE(b.site->trace_forward("MILL-2:LOT7").ok());
    CHECK_FALSE(b.site->trace_forward("LOT7", "rye-flour").ok());
    CHECK(b.site->trace_forward("LOT7", "wheat-flour")->start.size() == 2);
}

TEST_CASE("rule 28: water is a supply lot by month, used without being received") {
    Bakery b;
    b.start("L-1", "loaf");
    b.use("L-1", "water", "18kg");
    b.use("L-1", "water", "1kg");
    b.set("2026-12-01 06:00");
    b.start("L-2", "loaf");
    b.use("L-2", "water", "18000kg");  // never runs out
    CHECK(b.lot("WTR-2611").kind == LotKind::supply);
    CHECK(b.reached("WTR-2611") == std::vector<std::string>{"L-1", "WTR-2611"});
    CHECK(b.reached("WTR-2612") == std::vector<std::string>{"L-2", "WTR-2612"});
    b.did_at(Bakery::used("L-1", "water", "2kg"), "2026-11-16 05:30");  // late: of its own month
    CHECK(b.ask("SELECT sum(mass_mg) FROM \"use\" JOIN lot ON lot.id = from_lot WHERE code = 'WTR-2611'").front() == "21000000");
    CHECK(b.refused(Bakery::used("L-2", "ice", "1kg")).given.find("lot 'ice'") != std::string::npos);
    CHECK(b.faults() == "");
}
