// What keeps a lot keeps what it is parted into, and a signature covers what its signer saw (rules 49 to 51). The cases are those in
// which recording less, or elsewhere, once gave the better verdict.
#include "base/words.h"
#include "site/bakery.h"

namespace peelbook::site::testing {
namespace {

record::Split rack(const std::string& lot, const std::string& name, std::int64_t pieces) {
    record::Split split;
    split.lot = lot;
    split.child = lot + "/" + name;
    split.unit = name;
    split.pieces = pieces;
    return split;
}

record::Acted signed_for(const book::Finding& f, const std::string& disposition) {
    return {{f.anchor, f.point, f.ord}, "as decided", "", disposition, "", "", ""};
}

bool says(const Refusal& refusal, const std::string& text) { return refusal.given.find(text) != std::string::npos; }

std::vector<std::string> kept_by(const Bakery& b, const std::string& lot) {
    return b.ask(
        "SELECT s.code || ' ' || u.point || ' ' || ifnull(u.verdict, 'open') || ' ' || u.decided FROM unsettled u "
        "JOIN lot l ON l.id = u.lot JOIN lot s ON s.id = u.source WHERE l.code = '" +
        lot + "' ORDER BY 1");
}

struct GateHouse : Bakery {
    GateHouse() {
        receive("WF-1", "wheat-flour", "500kg");
        receive("RF-1", "rye-flour", "500kg");
        receive("MILK-1", "milk", "100kg");
    }
    void rye_dough(const std::string& code) {
        start(code, "rye");
        use(code, "RF-1", "20kg");
        use(code, "water", "10kg");
        step(code, "mix");
    }
};

// The bakery's plan, with air of the cold store that stops what lies there.
std::string critical_room() {
    std::string plan(bakery_plan);
    const auto place = plan.find("place = \"cold-store\"\nclass = ");
    plan.replace(plan.find("operating", place), std::string("operating").size(), "critical");
    return plan.insert(plan.find("limit", place),
                       "basis = \"invented for this test\"\naction = { product = \"Look at it.\", process = \"Shut the door.\" }\n");
}

}  // namespace

TEST_CASE("rule 50: the racks of a held batch are held, and a release of the batch is none of theirs") {
    GateHouse b;
    b.loaf("L-1", "WF-1");
    b.did(record::Held{{"L-1"}, "wire seen", {}});
    b.did(rack("L-1", "A", 20));
    CHECK(b.held("L-1/A"));
    CHECK(b.refused(Bakery::packed("P-1", "L-1/A", 20, "K1")).given == "packing L-1/A, on hold: wire seen");
    b.did(record::Released{{"L-1"}, "it was a hair of the brush"});
    CHECK(b.held("L-1/A"));
    b.did(rack("L-1", "B", 20));  // of a batch that is free by now
    CHECK_FALSE(b.held("L-1/B"));
    b.did(record::Released{{"L-1/A"}, "looked through"});
    b.did(Bakery::packed("P-1", "L-1/A", 20, "K1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 50: a part is under every hold of the whole, not the first of them") {
    GateHouse b;
    b.loaf("L-1", "WF-1");
    b.did(record::Held{{"L-1"}, "wire seen", {}});
    b.did(record::Held{{"L-1"}, "a stone heard", {}});
    b.did(rack("L-1", "A", 20));
    const std::string why = "SELECT why FROM hold JOIN lot ON lot.id = hold.lot WHERE code = 'L-1/A' AND released_seq IS NULL ORDER BY 1";
    CHECK(b.ask(why) == std::vector<std::string>{"a stone heard", "wire seen"});
    CHECK(b.faults() == "");
}

TEST_CASE("rule 17: a dough of which nothing is left is still here as long as nobody finished it, and is held with its flour") {
    GateHouse b;
    b.rye_dough("R-1");
    b.start("R-2", "rye");
    b.use("R-2", "R-1", "30kg");
    REQUIRE(b.ask("SELECT on_hand_mg > 0 FROM stock JOIN lot ON lot.id = stock.lot WHERE code = 'R-1'") == std::vector<std::string>{"0"});
    b.did(record::Held{{"RF-1"}, "beetles", {}});
    CHECK(b.held("R-1"));
    CHECK(b.held("R-2"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 50: a deviation that was shown of the whole is not cleared by putting it on racks") {
    GateHouse b;
    b.bun("B-1", "WF-1", "MILK-1");
    b.pass(minutes(20));
    b.did(Bakery::reading("B-1", "cooling", "50C"));  // below 57 C by now
    b.pass(minutes(150));
    b.did(Bakery::reading("B-1", "cooling", "40C"));  // 21 C within 2 hours is past
    REQUIRE(b.finding("B-1", "cooling").verdict == Verdict::deviation);
    b.did(rack("B-1", "A", 80));
    CHECK(b.finding("B-1", "cooling").verdict == Verdict::deviation);
    CHECK_FALSE(b.finding("B-1", "cooling").cleared_by);
    CHECK(b.held("B-1/A"));
    CHECK(kept_by(b, "B-1/A") == std::vector<std::string>{"B-1 cooling 3 ", "B-1/A cooling open "});
    CHECK(says(b.refused(record::Released{{"B-1/A"}, "it is cold now"}), "deviation: cooling of B-1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 50: what was read of the whole is of each rack, and the rest is owed of each") {
    GateHouse b;
    b.bun("B-1", "WF-1", "MILK-1");
    const auto read = [&](const std::string& of, Duration later, const std::string& value) {
        b.pass(later);
        b.did(Bakery::reading(of, "cooling", value));
    };
    read("B-1", minutes(10), "60C");
    read("B-1", minutes(80), "20C");
    b.did(rack("B-1", "A", 80));
    b.did(rack("B-1", "B", 80));
    read("B-1/A", minutes(150), "4.6C");
    b.step("B-1/A", "cool");
    CHECK(b.finding("B-1/A", "cooling").verdict == Verdict::within);
    CHECK(says(b.refused(Bakery::packed("P-2", "B-1/B", 80, "K2")), "cooling of B-1/B"));  // nobody read it since
    b.did(Bakery::packed("P-1", "B-1/A", 80, "K1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 50: what of a batch is on no rack is judged by itself, and its racks are not kept by it") {
    GateHouse b;
    b.bun("B-1", "WF-1", "MILK-1");
    b.did(rack("B-1", "A", 100));  // 60 stay behind
    b.cooled("B-1/A");
    b.did(Bakery::packed("P-1", "B-1/A", 100, "K1"));
    CHECK(says(b.refused(Bakery::packed("P-2", "B-1", 60, "K1")), "cooling of B-1"));
    CHECK(says(b.refused(Bakery::out("own-shop", "B-1", 10)), "cooling of B-1"));
    CHECK(kept_by(b, "B-1") == std::vector<std::string>{"B-1 cooling open "});
    CHECK(kept_by(b, "P-1").empty());
    b.did(rack("B-1", "B", 60));  // by now all of it is on racks
    CHECK(kept_by(b, "B-1").empty());
    CHECK(kept_by(b, "B-1/B") == std::vector<std::string>{"B-1/B cooling open "});
    CHECK(b.faults() == "");
}

TEST_CASE("rule 50: what is still to be read of the whole keeps racks that were taken after its step, and do not owe it themselves") {
    std::string plan(bakery_plan);
    const std::string limit = "limit = { least = \"94C\" }\n";
    GateHouse b;
    b.adopt(plan.insert(plan.find(limit) + limit.size(), "read_on = \"10min\"\n"));
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    b.step("L-1", "mix");
    b.pass(minutes(30));
    b.step("L-1", "bake");
    b.finish("L-1", 54, "43.2kg");
    b.pass(minutes(2));
    b.did(rack("L-1", "A", 54));
    CHECK(kept_by(b, "L-1/A") == std::vector<std::string>{"L-1 core open "});
    CHECK(says(b.refused(Bakery::packed("P-1", "L-1/A", 54, "K1")), "core of L-1"));
    b.pass(minutes(2));
    b.did(Bakery::reading("L-1", "core", "96C"));
    CHECK(kept_by(b, "L-1/A").empty());
    b.did(Bakery::packed("P-1", "L-1/A", 54, "K1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 51: a reading that is worse than what was signed opens the finding and holds again; a milder verdict does not") {
    GateHouse b;
    b.loaf("L-1", "WF-1", "90C");
    b.did(signed_for(b.finding("L-1", "core"), "release"));
    b.did(record::Released{{"L-1"}, "letter of the process authority"});
    CHECK(kept_by(b, "L-1").empty());
    const auto worse = b.did(Bakery::reading("L-1", "core", "71C"));
    REQUIRE(worse.holds.size() == 1);
    CHECK(b.held("L-1"));
    CHECK(kept_by(b, "L-1") == std::vector<std::string>{"L-1 core 3 "});
    CHECK(says(b.refused(record::Released{{"L-1"}, "again"}), "deviation: core of L-1, 71C"));
    REQUIRE(b.site->void_entry(worse.seq, "QA", "of another batch").ok());
    CHECK(b.faults() == "");
}

TEST_CASE("rule 49: what lay in a room that deviated is released once it is signed that it may, and not when it is signed for the bin") {
    GateHouse b;
    b.adopt(critical_room());
    b.did(record::Stored{"MILK-1", "cold-store"});
    b.pass(minutes(5));
    b.did(Bakery::reading("cold-store", "cold-air", "9C"));
    REQUIRE(b.held("MILK-1"));
    const auto warm = b.ask("SELECT anchor FROM finding WHERE point = 'cold-air' AND verdict = 3");
    REQUIRE(warm.size() == 1);
    const auto decide = [&](const std::string& disposition) {
        b.did(record::Acted{{std::stoll(warm.front()), "cold-air", 0}, "as decided", "", disposition, "", "", ""});
    };
    const record::Released release{{"MILK-1"}, "looked at"};
    CHECK(says(b.refused(release), "a critical point not within"));
    decide("discard");
    CHECK(says(b.refused(release), "a critical point not within"));
    CHECK(b.held("MILK-1"));
    decide("release");
    b.did(release);
    CHECK_FALSE(b.held("MILK-1"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 11: out of a room that nobody has read yet nothing leaves once it is overdue") {
    GateHouse b;
    b.adopt(critical_room());
    b.did(record::Stored{"WF-1", "cold-store"});
    record::MovedOut out = Bakery::out("own-shop", "WF-1", 0);
    out.mass = measure("1kg");
    b.pass(minutes(4 * 60));
    b.did(out);  // four hours to the minute are in time
    b.pass(minutes(1));
    for (const auto way : {Way::customer, Way::own_shop, Way::van, Way::staff_shop, Way::donation, Way::animal_feed, Way::co_packer}) {
        out.way = word(way);
        out.partner = way == Way::own_shop || way == Way::staff_shop ? "" : "CAFE";
        CHECK(says(b.refused(out), "shipping WF-1 out of cold-store, where cold-air was to be read by "));
    }
    b.did(Bakery::reading("cold-store", "cold-air", "4C"));
    b.did(out);
    CHECK(b.faults() == "");
}

TEST_CASE("rule 51: a finding keeps what is signed for it as it stands, and waits again when that no longer covers it") {
    GateHouse b;
    b.loaf("L-1", "WF-1", "90C");
    const auto decided = [&] { return b.ask("SELECT decided FROM finding WHERE point = 'core'").front(); };
    const auto waits = [&] {
        const auto open = b.site->status().open_findings;
        return std::any_of(open.begin(), open.end(), [](const auto& told) { return told.finding.point == "core"; });
    };
    CHECK(decided().empty());
    CHECK(waits());
    const auto acted = b.did(signed_for(b.finding("L-1", "core"), "rework"));
    CHECK(decided() == "rework");
    CHECK_FALSE(waits());
    REQUIRE(b.site->void_entry(acted.seq, "QA", "signed the wrong one").ok());
    CHECK(decided().empty());
    CHECK(waits());
    b.did(signed_for(b.finding("L-1", "core"), "release"));
    CHECK(decided() == "release");
    b.did(Bakery::reading("L-1", "core", "71C"));
    CHECK(decided().empty());
    CHECK(waits());
    CHECK(b.faults() == "");
}

TEST_CASE("rule 51: each signature keeps the digest of what was seen") {
    GateHouse b;
    b.loaf("L-1", "WF-1", "90C");
    const auto acted = b.did(signed_for(b.finding("L-1", "core"), "release"));
    const auto released = b.did(record::Released{{"L-1"}, "letter"});
    const auto of = [&](Seq seq) { return std::get<record::Statement>(b.site->entry(seq)->payload); };
    CHECK(std::get<record::Acted>(of(acted.seq)).seen.size() == 64);
    CHECK(std::get<record::Released>(of(released.seq)).seen.size() == 64);
    CHECK(b.ask("SELECT seen_verdict FROM action").front() == "3");
}

TEST_CASE("rule 50: found again by a count, what was made of a held lot is held") {
    GateHouse b;
    b.loaf("L-1", "WF-1");
    b.did(Bakery::packed("P-1", "L-1", 54, "K1"));
    b.end_of_run();
    b.did(Bakery::out("customer", "P-1", 54, "CAFE"));
    b.did(record::Held{{"WF-1"}, "the mill called", {}});
    CHECK_FALSE(b.held("P-1"));  // nothing of it is here
    const auto found = b.did(record::Counted{"P-1", 3, {}, "found behind the rack"});
    REQUIRE(found.holds.size() == 1);
    CHECK(b.held("P-1"));
    CHECK(says(b.refused(Bakery::out("customer", "P-1", 3, "CAFE")), "on hold"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 50: what runs while a held lot stands on its line is held with it") {
    GateHouse b;
    b.receive("SES-1", "sesame", "5kg");
    b.did(record::LineFed{"SES-1", "line-1", false, ""});
    b.did(record::Held{{"SES-1"}, "the mill called", {}});
    b.start("L-1", "loaf");
    CHECK(b.held("L-1"));
    CHECK(says(b.refused(record::LineFed{"SES-1", "line-2", false, ""}), "on hold: the mill called"));
    b.did(record::LineFed{"SES-1", "line-1", true, ""});
    b.pass(minutes(5));
    b.start("L-2", "loaf");
    CHECK_FALSE(b.held("L-2"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 49: a batch that nobody finished is not stock: not counted, not sold") {
    GateHouse b;
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    CHECK(says(b.refused(record::Counted{"L-1", {}, measure("40kg"), "weighed"}), "a batch that nobody finished"));
    CHECK(says(b.refused(Bakery::out("own-shop", "L-1", 0)), "L-1"));
}

TEST_CASE("rule 25: by product no more goes than stands free, and what went so before is not there twice") {
    GateHouse b;
    b.loaf("L-1", "WF-1");
    b.did(Bakery::packed("P-1", "L-1", 10, "K1"));
    b.did(Bakery::packed("P-2", "L-1", 40, "K1"));
    b.end_of_run();
    b.did(record::Held{{"P-2"}, "crushed crate", {}});
    record::MovedOut any;
    any.way = "own-shop";
    any.product = "loaf";
    any.pieces = 12;
    const auto refusal = b.refused(any);
    CHECK(refusal.given == "more by product than stands free: 10 pieces; not shipping P-2, on hold: crushed crate");
    any.pieces = 8;
    CHECK(b.did(any).next.front().find("P-1, P-2") != std::string::npos);  // each stays possible
    CHECK(says(b.refused(any), "more by product than stands free"));
    auto earlier = b.draft(any);
    earlier.happened = b.clock.now() - minutes(1);  // at the packing: what went by product since went all the same
    CHECK(says(b.refused(earlier), "more by product than stands free"));
    any.pieces = 0;
    any.mass = measure("8kg");  // in another unit
    CHECK(b.refused(any).given == "no number of pieces of loaf");
    any.mass.reset();
    any.pieces = 2;
    b.did(any);
    b.pass(minutes(1));
    b.did(record::Counted{"P-1", 4, {}, "six of the ten were of it"});  // so four went of the other
    any.pieces = 4;
    b.pass(minutes(1));
    b.did(any);
    CHECK(says(b.refused(any), "more by product than stands free: 4 pieces"));
    any.pieces = 5;
    earlier = b.draft(any);
    earlier.happened = b.clock.now() - minutes(2);  // before the count
    CHECK(says(b.refused(earlier), "more by product than stands free: 4 pieces"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 50: what is to be seen at packing is owed before the van, of the packs too") {
    GateHouse b;
    b.adopt(std::string(bakery_plan) + R"toml(
[[point]]
id = "seal"
name = "packs are closed"
step = "pack"
products = ["loaf"]
class = "critical"
limit = { yes_no = true }
basis = "invented for this test"
action = { product = "Pack anew.", process = "Look at the sealer." }
)toml");
    b.loaf("L-1", "WF-1");
    b.did(Bakery::packed("P-1", "L-1", 54, "K1"));
    b.end_of_run();
    CHECK(kept_by(b, "P-1") == std::vector<std::string>{"L-1 seal open "});
    CHECK(says(b.refused(Bakery::out("customer", "P-1", 10, "CAFE")), "missing: seal of L-1"));
    b.did(record::Inspected{"L-1", "seal", "", "", true, ""});
    b.did(Bakery::out("customer", "P-1", 10, "CAFE"));
    CHECK(b.faults() == "");
}

TEST_CASE("old dough does not bake in a batch whose core may stay lower, nor where reading it is left to choice") {
    for (const std::string also : {"limit = { least = \"88C\" }", "limit = { least = \"94C\" }\noptional = true"}) {
        GateHouse b;
        b.adopt(std::string(bakery_plan) + R"toml(
[[product]]
id = "soft"
name = "soft rye roll"
code = "S"
formula = [ { item = "rye-flour", percent = "100%", flour = true }, { item = "rye", percent = "10%", optional = true } ]
usual_flour = "10kg"
steps = ["mix", "bake", "pack"]
[[point]]
id = "soft-core"
name = "core of the rolls"
step = "bake"
products = ["soft"]
class = "critical"
measures = "core temperature"
unit = "C"
basis = "invented for this test"
action = { product = "Bake on.", process = "Check the oven." }
)toml" + also + "\n");
        b.rye_dough("R-1");
        b.start("S-1", "soft");
        CHECK(says(b.refused(Bakery::used("S-1", "R-1", "1kg")), "core of R-1"));
    }
}

TEST_CASE("old dough bakes in the new batch, which must have a point as strict before it") {
    GateHouse b;
    b.rye_dough("R-1");
    b.rye_dough("R-2");
    b.use("R-2", "R-1", "2kg");
    b.start("B-1", "bun");  // bakes nothing
    CHECK(says(b.refused(Bakery::used("B-1", "R-1", "1kg")), "core of R-1"));
    b.pass(minutes(30));
    b.did(Bakery::reading("R-2", "core", "96C"));
    b.step("R-2", "bake");
    b.did(Bakery::reading("R-1", "core", "71C"));  // what stayed behind
    b.step("R-1", "bake");
    b.finish("R-1", 32, "28kg");
    CHECK(b.finding("R-1", "core").verdict == Verdict::deviation);
    CHECK(kept_by(b, "R-2").empty());
    b.rye_dough("R-3");
    CHECK(says(b.refused(Bakery::used("R-3", "R-1", "0.5kg")), "R-1"));  // by now it has come to that point, and is held
    CHECK(b.faults() == "");
}

TEST_CASE("rule 49: a filling of which nothing was recorded is not used, and says what is owed") {
    GateHouse b;
    b.start("B-1", "bun");
    b.use("B-1", "WF-1", "10kg");
    b.use("B-1", "MILK-1", "6kg");
    b.start("L-1", "loaf");
    auto into = Bakery::used("L-1", "B-1", "1kg");
    into.label = "bun-1";
    const auto refusal = b.refused(into);
    CHECK(refusal.given.find("use of B-1 with a critical point that no record shows yet: cooling of B-1") == 0);
    const auto done = b.already_done(into, "it was in the bowl");
    CHECK(b.held("L-1"));
    CHECK(kept_by(b, "L-1") == std::vector<std::string>{"B-1 cooling open ", "L-1 already-done 3 ", "L-1 core open "});
    CHECK(b.faults() == "");
}

TEST_CASE("under another name: a use is not amended to a lot that would have been refused") {
    GateHouse b;
    b.receive("WF-2", "wheat-flour", "100kg", "S-2");
    b.did(record::Held{{"WF-2"}, "wet sacks", {}});
    b.start("L-1", "loaf");
    const auto used = b.use("L-1", "WF-1", "30kg");
    auto other = Bakery::used("L-1", "WF-2", "30kg");
    const auto refused = b.site->amend(used.seq, other, {}, "QA", "it was the other sack");
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.refusal().given == "use of WF-2, on hold: wet sacks");
    other.already_done = true;
    REQUIRE(b.site->amend(used.seq, other, {}, "QA", "it was the other sack").ok());
    CHECK(b.held("L-1"));
    CHECK(b.faults() == "");
}

TEST_CASE("packs are packed anew under a label only that declares what is in them") {
    GateHouse b;
    b.receive("SE-1", "sesame", "10kg");
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    b.use("L-1", "SE-1", "500g");  // one label of the product covers it
    b.did(Bakery::reading("L-1", "core", "96C"));
    b.finish("L-1", 54, "43kg");
    b.did(Bakery::packed("P-1", "L-1", 54, "K1", "loaf-2"));
    CHECK(says(b.refused(Bakery::packed("P-2", "P-1", 10, "K2", "loaf-1")), "under label loaf-1, which does not declare sesame (in "));
    b.did(Bakery::packed("P-2", "P-1", 10, "K2", "loaf-2"));
    CHECK(b.faults() == "");
}

TEST_CASE("signed for rework, a lot goes into a batch and nowhere else, and the batch is free of it") {
    GateHouse b;
    b.loaf("L-1", "WF-1", "90C");
    b.did(signed_for(b.finding("L-1", "core"), "rework"));
    b.did(record::Released{{"L-1"}, "to be reworked"});
    CHECK(b.refused(Bakery::packed("P-1", "L-1", 10, "K1")).given == "packing L-1, signed for rework");
    CHECK(says(b.refused(Bakery::out("own-shop", "L-1", 10)), "signed for rework"));
    b.start("L-2", "loaf");
    record::Used rework;
    rework.into = "L-2";
    rework.lot = "L-1";
    rework.pieces = 5;
    b.did(rework);
    CHECK(kept_by(b, "L-2") == std::vector<std::string>{"L-2 core open "});
    CHECK(b.faults() == "");
}

}  // namespace peelbook::site::testing
