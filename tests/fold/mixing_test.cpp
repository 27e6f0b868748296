// Silos, leavens, packs and labels: what mixes stays traced, and what a label must cover follows the lots
// really used.
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

using Codes = std::vector<std::string>;

record::Filled fill(const std::string& lot, const std::string& mass) {
    record::Filled f;
    f.vessel = "silo";
    f.lot = lot;
    f.mass = measure(mass);
    return f;
}

bool reaches(const Bakery& b, const std::string& from, const std::string& lot) {
    const auto codes = b.reached(from);
    return std::find(codes.begin(), codes.end(), lot) != codes.end();
}

void draw(Bakery& b, const std::string& code, const std::string& mass) {
    b.start(code, "loaf");
    b.use(code, "silo", mass);
    b.pass(minutes(10));
}

void leaven(Bakery& b, const std::string& code, const std::string& flour, const std::string& before) {
    b.start(code, "leaven");
    b.use(code, flour, "4kg");
    b.use(code, "water", "4kg");
    if (!before.empty()) b.use(code, before, "2kg");
    b.pass(minutes(20));
    b.finish(code, 0, before.empty() ? "8kg" : "10kg");
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

record::Received flour_that_contains(const std::string& code, const Codes& contains) {
    record::Received r;
    r.lot = code;
    r.material = "wheat-flour";
    r.supplier = "MILL";
    r.supplier_lot = "S-1";
    r.mass = measure("500kg");
    r.allergens = {true, contains, {}};
    return r;
}

}  // namespace

TEST_CASE("rule 30: a mixed silo is a chain of blends that only an inspected emptying ends") {
    Bakery b;
    for (const std::string code : {"WF-1", "WF-2", "WF-3", "WF-4"}) b.receive(code, "wheat-flour", "100kg", "S-" + code);
    CHECK(b.refused([&] {
               b.start("L-0", "loaf");
               return Bakery::used("L-0", "silo", "1kg");
           }())
              .given.find("holds nothing") != std::string::npos);
    b.did(fill("WF-1", "100kg"));
    b.pass(minutes(10));
    draw(b, "L-1", "30kg");
    b.did(fill("WF-2", "100kg"));
    b.pass(minutes(10));
    draw(b, "L-2", "30kg");
    CHECK(reaches(b, "WF-1", "L-1"));
    CHECK(reaches(b, "WF-1", "L-2"));
    CHECK(reaches(b, "WF-2", "L-2"));
    CHECK_FALSE(reaches(b, "WF-2", "L-1"));  // rule 32: a draw before a fill began never holds it
    // Neither cleaning, nor an emptying that nobody looked into, nor a computed zero cuts the chain.
    b.did(record::Cleaned{"silo", "swept", ""});
    b.did(record::Emptied{"silo", false, ""});
    b.pass(minutes(10));
    b.did(fill("WF-3", "100kg"));
    b.pass(minutes(10));
    draw(b, "L-3", "30kg");
    CHECK(reaches(b, "WF-1", "L-3"));
    b.did(record::Emptied{"silo", true, "looked into with a lamp"});
    b.pass(minutes(10));
    b.did(fill("WF-4", "100kg"));
    b.pass(minutes(10));
    draw(b, "L-4", "30kg");
    CHECK(b.reached("WF-4").back() == "WF-4");
    CHECK(reaches(b, "WF-4", "L-4"));
    for (const std::string code : {"WF-1", "WF-2", "WF-3"}) CHECK_FALSE(reaches(b, code, "L-4"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 30: a silo drawn to a computed zero keeps its heel in what comes next") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "100kg");
    b.receive("WF-2", "wheat-flour", "100kg", "S-2");
    b.did(fill("WF-1", "100kg"));
    b.pass(minutes(10));
    draw(b, "L-1", "100kg");
    b.start("L-2", "loaf");
    CHECK(b.refused(Bakery::used("L-2", "silo", "1kg")).wanted.find("100kg used") != std::string::npos);
    b.did(fill("WF-2", "100kg"));
    b.pass(minutes(10));
    b.use("L-2", "silo", "30kg");
    CHECK(reaches(b, "WF-1", "L-2"));
    CHECK(b.ask("SELECT mass_mg FROM \"use\" JOIN lot f ON f.id = from_lot JOIN lot i ON i.id = into_lot "
                "WHERE f.kind = 'blend' AND i.kind = 'blend'")
              .front() == "20000000");  // the plan's heel
    CHECK(b.faults() == "");
}

TEST_CASE("rule 32: a fill written down late re-derives the draws after it, and an amended time again") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "100kg");
    b.receive("WF-2", "wheat-flour", "100kg", "S-2");
    b.did(fill("WF-1", "100kg"));
    b.set("06:00");
    draw(b, "L-1", "30kg");
    b.set("07:00");
    CHECK_FALSE(reaches(b, "WF-2", "L-1"));
    const auto late = b.did_at(fill("WF-2", "50kg"), "05:30");
    CHECK(late.late);
    CHECK(reaches(b, "WF-2", "L-1"));
    CHECK(b.faults() == "");
    auto fact = fill("WF-2", "50kg");
    fact.blend = late.code;
    REQUIRE(b.site->amend(late.seq, fact, b.at("06:30"), "MK", "it came after the draw").ok());
    CHECK_FALSE(reaches(b, "WF-2", "L-1"));
    CHECK(reaches(b, "WF-1", "L-1"));
    CHECK(b.faults() == "");
    REQUIRE(b.site->amend(late.seq, fact, b.at("05:45"), "MK", "no, before").ok());
    CHECK(reaches(b, "WF-2", "L-1"));
    CHECK(b.faults() == "");
    b.set("08:00");
    draw(b, "L-2", "10kg");
    const auto before = b.state();
    CHECK_FALSE(b.site->void_entry(late.seq, "MK", "never happened").ok());  // draws hang on it
    CHECK(b.state() == before);
}

