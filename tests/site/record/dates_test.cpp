// Dates and ages, rules 22, 66 and 67: until when a lot may be used, what may be printed, and what comes in too late. All dates are worked
// out by hand from the plan below; Monday is 2026-11-16.
#include "base/text.h"
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

constexpr std::string_view goods = R"toml(
[[material]]
id = "cream"
name = "cream"
allergens = ["milk"]
date = "use-by"
opened_within = "3days"
[[material]]
id = "berries"
name = "frozen berries"
thawed_within = "24h"
[[product]]
id = "custard"
name = "custard"
code = "CU"
formula = [ { item = "milk", absolute = "10kg" } ]
steps = ["boil", "cool"]
kill_step = "boil"
use_within = "3days"
[[product]]
id = "cream-bun"
name = "bun filled with custard"
code = "CB"
formula = [ { item = "milk", absolute = "2kg" }, { item = "custard", absolute = "1kg" } ]
pieces = 20
steps = ["mix", "bake", "fill", "pack"]
kill_step = "bake"
label = "cream-bun-1"
date = "use-by"
shelf_life = "36h"
[[product]]
id = "trifle"
name = "trifle, made cold"
code = "TR"
formula = [ { item = "cream", absolute = "1kg" } ]
pieces = 10
steps = ["fill", "pack"]
label = "trifle-1"
date = "use-by"
shelf_life = "5days"
[[product]]
id = "ice"
name = "parfait"
code = "ICE"
formula = [ { item = "cream", absolute = "1kg", optional = true }, { item = "salt", absolute = "1kg" } ]
pieces = 10
steps = ["mix"]
thawed_within = "2days"
[[product]]
id = "sorbet"
name = "sorbet"
code = "SO"
formula = [ { item = "salt", absolute = "1kg" } ]
pieces = 10
steps = ["mix"]
thawed_within = "2days"
refreeze = true
[[label]]
id = "cream-bun-1"
name = "cream bun"
product = "cream-bun"
market = "eu"
declares = ["milk"]
[[label]]
id = "trifle-1"
name = "trifle"
product = "trifle"
market = "eu"
declares = ["milk"]
[[label]]
id = "trifle-2"
name = "trifle, new print"
product = "trifle"
market = "eu"
declares = ["milk"]
)toml";

struct Dated : Bakery {
    Dated() {
        std::string plan(bakery_plan);
        const std::string loaf = "line = \"line-1\"\nlabel = \"loaf-1\"\n";
        plan.replace(plan.find(loaf), loaf.size(), loaf + "kill_step = \"bake\"\nshelf_life = \"5days\"\n");
        adopt(plan + std::string(goods));
        receive("WF-1", "wheat-flour", "500kg");
    }
    // Weighed, done and finished at once, with the step that kills last unless `kill` is empty.
    void make(const std::string& code, const std::string& product, const std::vector<std::pair<std::string, std::string>>& uses,
              const std::string& kill = "", std::int64_t pieces = 0) {
        start(code, product);
        for (const auto& [lot, mass] : uses) use(code, lot, mass);
        pass(minutes(1));
        if (!kill.empty()) step(code, kill);
        if (kill != "bake") finish(code, pieces, "5kg");
    }
    record::Packed dated(const std::string& code, const std::string& from, const std::string& date, const std::string& label = "") const {
        auto p = packed(code, from, 1, "K-" + code, label);
        if (!date.empty()) p.date = *parse_date(date);
        return p;
    }
    std::string use_of(const std::string& code) const { return site->use_of(lot(code)); }
};

bool says(const Receipt& receipt, const std::string& line) {
    return std::find(receipt.next.begin(), receipt.next.end(), line) != receipt.next.end();
}

}  // namespace

