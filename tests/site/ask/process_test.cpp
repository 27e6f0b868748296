// What the formulas add at the bench, through the public face: predictions of cooling, dough water from
// learned friction, lethality, losses and classes as limits, and thermometers in ice and boiling water.
// Numbers by hand from the formulas of src/calc, whose sources stand there.
#include <cmath>

#include "fold/calibration.h"
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

const std::string process_points = R"toml(
[[point]]
id = "air"
name = "air of the bakehouse"
place = "line-1"
optional = true
class = "operating"
measures = "air"
limit = { most = "35C" }
[[point]]
id = "flour-warmth"
name = "flour"
step = "mix"
products = ["loaf"]
optional = true
class = "operating"
measures = "flour"
limit = { most = "35C" }
[[point]]
id = "water-warmth"
name = "water"
step = "mix"
products = ["loaf"]
optional = true
class = "operating"
measures = "water"
limit = { most = "45C" }
[[point]]
id = "dough-warmth"
name = "dough"
step = "mix"
products = ["loaf"]
optional = true
class = "operating"
measures = "dough"
limit = { most = "32C" }
[[point]]
id = "bake-loss"
name = "loss of the batch"
step = "cool"
products = ["loaf"]
class = "quality"
limit = { loss = { before = "inputs", after = "finish", least = "10%", most = "13%" } }
[[point]]
id = "kill"
name = "heat of the custard"
step = "boil"
products = ["bun"]
class = "critical"
measures = "middle of the kettle"
limit = { lethality = { t_ref = "62C", z = "6C", d = "1min", studied = { from = "56C", to = "66C" }, log = 5, cap = 7, longest_gap = "3min", food = ["custard"], source = "invented for this test" } }
basis = "invented for this test"
action = { product = "Heat on.", process = "Check the burner." }
[[point]]
id = "shelf"
name = "keeps without cooling"
step = "cool"
products = ["bun"]
optional = true
class = "operating"
limit = { ph_aw = { table = "B" } }
)toml";

void replace(std::string& text, const std::string& what, const std::string& by) {
    REQUIRE(text.find(what) != std::string::npos);
    text.replace(text.find(what), what.size(), by);
}

// The bakery under a second version of its plan that has these points, from 05:01 on.
void adopt_process(Bakery& b) {
    std::string text(bakery_plan);
    replace(text, "id = \"loaf\"\n",
            "id = \"loaf\"\ndough = { wanted = \"26C\", read = \"dough-warmth\", flour = \"flour-warmth\", "
            "water = \"water-warmth\", room = \"air\" }\n");
    replace(text, "name = \"custard bun\"\ncode", "name = \"custard bun\"\nsort = \"custard\"\ncode");
    replace(text, "], counted = \"start\", hot_at = \"boil\" } }\n",
            "], counted = \"start\", hot_at = \"boil\" } }\nroom_point = \"cold-air\"\n");
    std::filesystem::remove(b.folder / "site.toml");
    b.files.create(b.folder / "site.toml", text + process_points);
    for (const auto& fault : b.site->check_plan().faults) UNSCOPED_INFO(plan::to_text(fault));
    REQUIRE(b.site->check_plan().usable());
    b.pass(minutes(1));
    REQUIRE(b.site->adopt_plan("MK").ok());
    b.pass(minutes(1));
}

std::string tenths(double celsius) { return to_text(measure_of(std::llround(celsius * 10) * 100, Unit::celsius)); }

bool told_of(const std::vector<std::string>& lines, const std::string& part) {
    return std::any_of(lines.begin(), lines.end(), [&](const auto& line) { return line.find(part) != std::string::npos; });
}

// Buns that leave the kettle at 80 C and cool in 4 C air by Newton's law, read every ten minutes.
Receipt cool(Bakery& b, double k_per_min, int readings) {
    b.receive("WF-1", "wheat-flour", "100kg");
    b.receive("MILK-1", "milk", "50kg", "S-2", "2026-11-30");
    b.did(record::ReadingTaken{"cold-store", "cold-air", measure("4C"), "", "probe", ""});
    b.start("B-1", "bun");
    b.finish("B-1", 160, "14.4kg");
    Receipt last;
    for (int i = 1; i <= readings; ++i) {
        b.pass(minutes(10));
        last = b.did(Bakery::reading("B-1", "cooling", tenths(4 + 76 * std::exp(-k_per_min * 10 * i))));
    }
    return last;
}

}  // namespace

