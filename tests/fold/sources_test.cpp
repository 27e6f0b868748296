// Where goods come from when nobody weighs a lot into a batch: water by source and period, what a line takes as it runs, leaven that
// counts as new by decision, goods back from a co-packer; and what shares mean for all of them.
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

using Codes = std::vector<std::string>;

Codes reached_in(const Bakery& b, const std::string& lot, const TraceWindow& window = {}) {
    const auto answer = b.site->trace_forward(lot, "", window);
    REQUIRE(answer.ok());
    Codes codes;
    for (const auto& one : answer->reached) {
        for (const auto& known : answer->graph.lots) {
            if (known.id == one.lot) codes.push_back(known.code + (one.certain ? "" : "?"));
        }
    }
    std::sort(codes.begin(), codes.end());
    return codes;
}

trace::Reached reached_lot(const TraceAnswer& answer, const Bakery& b, const std::string& code) {
    for (const auto& one : answer.reached) {
        if (one.lot == b.lot(code).id) return one;
    }
    FAIL("not reached: " + code);
    return {};
}

std::string notes_of(const TraceAnswer& answer) {
    std::string all;
    for (const auto& note : answer.notes) all += note + "\n";
    return all;
}

void leaven(Bakery& b, const std::string& code, const std::string& flour, const std::string& before) {
    b.start(code, "leaven");
    b.use(code, flour, "4kg");
    b.use(code, "water", "4kg");
    if (!before.empty()) b.use(code, before, "100g");
    b.pass(minutes(20));
    b.finish(code, 0, "8kg");
    b.pass(minutes(20));
}

void rye(Bakery& b, const std::string& code, const std::string& flour, const std::string& leaven) {
    b.start(code, "rye");
    b.use(code, flour, "20kg");
    b.use(code, leaven, "4kg");
    b.use(code, "water", "10kg");
    b.did(Bakery::reading(code, "core", "97C"));
    b.step(code, "bake");
    b.pass(minutes(10));
    b.finish(code, 34, "30kg");
}

record::LineFed line(const std::string& lot, const std::string& line, bool off = false) { return {lot, line, off, ""}; }

}  // namespace

TEST_CASE("rule 28: water is a lot by source and period; a boil notice traces what was used in its hours") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.loaf("L-1", "WF-1");
    b.set("12:00");
    b.loaf("L-2", "WF-1");
    b.set("18:00");
    b.start("L-3", "loaf");
    b.use("L-3", "well", "10kg");
    b.set("2026-12-02 06:00");
    b.did(Bakery::metal(true));
    b.loaf("L-4", "WF-1");
    CHECK(reached_in(b, "water") == Codes{"L-1", "L-2", "L-4", "WTR-2611", "WTR-2612"});
    CHECK(reached_in(b, "well") == Codes{"L-3", "WELL-2611"});
    CHECK(reached_in(b, "WTR-2611") == Codes{"L-1", "L-2", "WTR-2611"});
    CHECK(reached_in(b, "water", {b.at("11:00"), b.at("17:00")}) == Codes{"L-2", "WTR-2611"});
    const auto answer = b.site->trace_forward("water", "", {b.at("11:00"), b.at("17:00")});
    CHECK(*reached_lot(*answer, b, "L-2").share_expected == Approx(18.0 / 48.6));  // it counts in the shares
    CHECK(reached_in(b, "water", {b.at("2026-11-20 00:00"), b.at("2026-11-21 00:00")}).empty());
    CHECK(b.faults() == "");
}

TEST_CASE("a vessel and two hours trace what was drawn in them") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    record::Filled f;
    f.vessel = "silo";
    f.lot = "WF-1";
    f.mass = measure("300kg");
    const auto blend = b.did(f).code;
    b.set("06:00");
    b.start("L-1", "loaf");
    b.use("L-1", "silo", "30kg");
    b.set("08:00");
    b.start("L-2", "loaf");
    b.use("L-2", "silo", "30kg");
    b.use("L-1", "silo", "10kg");
    CHECK(reached_in(b, "silo", {b.at("05:30"), b.at("07:00")}) == Codes{"L-1", blend});
    const auto answer = b.site->trace_forward("silo", "", {b.at("05:30"), b.at("07:00")});
    CHECK(*reached_lot(*answer, b, "L-1").share_expected == Approx(0.75));  // 30 kg of 40: the rest left at another hour
    CHECK(reached_in(b, "silo", {}) == Codes{"L-1", "L-2", blend});
}