TEST_CASE("rule 33: the ancestry of a leaven never washes out; it ends where a new culture starts") {
    Bakery b;
    b.receive("RF-1", "rye-flour", "50kg");
    b.receive("RF-2", "rye-flour", "500kg", "S-2");
    leaven(b, "LV-1", "RF-1", "");
    for (int i = 2; i <= 9; ++i) leaven(b, "LV-" + std::to_string(i), "RF-2", "LV-" + std::to_string(i - 1));
    rye(b, "R-1", "RF-2", "LV-9");
    b.did(Bakery::packed("P-1", "R-1", 20, "K1"));
    // Rework: yesterday's loaves into the next dough.
    b.start("R-2", "rye");
    record::Used rework;
    rework.into = "R-2";
    rework.lot = "R-1";
    rework.pieces = 2;
    b.did(rework);
    CHECK(reaches(b, "RF-1", "P-1"));
    CHECK(reaches(b, "RF-1", "R-2"));
    const auto answer = b.site->trace_forward("RF-1");
    for (const auto& one : answer->reached) CHECK(one.certain);
    leaven(b, "LV-N", "RF-2", "");  // a new culture
    rye(b, "R-3", "RF-2", "LV-N");
    CHECK_FALSE(reaches(b, "RF-1", "R-3"));
    const auto back = b.site->trace_back("P-1");
    REQUIRE(back.ok());
    CHECK(back->reached.size() == 14);  // the pack, its batch, nine leavens, two flours, water
    rework.into = "R-1";
    rework.lot = "R-2";
    CHECK_FALSE(b.site->record(b.draft(rework)).ok());  // nothing goes into what it was made from
    CHECK(b.faults() == "");
}