TEST_CASE("the receipt of a reading and `due` predict when a tray is cold, by the room that was read") {
    Bakery b;
    adopt_process(b);
    const Instant out = b.clock.now();
    CHECK(cool(b, 0.015, 2).outlook.empty());  // two readings: nothing to fit
    Bakery c;
    adopt_process(c);
    const Receipt receipt = cool(c, 0.015, 4);
    REQUIRE(receipt.outlook.size() == 1);
    const auto& ahead = receipt.outlook[0].ahead;
    // 21 C after ln(76 / 17) / 0.015 = 99.8 min; hot until the boil was over, last above 57 C at 20 min (60.3
    // C): 2 h from there.
    CHECK(std::abs((*ahead.at - out).ms / 60'000 - 100) <= 10);  // other curves than Newton's are allowed for
    CHECK(ahead.limit == out + minutes(140));
    CHECK_FALSE(ahead.room_fitted);
    CHECK(told_of(receipt.next, "cooling: expected 21C at 06:4"));
    CHECK(told_of(receipt.next,
                  "; limit 07:22: may be late, look again soon (4 readings, room 4.0C read 05:02); a prediction, the readings decide"));
    const auto due = c.site->due(c.clock.now() + hours(8));
    const auto of_lot = std::find_if(due.begin(), due.end(), [](const auto& d) { return d.owed.subject == "B-1"; });
    REQUIRE(of_lot != due.end());
    REQUIRE(of_lot->outlook.size() == 1);
    CHECK(of_lot->outlook[0].text == receipt.outlook[0].text);
    CHECK(c.finding("B-1", "kill").verdict == Verdict::missing);  // the kettle was never read: missing, prediction or not
    CHECK_FALSE(c.has_finding("B-1", "cooling"));                 // open: a prediction is no verdict
    CHECK(c.faults() == "");
}

TEST_CASE("a tray that will be late is told while there is time to act") {
    Bakery b;
    adopt_process(b);
    const Receipt receipt = cool(b, 0.009, 6);  // 21 C after 166 min, the limit is 160 min
    CHECK(told_of(receipt.next, ": TOO LATE at this rate, act now"));
    CHECK(b.clock.now() < *receipt.outlook[0].ahead.limit);
    CHECK_FALSE(b.has_finding("B-1", "cooling"));  // open, not yet broken
}

TEST_CASE("dough water is suggested from the friction of the batches before, once three are read") {
    Bakery b;
    adopt_process(b);
    b.receive("WF-1", "wheat-flour", "500kg");
    b.did(record::ReadingTaken{"line-1", "air", measure("23C"), "", "probe", ""});
    const auto mixed = [&](const std::string& code, const std::string& dough) {
        const auto started = b.start(code, "loaf");
        b.did(Bakery::reading(code, "flour-warmth", "20C"));
        b.did(Bakery::reading(code, "water-warmth", "15C"));
        b.did(Bakery::reading(code, "dough-warmth", dough));
        b.pass(minutes(20));
        return started;
    };
    const auto first = mixed("L-1", "25C");  // 3 x 25 - (20 + 23 + 15) = 17
    REQUIRE(first.water);
    CHECK_FALSE(first.water->water_c);
    CHECK(first.water->text ==
          "water for a dough of 26C: not reckoned, 0 of 3 batches of this size have every temperature read "
          "(dough-warmth, flour-warmth, "
          "air, water-warmth)");
    mixed("L-2", "26C");  // 20
    mixed("L-3", "27C");  // 23
    const auto fourth = b.start("L-4", "loaf");
    REQUIRE(fourth.water);
    REQUIRE(fourth.water->water_c);
    CHECK(*fourth.water->water_c == Approx(3 * 26 - (20 + 23) - 20));  // mean friction 20
    CHECK(*fourth.water->from_c == Approx(12));                        // its standard deviation is 3
    CHECK(*fourth.water->until_c == Approx(18));
    CHECK(fourth.water->text ==
          "water 15.0C (12.0C to 18.0C) for a dough of 26C = 3 x 26C - (20.0C read 05:42 (flour-warmth) + "
          "23.0C "
          "read 05:02 (air)) - friction 20.0C of 3 batches");
    const auto learned = b.site->learned_friction("loaf", "", 0);
    REQUIRE(learned.ok());
    CHECK(learned->batches.size() == 3);
    CHECK(learned->batches[0].lot == "L-3");
    CHECK(learned->batches[0].friction_c == Approx(23));
    CHECK(learned->mean_c == Approx(20));
    CHECK(*learned->sd_c == Approx(3));
    CHECK(b.site->learned_friction("loaf", "line-2", 0)->batches.empty());         // another mixer
    CHECK(b.site->learned_friction("loaf", "", 100'000'000)->batches.empty());     // another size: these are 48.6 kg
    CHECK(b.site->learned_friction("loaf", "", 50'000'000)->batches.size() == 3);  // within a tenth
    CHECK(told(b.site->learned_friction("laof", "", 0).refusal()) == "product 'laof' | a product of the plan | known with it: loaf | loaf");
}

TEST_CASE("a kettle whose heat falls short is held by itself; one of enough heat is within") {
    Bakery b;
    adopt_process(b);
    b.start("B-1", "bun");
    const auto read = [&](const std::string& lot, const std::string& value) {
        const auto receipt = b.did(Bakery::reading(lot, "kill", value));
        b.pass(minutes(3));
        return receipt;
    };
    read("B-1", "62C");
    // 3 min at 62 C are 3 log at D 1 min.
    CHECK(told_of(read("B-1", "62C").next, "kill: 3.00 log so far of 5.00 log: go on heating, and read again"));
    const auto finished = b.did(record::Finished{"B-1", 160, measure("14.4kg"), ""});
    CHECK(b.finding("B-1", "kill").verdict == Verdict::deviation);
    CHECK(b.finding("B-1", "kill").measured == "3.00 log");
    CHECK(b.held("B-1"));
    CHECK(finished.judged_bad());
    b.start("B-2", "bun");
    read("B-2", "62C");
    read("B-2", "66C");
    read("B-2", "70C");  // 3 min at the rate of 62 C and 3 at that of 66 C, 10^(4 / 6) = 4.64: 16.9 log
    CHECK(b.finding("B-2", "kill").verdict == Verdict::within);
    CHECK(b.finding("B-2", "kill").measured == "at least 7.00 log");
    CHECK(b.faults() == "");
}

TEST_CASE("a loss of the whole batch is judged at finish, and pH with water activity wants both") {
    Bakery b;
    adopt_process(b);
    b.receive("WF-1", "wheat-flour", "500kg");
    b.loaf("L-1", "WF-1");  // 48.6 kg in, 43.2 kg out: 11.11 %
    CHECK(b.finding("L-1", "bake-loss").verdict == Verdict::within);
    CHECK(b.finding("L-1", "bake-loss").measured == "11.11%");
    b.start("B-1", "bun");
    const auto half = b.did(Bakery::reading("B-1", "shelf", "5.2pH"));
    CHECK(told_of(half.next, "shelf: water activity of the same batch: 5.2pH alone does not decide"));
    CHECK(told(b.refused(Bakery::reading("B-1", "shelf", "20C"))) ==
          "20C for shelf | a pH or a water activity | type it like 5.6pH or 0.93aw");
    b.did(Bakery::reading("B-1", "shelf", "0.87aw"));
    CHECK(b.finding("B-1", "shelf").verdict == Verdict::within);
    CHECK(told(b.refused(Bakery::reading("L-1", "bake-loss", "11%"))) ==
          "a reading for bake-loss | nothing: it is reckoned from two weighings, from 10% to 13% lost from "
          "inputs to finish | record these, "
          "and finish the batch");
    CHECK(b.faults() == "");
}

TEST_CASE("what was weighed is held against the weigh sheet at once: to come, within tolerance, too much") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.start("L-1", "loaf");  // 30 kg of flour, tolerance 2 %
    CHECK(b.use("L-1", "WF-1", "20kg").next == std::vector<std::string>{"wheat flour: 20kg so far of 30kg, 10kg to come"});
    CHECK(b.use("L-1", "WF-1", "9.4kg").next.empty());  // 29.4 kg: 2 % less, inclusive
    CHECK(b.use("L-1", "WF-1", "1.201kg").next ==
          std::vector<std::string>{"wheat flour: 30.601kg recorded, 30kg wanted, 601g too much; tolerance 2%."});
}

TEST_CASE("a probe in melting ice: the reference is nature's, the result the tolerance's, inclusive") {
    const plan::Plan none;  // no tolerance in the plan: FDA Food Code 2022, 4-203.11, 1 C or 2 F (checks C25, C26)
    const auto in_ice = [&](const std::string& read, std::optional<bool> said = {}) {
        return fold::checked_in_bath(none, {"probe", "ice", measure(read), {}, false, ""}, {}, said);
    };
    CHECK(in_ice("1C")->passed);
    CHECK_FALSE(in_ice("1.1C")->passed);
    CHECK(in_ice("34F")->passed);
    CHECK_FALSE(in_ice("34.1F")->passed);
    CHECK(in_ice("-0.4C")->reference == measure("0C"));
    CHECK(in_ice("-0.4C")->note == "melting ice: 0C; -0.4C - 0C = -0.4C, tolerance 1C");
    CHECK(in_ice("33F")->note == "melting ice: 32F; 33F - 32F = 1F, tolerance 2F");
    CHECK(
        told(in_ice("1.1C", true).refusal()) ==
        "probe passed at 1.1C - 0C = 1.1C, tolerance 1C | failed: it is outside its tolerance | leave the result out, and it is reckoned");
    CHECK_FALSE(in_ice("0C", false)->passed);  // who says that it failed is believed: a cracked lead reads right in ice
    plan::Plan strict;
    strict.instruments.push_back({"probe", "probe", "", measure("0.3C"), {}, {}, ""});
    CHECK(fold::checked_in_bath(strict, {"probe", "ice", measure("0.3C"), {}, false, ""}, {}, {})->passed);
    CHECK_FALSE(fold::checked_in_bath(strict, {"probe", "ice", measure("0.4C"), {}, false, ""}, {}, {})->passed);
}

TEST_CASE("against any reference the figures decide, by the tolerance of the plan") {
    plan::Plan plan;
    plan.instruments.push_back({"meter", "pH meter", "", measure("0.05pH"), {}, {}, ""});
    plan.instruments.push_back({"old", "pH meter", "", {}, {}, {}, ""});
    const auto read = [&](const std::string& instrument, const std::string& value, std::optional<bool> said) {
        return fold::checked_in_bath(plan, {instrument, "reference", measure(value), measure("4.01pH"), false, ""}, {}, said);
    };
    CHECK(read("meter", "4.06pH", {})->passed);
    CHECK(read("meter", "4.06pH", {})->note == "4.06pH - 4.01pH = 0.05pH, tolerance 0.05pH");
    CHECK_FALSE(read("meter", "4.07pH", {})->passed);
    CHECK(read("meter", "4.06pH", true)->note.empty());
    CHECK(told(read("meter", "4.07pH", true).refusal()) ==
          "meter passed at 4.07pH - 4.01pH = 0.06pH, tolerance 0.05pH | failed: it is outside its tolerance | leave the result out, and it "
          "is reckoned");
    CHECK_FALSE(read("meter", "4.01pH", false)->passed);
    CHECK(told(read("old", "4.01pH", {}).refusal()) ==
          "a calibration of old without a result | a tolerance of it in the plan, by which it is reckoned | type passed or failed; a pass "
          "shows nothing until the plan states tolerance");
    CHECK(told(read("meter", "4C", {}).refusal()).starts_with("a reference of 4.01pH for a reading of 4C | one unit for both"));
}

TEST_CASE("a probe in boiling water: the boiling point of the station pressure or the height") {
    const plan::Plan none;
    const auto boiling = [&](const std::string& read, fold::Bath bath) {
        return fold::checked_in_bath(none, {"probe", "boiling", measure(read), {}, false, ""}, bath, {});
    };
    // Check C23: 96.687 C at 900 hPa (IAPWS-IF97), C24: 202.83 F at 5000 ft (with the 1976 standard
    // atmosphere).
    const auto at_900 = boiling("97.6C", {90'000, {}});
    REQUIRE(at_900.ok());
    CHECK(at_900->passed);
    CHECK(at_900->reference == measure("96.69C"));
    CHECK(at_900->note == "boiling water, 900hPa: 96.69C (IAPWS-IF97); 97.6C - 96.69C = 0.91C, tolerance 1C");
    CHECK_FALSE(boiling("97.7C", {90'000, {}})->passed);
    const auto high = boiling("202F", {{}, 1524});
    REQUIRE(high.ok());
    CHECK(high->reference == measure("202.83F"));
    CHECK(told(boiling("99C", {}).refusal()) ==
          "--method boiling without a pressure or a height | one of the two; the station pressure is the "
          "better one | add --pressure "
          "1004hPa or --altitude 300m");
    CHECK(told(boiling("99C", {90'000, 300.0}).refusal()).starts_with("both --pressure and --altitude | "));
    CHECK(told(fold::checked_in_bath(none, {"probe", "reference", {}, {}, false, ""}, {}, {}).refusal()) ==
          "a calibration without a result | its figures, or passed or failed | add --read and --reference; or type failed behind the "
          "instrument's name");
}