TEST_CASE("rule 29: what is on a line may be in every batch that ran there meanwhile") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.receive("DUST-1", "rye-flour", "25kg");
    b.receive("DUST-2", "rye-flour", "25kg", "S-2");
    b.receive("MILK-1", "milk", "100kg");
    b.loaf("L-0", "WF-1");
    b.pass(minutes(10));
    const auto on = b.did(line("DUST-1", "line-1"));
    b.pass(minutes(10));
    b.loaf("L-1", "WF-1");
    b.bun("B-1", "WF-1", "MILK-1");  // on the other line
    b.start("L-2", "loaf");          // still running when the lot is changed
    b.pass(minutes(20));
    const auto off = b.did(line("DUST-1", "line-1", true));
    b.did(line("DUST-2", "line-1"));
    b.pass(minutes(10));
    b.use("L-2", "WF-1", "30kg");
    b.did(Bakery::reading("L-2", "core", "96C"));
    b.finish("L-2", 54, "43kg");
    b.loaf("L-3", "WF-1");
    CHECK(reached_in(b, "DUST-1") == Codes{"DUST-1", "L-1?", "L-2?"});
    CHECK(reached_in(b, "DUST-2") == Codes{"DUST-2", "L-2?", "L-3?"});
    CHECK(b.allergens("L-1") == Codes{"rye", "wheat"});
    CHECK(b.ask("SELECT level FROM lot_allergen a JOIN lot l ON l.id = a.lot WHERE l.code = 'L-1' AND allergen = 'rye'").front() ==
          "may-contain");
    CHECK(b.refused(Bakery::packed("P-1", "L-1", 54, "K1")).given.find("does not declare rye") != std::string::npos);
    CHECK(b.faults() == "");
    // Shares of the flour that was weighed do not notice.
    const auto flour = b.site->trace_forward("WF-1");
    CHECK(*reached_lot(*flour, b, "L-1").share_expected == Approx(30.0 / 48.6));
    CHECK_FALSE(reached_lot(*b.site->trace_forward("DUST-1"), b, "L-1").share_expected.has_value());
    // Taken off later than was written: then the next batch is in it too; never put on: then none is.
    REQUIRE(b.site->amend(off.seq, line("DUST-1", "line-1", true), b.clock.now(), "QA", "it was changed later").ok());
    CHECK(reached_in(b, "DUST-1") == Codes{"DUST-1", "L-1?", "L-2?", "L-3?"});
    CHECK(b.faults() == "");
    REQUIRE(b.site->void_entry(on.seq, "MK", "another line").ok());
    CHECK(reached_in(b, "DUST-1") == Codes{"DUST-1"});
    CHECK(b.faults() == "");
    CHECK(b.refused(line("DUST-1", "line-1", true)).wanted == "a lot that is on the line: DUST-2");
    CHECK(b.refused(line("DUST-2", "line-1")).given == "DUST-2 on line-1, where it is already");
    CHECK(b.refused(line("DUST-1", "line-9")).given == "place 'line-9'");
}

TEST_CASE("rule 29: packaging reaches what it was on the line for, and enters no share") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.receive("FILM-1", "film", "20kg");
    b.did(line("FILM-1", "line-1"));
    b.loaf("L-1", "WF-1");
    b.start("L-2", "loaf");
    b.use("L-2", "WF-1", "30kg");
    b.use("L-2", "FILM-1", "10kg");  // weighed in all the same
    CHECK(reached_in(b, "FILM-1") == Codes{"FILM-1", "L-1?", "L-2"});
    const auto film = b.site->trace_forward("FILM-1");
    CHECK_FALSE(reached_lot(*film, b, "L-1").share_largest.has_value());
    CHECK_FALSE(reached_lot(*film, b, "L-2").share_largest.has_value());
    CHECK(*reached_lot(*b.site->trace_forward("WF-1"), b, "L-2").share_expected == Approx(1.0));
}

TEST_CASE("rule 33: only a signed, reasoned decision ends a leaven's ancestry, and every trace names it") {
    Bakery b;
    b.receive("RF-1", "rye-flour", "50kg");
    b.receive("RF-2", "rye-flour", "500kg", "S-2");
    leaven(b, "LV-1", "RF-1", "");
    leaven(b, "LV-2", "RF-2", "LV-1");
    leaven(b, "LV-3", "RF-2", "LV-2");
    rye(b, "R-1", "RF-2", "LV-3");
    CHECK(reached_in(b, "RF-1") == Codes{"LV-1", "LV-2", "LV-3", "R-1", "RF-1"});
    CHECK(b.refused(record::CultureRenewed{"LV-3", ""}).given == "a decision that a culture is new without a reason");
    CHECK(b.refused(record::CultureRenewed{"LV-1", "dried culture"}).given == "lot LV-1, into which no leaven went");
    auto by_baker = b.draft(record::CultureRenewed{"LV-3", "it smells fine"});
    by_baker.by = "BA";
    CHECK(b.refused(by_baker).given.find("'renew' by BA") == 0);
    const auto decision = b.did(record::CultureRenewed{"LV-3", "started from dried culture, the old tub was discarded"});
    CHECK(reached_in(b, "RF-1") == Codes{"LV-1", "LV-2", "RF-1"});
    CHECK(reached_in(b, "RF-2") == Codes{"LV-2", "LV-3", "R-1", "RF-2"});
    const std::string told = "not traced through LV-2 into LV-3: a new culture from there on by decision of MK, entry " +
                             std::to_string(decision.seq) + ": started from dried culture, the old tub was discarded\n";
    CHECK(notes_of(*b.site->trace_forward("RF-1")) == told);
    CHECK(notes_of(*b.site->trace_back("R-1")) == told);
    CHECK(notes_of(*b.site->trace_forward("RF-2")) == told);  // it too went into LV-2
    CHECK(b.faults() == "");
    REQUIRE(b.site->void_entry(decision.seq, "QA", "the tub was not discarded after all").ok());
    CHECK(reached_in(b, "RF-1") == Codes{"LV-1", "LV-2", "LV-3", "R-1", "RF-1"});
    CHECK(notes_of(*b.site->trace_forward("RF-1")).empty());
    CHECK(b.faults() == "");
}