TEST_CASE("rule 66: a shelf life counts from the bake, and the date to print is told before the reel runs") {
    Dated b;
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    b.use("L-1", "water", "18kg");
    b.use("L-1", "SALT-1", "600g");
    b.step("L-1", "mix");
    b.set("05:30");
    b.did(Bakery::reading("L-1", "core", "96C"));
    b.step("L-1", "bake");
    b.set("2026-11-17 01:00");  // left on the rack over night: the date is that of the bake
    const auto finished = b.finish("L-1", 54, "43.2kg");
    const std::string line = "print best-before 2026-11-21 at the latest: its shelf life, over 2026-11-21 05:30";
    CHECK(says(finished, line));
    CHECK(b.use_of("L-1") == line);
    CHECK(told(b.refused(b.dated("P-1", "L-1", "2026-11-22"))) ==
          "packing L-1 under the date 2026-11-22 | best-before 2026-11-21 at the latest: its shelf life, over 2026-11-21 05:30 | print the "
          "right date, and pack those; if it has already happened: --already-done --why ...");
    CHECK(told(b.refused(b.dated("P-1", "L-1", ""))) ==
          "packing L-1, which has no date on its packs | best-before 2026-11-21 at the latest: its shelf life, over 2026-11-21 05:30 | add "
          "--date as it is printed; where none is, print anew; if it has already happened: --already-done --why ...");
    b.did(b.dated("P-1", "L-1", "2026-11-21"));
    b.did(b.dated("P-2", "L-1", "2026-11-19"));  // earlier is fine
    const auto done = b.already_done(b.dated("P-3", "L-1", "2026-11-22"), "the reel of the day before");
    REQUIRE(done.findings.size() == 1);
    CHECK(done.findings.front().finding.point == "already-done");
    CHECK(done.findings.front().finding.grade == Grade::critical);
    CHECK(b.held("P-3"));
    CHECK(b.faults().empty());
}

TEST_CASE("rule 66: a rack, and what is packed of it, is as old as the whole; past it a reason is asked") {
    Dated b;
    b.loaf("L-1", "WF-1");  // baked at 05:35
    b.did(record::Split{"L-1", "L-1/A", "A", 20, {}});
    CHECK(b.use_of("L-1/A") == "print best-before 2026-11-21 at the latest: the shelf life of L-1, over 2026-11-21 05:35");
    CHECK(b.refused(b.dated("P-1", "L-1/A", "2026-11-22")).given == "packing L-1/A under the date 2026-11-22");
    b.set("2026-11-21 05:34");
    b.did(Bakery::metal(true));
    b.pass(minutes(1));
    auto pack = b.draft(b.dated("P-2", "L-1/A", "2026-11-21"));
    CHECK(told(b.refused(pack)) ==
          "packing L-1/A, past the shelf life of L-1, over 2026-11-21 05:35 | a reason for it all the same | add "
          "--why \"...\"; it will show");
    pack.why = "for the staff";
    b.did(pack);
    CHECK(b.faults().empty());
}

TEST_CASE("rule 66: a bake that nobody recorded is taken to have been no later than the start") {
    Dated b;
    b.set("23:30");
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    b.use("L-1", "water", "18kg");
    b.use("L-1", "SALT-1", "600g");
    b.set("2026-11-17 00:20");
    b.did(Bakery::reading("L-1", "core", "96C"));
    b.set("2026-11-17 00:30");
    b.finish("L-1", 54, "43.2kg");
    CHECK(b.use_of("L-1") ==
          "print best-before 2026-11-21 at the latest: its shelf life, over 2026-11-21 23:30; no end of bake is recorded");
    b.did_at(record::StepDone{"L-1", "bake", ""}, "2026-11-17 00:25");
    CHECK(b.use_of("L-1") == "print best-before 2026-11-22 at the latest: its shelf life, over 2026-11-22 00:25");
    b.did_at(record::StepDone{"L-1", "bake", ""}, "2026-11-17 00:28");  // of two ends the earlier
    CHECK(b.use_of("L-1") == "print best-before 2026-11-22 at the latest: its shelf life, over 2026-11-22 00:25");
    CHECK(b.faults().empty());
}

TEST_CASE("rule 66: a use-by date stands for a whole day, so it is the last that is over in time") {
    Dated b;
    b.receive("MILK-1", "milk", "50kg", "M-1", "2026-11-18");
    b.make("CU-1", "custard", {{"MILK-1", "10kg"}}, "boil");
    b.start("CB-1", "cream-bun");
    b.use("CB-1", "MILK-1", "2kg");
    b.set("05:30");
    b.step("CB-1", "bake");
    b.set("06:00");
    b.use("CB-1", "CU-1", "1kg");
    b.finish("CB-1", 20, "2kg");
    CHECK(b.use_of("CB-1") == "print use-by 2026-11-16 at the latest: its shelf life, over 2026-11-17 17:30");
    CHECK(b.refused(b.dated("P-1", "CB-1", "2026-11-17")).wanted ==
          "use-by 2026-11-16 at the latest: its shelf life, over 2026-11-17 17:30");
    b.did(b.dated("P-1", "CB-1", "2026-11-16"));
    CHECK(b.faults().empty());
}