TEST_CASE("rule 36: the printed code is wanted, and lots that share it cannot be told apart") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.receive("WF-2", "wheat-flour", "500kg", "S-2");
    b.loaf("L-1", "WF-1");
    b.loaf("L-2", "WF-2");
    CHECK(b.refused(Bakery::packed("P-1", "L-1", 54, "")).given.find("no printed code") != std::string::npos);
    b.did(Bakery::packed("P-1", "L-1", 54, "K7"));
    b.did(Bakery::packed("P-2", "L-2", 54, "K7"));
    b.end_of_run();
    b.did(Bakery::out("customer", "P-1", 10, "CAFE"));
    b.did(Bakery::out("customer", "P-2", 10, "SHOP"));
    const auto by_code = b.site->trace_forward("K7");
    REQUIRE(by_code.ok());
    CHECK(by_code->start.size() == 2);
    const auto answer = b.site->trace_forward("WF-1");
    std::string notes;
    for (const auto& note : answer->notes) notes += note + "\n";
    CHECK(notes.find("K7") != std::string::npos);
    CHECK(notes.find("P-2") != std::string::npos);
    Codes told_to;
    for (const auto& one : answer->customers) {
        told_to.push_back(one.partner + (one.certain ? " certain " : " possible ") + one.printed_code);
    }
    CHECK(told_to == Codes{"CAFE certain K7", "SHOP possible K7"});
    // Packing is many-to-many: a case of two batches descends from both.
    b.loaf("L-3", "WF-1");
    b.loaf("L-4", "WF-2");
    auto both = Bakery::packed("P-3", "L-3", 20, "K8");
    both.from.push_back({"L-4", 30, {}});
    b.did(both);
    CHECK(*b.lot("P-3").made_pieces == 50);
    CHECK(reaches(b, "WF-1", "P-3"));
    CHECK(reaches(b, "WF-2", "P-3"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 37: packing under a label that misses an allergen of a lot really used is refused, at any depth") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.receive("MILK-1", "milk", "100kg");
    b.bun("B-1", "WF-1", "MILK-1");
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    record::Used rework;
    rework.into = "L-1";
    rework.lot = "B-1";
    rework.pieces = 1;  // rework is an ingredient at any share
    CHECK(b.refused(rework).given.find("use of B-1 with a critical point that no record shows yet: cooling of B-1") == 0);
    b.cooled("B-1");
    CHECK(b.refused(rework).given == "use of B-1 into L-1, to be packed under label loaf-1, which does not declare milk (in B-1)");
    rework.label = "bun-1";  // it will be packed as a bun is
    b.did(rework);
    b.did(Bakery::reading("L-1", "core", "96C"));
    b.step("L-1", "bake");
    b.finish("L-1", 54, "43.2kg");
    CHECK(b.allergens("L-1") == Codes{"milk", "wheat"});
    const auto refusal = b.refused(Bakery::packed("P-1", "L-1", 54, "K1"));
    CHECK(refusal.given == "packing L-1 under label loaf-1, which does not declare milk (in L-1)");
    CHECK(b.refused(Bakery::packed("P-1", "L-1", 54, "K1", "loaf-9")).given.find("label 'loaf-9'") != std::string::npos);
    const auto done = b.already_done(Bakery::packed("P-1", "L-1", 54, "K1"), "seen at the door");
    CHECK(b.finding("P-1", "label").verdict == Verdict::deviation);
    CHECK(b.finding("P-1", "label").grade == Grade::critical);
    CHECK(b.held("P-1"));
    CHECK_FALSE(b.held("L-1"));
    CHECK(done.judged_bad());
    CHECK(b.faults() == "");
}

TEST_CASE("rule 37: an amended declaration re-derives everything made from the lot") {
    Bakery b;
    const auto flour = b.did(flour_that_contains("WF-1", {"wheat"}));
    b.loaf("L-1", "WF-1");
    b.did(Bakery::packed("P-1", "L-1", 54, "K1"));
    b.end_of_run();
    b.did(Bakery::out("customer", "P-1", 10, "CAFE"));
    CHECK(b.finding("P-1", "label").verdict == Verdict::within);
    const auto receipt = b.amended(flour.seq, flour_that_contains("WF-1", {"wheat", "sesame"}), "the mill's letter");
    b.countersigned(receipt.seq);
    CHECK(b.allergens("P-1") == Codes{"sesame", "wheat"});
    CHECK(b.finding("P-1", "label").verdict == Verdict::deviation);
    CHECK(b.held("P-1"));
    REQUIRE(receipt.holds.size() == 2);  // for the lot's declaration, and for the label
    CHECK(b.held("WF-1"));
    CHECK(receipt.holds.front().customers.front().find("CAFE: 10 pieces of P-1") == 0);
    CHECK(b.faults() == "");
    const auto back = b.amended(flour.seq, flour_that_contains("WF-1", {"wheat"}), "the letter was about another lot");
    CHECK(b.allergens("P-1") == Codes{"sesame", "wheat"});  // rule 59: until another person has said so, what either letter says
    CHECK(b.finding("P-1", "label").verdict == Verdict::deviation);
    b.countersigned(back.seq);
    CHECK(b.allergens("P-1") == Codes{"wheat"});
    CHECK(b.finding("P-1", "label").verdict == Verdict::within);
    CHECK(b.finding("P-1", "label").cleared_by.has_value());
    CHECK(b.held("P-1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 39: what a supplier did not state is unproven, not free; a possible use counts as may contain") {
    Bakery b;
    auto silent = flour_that_contains("WF-1", {"wheat"});
    const auto flour = b.did(silent);
    b.loaf("L-1", "WF-1");
    silent.allergens = {};
    b.amended(flour.seq, silent, "the declaration was of another lot");
    CHECK(b.allergens("L-1") == Codes{"not-stated", "wheat"});
    const auto refusal = b.refused(Bakery::packed("P-1", "L-1", 54, "K1"));
    CHECK(refusal.given.find("unproven: declaration of WF-1, not stated") != std::string::npos);
    b.start("L-3", "loaf");
    CHECK(b.refused(Bakery::used("L-3", "WF-1", "30kg")).given.find("unproven: declaration of WF-1, not stated") != std::string::npos);
    b.receive("WF-2", "wheat-flour", "500kg", "S-2");
    b.receive("SES-1", "sesame", "5kg", "S-3");
    b.loaf("L-2", "WF-2");
    auto perhaps = Bakery::used("L-2", "SES-1", "10g");
    perhaps.possible = true;
    b.did_at(perhaps, to_text(*Zone::named("Europe/Berlin"), {b.lot("L-2").happened}));
    CHECK(b.refused(Bakery::packed("P-2", "L-2", 54, "K2")).given.find("sesame") != std::string::npos);
    b.did(Bakery::packed("P-2", "L-2", 54, "K2", "loaf-2"));
    const auto answer = b.site->trace_forward("SES-1");
    REQUIRE(answer->reached.size() == 3);
    CHECK_FALSE(answer->reached.back().certain);
    CHECK(b.faults() == "");
}