TEST_CASE("rule 34: shares are of inputs, milligrams a kilogram and the largest share of what was made") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.loaf("L-1", "WF-1");  // 30 kg of flour in 48.6 kg of dough, 43.2 kg baked
    b.did(Bakery::packed("P-1", "L-1", 54, "K1"));
    const auto answer = b.site->trace_forward("WF-1");
    for (const std::string code : {"L-1", "P-1"}) {
        const auto lot = reached_lot(*answer, b, code);
        INFO(code);
        CHECK(*lot.share_expected == Approx(30.0 / 48.6));
        CHECK(*lot.share_largest == Approx(30.0 / 43.2));
        CHECK(*lot.mg_per_kg == Approx(30.0 / 43.2 * 1e6));
    }
}

TEST_CASE("rule 35: a share below every threshold drops nothing from a trace") {
    Bakery b;
    b.receive("RF-1", "rye-flour", "50kg");
    b.receive("RF-2", "rye-flour", "500kg", "S-2");
    leaven(b, "LV-1", "RF-1", "");
    for (int i = 2; i <= 8; ++i) leaven(b, "LV-" + std::to_string(i), "RF-2", "LV-" + std::to_string(i - 1));
    rye(b, "R-1", "RF-2", "LV-8");
    b.did(Bakery::metal(true));
    b.did(Bakery::packed("P-1", "R-1", 34, "K1"));
    b.end_of_run();
    b.did(Bakery::out("customer", "P-1", 34, "CAFE"));
    const auto answer = b.site->trace_forward("RF-1");
    const auto pack = reached_lot(*answer, b, "P-1");
    CHECK(*pack.share_expected < 1e-12);  // 7 times an 81st, and an eighth of the dough
    CHECK(pack.certain);
    REQUIRE(answer->customers.size() == 1);
    CHECK(answer->customers.front().partner == "CAFE");
    CHECK(answer->customers.front().certain);
}

TEST_CASE("rule 42: what comes back from a co-packer is a new lot, made of what was sent") {
    Bakery b;
    b.did(record::PartnerAdded{"CO", "A co-packer", {"carrier"}, "", "", "", ""});
    b.receive("RF-1", "rye-flour", "500kg");
    b.receive("RF-2", "rye-flour", "500kg", "S-2");
    leaven(b, "LV-1", "RF-1", "");
    rye(b, "R-1", "RF-1", "LV-1");
    leaven(b, "LV-2", "RF-2", "");
    rye(b, "R-2", "RF-2", "LV-2");
    record::CoPacked back;
    back.lot = "C-1";
    back.product = "rye";
    back.partner = "CO";
    back.pieces = 60;
    back.mass = measure("28kg");
    back.printed_code = "K9";
    CHECK(b.refused(back).given == "goods back from CO, who was sent nothing");
    b.did(Bakery::out("co-packer", "R-1", 30, "CO"));
    b.did(Bakery::out("co-packer", "R-2", 30, "CO"));
    const auto receipt = b.did(back);
    CHECK(receipt.next.front() == "no lot was named: each of R-1, R-2 may be in it");
    back.lot = "C-2";
    back.printed_code = "K10";
    back.from = {"R-9"};
    CHECK(b.refused(back).given == "lot 'R-9' at CO");
    back.from = {"R-1"};
    b.did(back);
    CHECK(*b.lot("C-2").made_pieces == 60);
    CHECK(*b.lot("C-2").made_mg == 28'000'000);
    b.did(Bakery::out("customer", "C-1", 20, "SHOP"));
    b.did(Bakery::out("customer", "C-2", 20, "CAFE"));
    CHECK(reached_in(b, "RF-1") == Codes{"C-1?", "C-2", "LV-1", "R-1", "RF-1"});
    CHECK(reached_in(b, "RF-2") == Codes{"C-1?", "LV-2", "R-2", "RF-2"});
    const auto answer = b.site->trace_forward("RF-1");
    Codes told;
    for (const auto& one : answer->customers) told.push_back(one.partner + " " + one.printed_code + (one.certain ? "" : "?"));
    CHECK(told == Codes{"CAFE K10", "CO ", "SHOP K9?"});  // what was sent is still ours, and stands at the co-packer
    CHECK(*reached_lot(*answer, b, "C-2").share_expected == Approx(*reached_lot(*answer, b, "R-1").share_expected));
    for (const auto& balance : answer->balances) CHECK(balance.closes());
    // A hold on the flour reaches what came back.
    b.did(record::Held{{"RF-2"}, "the mill called", {}});
    CHECK(b.held("C-1"));
    CHECK_FALSE(b.held("C-2"));
    CHECK(b.faults() == "");
}