TEST_CASE("rule 66: a use-by of what went in after the bake counts, one of before does not; a best-before never") {
    Dated b;
    b.receive("MILK-1", "milk", "50kg", "M-1", "2026-11-18");
    b.make("CU-1", "custard", {{"MILK-1", "10kg"}}, "boil");  // boiled 05:01: to be used by Thursday 05:01
    CHECK(b.use_of("CU-1") == "use it before 2026-11-19 05:01: its time for use, over 2026-11-19 05:01");
    b.set("2026-11-18 05:00");
    b.start("CB-1", "cream-bun");
    b.use("CB-1", "MILK-1", "2kg");  // on its last day, into the dough
    b.set("2026-11-18 05:30");
    b.step("CB-1", "bake");
    b.set("2026-11-18 06:00");
    b.use("CB-1", "CU-1", "1kg");
    b.finish("CB-1", 20, "2kg");
    CHECK(b.ask("SELECT keeping.kind, reason, code FROM keeping JOIN lot ON lot.id = source WHERE keeping.lot = " +
                std::to_string(b.lot("CB-1").id)) == std::vector<std::string>{"use-by age CU-1"});
    CHECK(b.use_of("CB-1") == "print use-by 2026-11-18 at the latest: the time for use of CU-1, over 2026-11-19 05:01");
    b.did(b.dated("P-1", "CB-1", "2026-11-18"));
    b.set("2026-11-19 05:01");
    b.start("CB-2", "cream-bun");
    CHECK(told(b.refused(Bakery::used("CB-2", "CU-1", "1kg"))) ==
          "use of CU-1, past its time for use, over 2026-11-19 05:01 | a lot within its time | discard it; if it has already happened: "
          "--already-done --why ...");
    CHECK(b.refused(Bakery::out("customer", "P-1", 1, "CAFE")).given == "shipping P-1, past its use-by date 2026-11-18");
    CHECK(b.refused(b.dated("P-2", "CB-1", "2026-11-18")).given == "packing CB-1, past the time for use of CU-1, over 2026-11-19 05:01");
    CHECK(b.faults().empty());
}

TEST_CASE("rule 66: milk that goes in after the bake ends the bun, and an amended time of its use moves that") {
    Dated b;
    b.receive("MILK-1", "milk", "50kg", "M-1", "2026-11-16");
    b.receive("MILK-2", "milk", "50kg", "M-2", "2026-11-30");
    b.make("CU-1", "custard", {{"MILK-2", "10kg"}}, "boil");
    b.start("CB-1", "cream-bun");
    b.pass(minutes(10));
    b.step("CB-1", "bake");
    b.pass(minutes(10));
    b.use("CB-1", "CU-1", "1kg");
    const auto late = b.use("CB-1", "MILK-1", "2kg");  // it went into the dough, and was typed now
    b.finish("CB-1", 20, "2kg");
    CHECK(b.use_of("CB-1") == "print use-by 2026-11-16 at the latest: the use-by date 2026-11-16 of MILK-1");
    auto amended = b.site->amend(late.seq, Bakery::used("CB-1", "MILK-1", "2kg"), b.at("05:05"), "QA", "it was in the dough");
    REQUIRE(amended.ok());
    CHECK(b.use_of("CB-1") == "print use-by 2026-11-16 at the latest: the use-by date 2026-11-16 of MILK-1");  // it waits
    b.countersigned(amended->seq);
    CHECK(b.use_of("CB-1") == "print use-by 2026-11-16 at the latest: its shelf life, over 2026-11-17 17:11");
    CHECK(b.faults().empty());
}

TEST_CASE(
    "rule 66: what becomes known after the packing shows that the date on the packs is too late, and holds what is to be used by it") {
    Dated b;
    b.receive("CREAM-1", "cream", "10kg", "C-1", "2026-11-30");
    b.make("TR-1", "trifle", {{"CREAM-1", "1kg"}}, "", 10);
    b.did(b.dated("P-1", "TR-1", "2026-11-20"));
    b.loaf("L-1", "WF-1");
    b.did(Bakery::metal(true));
    b.did(b.dated("P-2", "L-1", "2026-11-21"));
    b.did_at(record::ClockStarted{"CREAM-1", "opened"}, "05:00");  // before any of it was used: until Thursday 05:00
    const auto f = b.finding("P-1", "printed-date");
    CHECK(f.verdict == Verdict::deviation);
    CHECK(f.grade == Grade::critical);
    CHECK(f.measured == "use-by 2026-11-20");
    CHECK(f.limit_text == "at the latest 2026-11-18");
    CHECK(f.detail == "Too late by what is known now: the time once opened of CREAM-1, over 2026-11-19 05:00.");
    CHECK(b.held("P-1"));
    CHECK_FALSE(b.has_finding("P-2", "printed-date"));
    CHECK(b.faults().empty());
}

TEST_CASE("rule 66: packs that are packed anew get no later date than they had") {
    Dated b;
    b.receive("CREAM-1", "cream", "10kg", "C-1", "2026-11-30");
    b.make("TR-1", "trifle", {{"CREAM-1", "1kg"}}, "", 10);  // finished 05:01, five days: Friday is the last whole one
    auto first = b.dated("P-1", "TR-1", "2026-11-18");
    first.from.front().pieces = 5;
    b.did(first);
    CHECK(b.refused(b.dated("P-2", "TR-1", "2026-11-21")).wanted.starts_with("use-by 2026-11-20 at the latest"));
    CHECK(told(b.refused(b.dated("P-2", "P-1", "2026-11-20", "trifle-2"))) ==
          "use of P-1 under the date 2026-11-20 | use-by 2026-11-18 at the latest: its use-by date 2026-11-18 | print the right date, and "
          "pack "
          "those; if it has already happened: --already-done --why ...");
    b.did(b.dated("P-2", "P-1", "2026-11-18", "trifle-2"));
    CHECK(b.faults().empty());
}

TEST_CASE("rule 67: an opened tub is to be used in time; a clock is not begun anew, but by another tub") {
    Dated b;
    b.receive("CREAM-1", "cream", "10kg", "C-1", "2026-11-30");
    b.set("08:00");
    const auto opened = b.did(record::ClockStarted{"CREAM-1", "opened"});
    CHECK(says(opened, "use it before 2026-11-19 08:00: its time once opened, over 2026-11-19 08:00"));
    b.set("2026-11-18 07:00");
    b.make("TR-1", "trifle", {{"CREAM-1", "1kg"}}, "", 10);
    b.set("2026-11-19 07:59");
    CHECK(told(b.refused(record::ClockStarted{"CREAM-1", "opened"})) ==
          "CREAM-1, which was opened 2026-11-16 08:00 | what is not open yet | if this is another tub or box of it, and the one before is "
          "used up: --another");
    b.start("TR-2", "trifle");
    b.use("TR-2", "CREAM-1", "500g");
    b.pass(minutes(1));
    CHECK(b.refused(Bakery::used("TR-2", "CREAM-1", "500g")).given == "use of CREAM-1, past its time once opened, over 2026-11-19 08:00");
    b.did(record::ClockStarted{"CREAM-1", "opened", true});
    b.use("TR-2", "CREAM-1", "500g");
    CHECK(b.refused(b.dated("P-1", "TR-1", "2026-11-18")).given ==
          "packing TR-1, past the time once opened of CREAM-1, over 2026-11-19 08:00");
    CHECK(b.faults().empty());
}

TEST_CASE("rule 67: a clock that began before the one that is known shortens, also typed late, and what was made since") {
    Dated b;
    b.receive("CREAM-1", "cream", "10kg", "C-1", "2026-11-30");
    b.set("08:00");
    b.did(record::ClockStarted{"CREAM-1", "opened"});
    b.set("09:00");
    b.make("TR-1", "trifle", {{"CREAM-1", "1kg"}}, "", 10);
    b.did_at(record::ClockStarted{"CREAM-1", "opened"}, "06:00");
    CHECK(b.use_of("CREAM-1") == "use it before 2026-11-19 06:00: its time once opened, over 2026-11-19 06:00");
    CHECK(b.use_of("TR-1") == "print use-by 2026-11-18 at the latest: the time once opened of CREAM-1, over 2026-11-19 06:00");
    CHECK(b.faults().empty());
}

TEST_CASE("rule 67: nothing is frozen twice, also not as part of what was thawed, unless the plan says so") {
    Dated b;
    b.make("ICE-1", "ice", {{"SALT-1", "1kg"}}, "", 10);
    b.did(record::Split{"ICE-1", "ICE-1/A", "A", 3, {}});
    b.pass(minutes(1));
    b.did(record::ClockStarted{"ICE-1", "thawed"});
    b.pass(minutes(1));
    b.did(record::Split{"ICE-1", "ICE-1/B", "B", 3, {}});
    b.pass(hours(1));
    CHECK(
        told(b.refused(record::ClockStarted{"ICE-1", "thawed"})) ==
        "ICE-1, which was thawed 2026-11-16 05:02 | what was never thawed: nothing is frozen twice unless the plan says refreeze = true | "
        "if this is another tub or box of it, and the one before is used up: --another");
    CHECK(
        told(b.refused(record::ClockStarted{"ICE-1/B", "thawed", true})) ==
        "ICE-1/B, which was thawed 2026-11-16 05:02 as part of ICE-1 | what was never thawed: nothing is frozen twice unless the plan says "
        "refreeze = true | discard it");
    b.did(record::ClockStarted{"ICE-1/A", "thawed"});  // taken off while it was frozen
    CHECK(b.use_of("ICE-1/A") == "use it before 2026-11-18 06:03: its time once thawed, over 2026-11-18 06:03");
    CHECK(b.use_of("ICE-1/B") == "use it before 2026-11-18 05:02: the time once thawed of ICE-1, over 2026-11-18 05:02");
    b.make("SO-1", "sorbet", {{"SALT-1", "1kg"}}, "", 10);
    b.did(record::ClockStarted{"SO-1", "thawed"});
    b.pass(hours(2));
    const auto again = b.did(record::ClockStarted{"SO-1", "thawed"});  // the first counts
    CHECK(says(again, "use it before 2026-11-18 06:04: its time once thawed, over 2026-11-18 06:04"));
    CHECK(b.faults().empty());
}

TEST_CASE("rules 59 and 60: a clock is taken back at once by an undo, and by a void once another person has countersigned") {
    Dated b;
    b.receive("CREAM-1", "cream", "10kg", "C-1", "2026-11-30");
    b.did(record::ClockStarted{"CREAM-1", "opened"});
    REQUIRE(b.site->undo("MK").ok());
    CHECK(b.use_of("CREAM-1").empty());
    const auto opened = b.did(record::ClockStarted{"CREAM-1", "opened"});
    b.pass(days(4));
    b.start("TR-1", "trifle");
    const auto voided = b.site->void_entry(opened.seq, "QA", "it was the other tub");
    REQUIRE(voided.ok());
    CHECK(b.refused(Bakery::used("TR-1", "CREAM-1", "1kg")).given == "use of CREAM-1, past its time once opened, over 2026-11-19 05:00");
    b.countersigned(voided->seq);
    b.use("TR-1", "CREAM-1", "1kg");
    CHECK(b.faults().empty());
}

TEST_CASE("rule 67: where the plan states no time none runs, and that is told") {
    Dated b;
    const auto receipt = b.did(record::ClockStarted{"WF-1", "opened"});
    CHECK(says(receipt, "the plan states no opened_within for wheat-flour: no time runs from it"));
    CHECK(b.refused(record::ClockStarted{"WF-1", "dropped"}).wanted == "opened or thawed");
    auto anybody = b.draft(record::ClockStarted{"WF-1", "thawed"});
    anybody.by = "BA";  // a baker, whose role names no such command
    b.did(anybody);
}

TEST_CASE("rule 22: past its date at the door a lot is refused, or wants a reason, as its kind says") {
    Dated b;
    record::Received r;
    r.material = "milk";
    r.supplier = "MILL";
    r.supplier_lot = "M-9";
    r.mass = measure("5kg");
    r.date = *parse_date("2026-11-15");
    r.allergens = {true, {"milk"}, {}};
    CHECK(told(b.refused(r)) ==
          "milk, past its use-by date 2026-11-15 | a lot within its use-by date | send it back: add --status refused "
          "--why \"...\"; or hold it: --status held");
    r.why = "the dairy said so";
    CHECK(b.refused(r).given == "milk, past its use-by date 2026-11-15");  // no reason helps
    r.status = "held";
    b.did(r);
    r.status = "refused";
    b.did(r);
    r.material = "wheat-flour";
    r.status = "accepted";
    r.why.clear();
    r.allergens = {true, {"wheat"}, {}};
    CHECK(told(b.refused(r)) == "wheat-flour, past its best-before date 2026-11-15 without a reason | why it was done | add --why \"...\"");
    r.why = "looks and smells sound, for crumbs";
    b.did(r);
    r.why.clear();
    r.date = *parse_date("2026-11-16");  // the day itself still counts
    b.did(r);
}

TEST_CASE("rule 59: a later date for what came in waits for another person, an earlier one counts at once") {
    Dated b;
    const auto receipt = b.receive("MILK-1", "milk", "10kg", "M-1", "2026-11-18");
    auto says = std::get<record::Received>(std::get<record::Statement>(b.site->entry(receipt.seq)->payload));
    says.date = *parse_date("2026-12-18");
    const auto later = b.amended(receipt.seq, says);
    CHECK(b.lot("MILK-1").date == "2026-11-18");
    b.countersigned(later.seq);
    CHECK(b.lot("MILK-1").date == "2026-12-18");
    says.date = *parse_date("2026-11-17");
    b.amended(receipt.seq, says);
    CHECK(b.lot("MILK-1").date == "2026-11-17");
    CHECK(b.faults().empty());
}

TEST_CASE("rule 22: what is to bear a use-by date and came without one is told of") {
    Dated b;
    CHECK(
        says(b.receive("MILK-1", "milk", "10kg"), "no use-by date of MILK-1 is stated, so none is watched: amend it with the date on it"));
    CHECK_FALSE(says(b.receive("MILK-2", "milk", "10kg", "M-2", "2026-11-18"),
                     "no use-by date of MILK-2 is stated, so none is watched: amend it with the date on it"));
}

TEST_CASE("the weigh sheet offers what the gate lets in, first expired first") {
    Dated b;
    b.receive("MILK-1", "milk", "10kg", "M-1", "2026-11-19");
    b.receive("MILK-2", "milk", "10kg", "M-2", "2026-11-17");
    b.receive("MILK-3", "milk", "10kg", "M-3", "2026-11-16");
    b.receive("MILK-4", "milk", "10kg", "M-4", "2026-11-18");
    b.receive("MILK-5", "milk", "10kg", "M-5", "2026-11-18");
    b.did(record::Held{{"MILK-4"}, "dented can", {}});
    record::Received undeclared;
    undeclared.lot = "MILK-6";
    undeclared.material = "milk";
    undeclared.supplier = "MILL";
    undeclared.mass = measure("10kg");
    b.did(undeclared);  // with a critical finding that nobody signed
    b.set("2026-11-17 05:00");
    record::Started start;
    start.product = "custard";
    const auto receipt = b.did(start);
    REQUIRE(receipt.weigh_sheet.size() == 1);
    CHECK(receipt.weigh_sheet.front().lots == std::vector<std::string>{"MILK-2", "MILK-5", "MILK-1"});
}

TEST_CASE("the code of a voided lot is never given again, neither typed nor by the program") {
    Dated b;
    record::Received r;
    r.material = "wheat-flour";
    r.supplier = "MILL";
    r.mass = measure("25kg");
    r.allergens = {true, {"wheat"}, {}};
    CHECK(b.did(r).code == "WF-261116-1");
    const auto second = b.did(r);
    CHECK(second.code == "WF-261116-2");
    REQUIRE(b.site->undo("MK").ok());
    CHECK(b.did(r).code == "WF-261116-3");
    r.lot = "WF-261116-2";
    CHECK(told(b.refused(r)) ==
          "lot code 'WF-261116-2', which entry " + std::to_string(second.seq) +
              " gave, and which was voided with it | a code that no lot ever had: labels with this one may still hang "
              "somewhere | leave --code out to get the next free one");
    CHECK(b.faults().empty());
}
