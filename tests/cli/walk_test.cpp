// Whole command lines against a real site under the starter plan: what a person types, what is printed, and
// the exit code.
#include "cli/walk.h"

#include <catch2/catch.hpp>

#include "base/text.h"

using namespace peelbook;
using namespace peelbook::cli;

namespace {

void receive_all(Walk& walk) {
    for (const char* line : {"receive wheat-flour --from MILL-1 --lot W4471 --mass 1000kg --best-before "
                             "2027-01-31 --contains wheat --code F-1 --by RS",
                             "receive yeast --from MILL-1 --lot Y-1 --mass 50kg --best-before 2026-12-20 "
                             "--free --code Y-1 --by RS",
                             "receive salt --from MILL-1 --lot S-1 --mass 50kg --free --code S-1 --by RS",
                             "receive butter --from DAIRY-1 --lot B-20 --mass 50kg --best-before 2026-12-20 "
                             "--contains milk --temperature 4.1C "
                             "--with probe-1 --code BU-1 --by RS"})
        walk.must(line);
}

void calibrate(Walk& walk) { walk.must("calibrate probe-1 passed --method ice --read 0.1C --reference 0C --by QA"); }

// 50 kg of flour: the formula of the starter plan gives water 62 %, yeast 2.5 %, salt 1.8 %, butter 2 %.
void mix(Walk& walk, const std::string& code) {
    walk.must("start pan-loaf --flour 50kg --code " + code + " --by MK");
    walk.must("use F-1 50kg --into " + code + " --by MK");
    walk.must("use water 31kg --into " + code + " --by MK");
    walk.must("use Y-1 1250g --into " + code + " --by MK");
    walk.must("use S-1 900g --into " + code + " --by MK");
    walk.must("use BU-1 1kg --into " + code + " --by MK");
}

}  // namespace

TEST_CASE("a new site: folder, plan, first person, and what to do next") {
    Walk walk;
    const Said made = walk.run("new bakery --by AB --person 'Ada Brandt' --name 'Weir Lane Bakery' --zone Europe/Berlin");
    CHECK(made.code == 0);
    CHECK(made.has("opened the book of a new site in bakery, signed by AB, time zone Europe/Berlin\n"));
    CHECK(made.has("next: peelbook --site bakery plan adopt --by AB\n"));
    CHECK(std::filesystem::exists(walk.folder / "bakery" / "site.toml"));
    CHECK(walk.run("--site bakery plan check").code == 0);
    const Said adopted = walk.run("--site bakery plan adopt --by AB");
    CHECK(adopted.code == 0);
    CHECK(adopted.out.starts_with("recorded "));
    CHECK(adopted.has(" at 2026-11-16 04:00"));  // 03:00 UTC in Berlin, UTC+1 in winter
    const Said twice = walk.run("new bakery --by AB");
    CHECK(twice.code == 2);
    CHECK(twice.out.empty());
    CHECK(twice.err.starts_with("refused: "));
}

TEST_CASE("a core that holds, a core that does not: verdict, action, hold, exit code") {
    Walk walk;
    walk.open_bakery();
    calibrate(walk);
    receive_all(walk);
    mix(walk, "PAN-1");
    walk.wait(minutes(60));
    const Said good = walk.run("reading PAN-1 bake-core 96.4C --with probe-1 --by MK");
    CHECK(good.code == 0);
    CHECK(good.has("  bake-core 96.4C of PAN-1"));
    CHECK(good.has(" at 2026-11-16 04:00\n"));
    CHECK(good.has("within: bake-core 96.4C"));
    CHECK(good.out.ends_with(caution_line));

    const Said unsettled = walk.run("reading PAN-1 bake-core 80C --with probe-1 --by MK");
    CHECK(unsettled.code == 0);
    CHECK(unsettled.has("next: bake-core: 80C is 13C below the limit of at least 93C: bake on and measure again\n"));
    CHECK_FALSE(unsettled.has("HELD"));
    walk.must("step PAN-1 bake --by MK", 1);  // the dough was not measured, and the end of the mix not said
    walk.wait(minutes(10));
    const Said bad = walk.run("reading PAN-1 bake-core 80C --with probe-1 --by MK");
    CHECK(bad.code == 1);
    CHECK(bad.has("DEVIATION: bake-core 80C of PAN-1"));
    CHECK(bad.has("  product: Bake on and measure again; once it is too late for that: hold the batch and tell quality.\n"));
    CHECK(bad.has("  process: Check oven setting, load and probe before the next batch.\n"));
    CHECK(bad.has("HELD: PAN-1"));
    CHECK(bad.out.ends_with(caution_line));

    const Said json = walk.run("reading PAN-1 bake-core 79C --with probe-1 --by MK --json");
    CHECK(json.code == 1);
    CHECK(json.has("\"verdict\": \"deviation\""));
    CHECK(walk.run("status").code == 1);
    const Said status = walk.run("status --json");
    CHECK(status.has("\"open_findings\""));
}

TEST_CASE("input that cannot be is refused on standard error with code 2, and nothing is written") {
    Walk walk;
    walk.open_bakery();
    receive_all(walk);
    const std::string before = walk.must("status --json", walk.run("status").code).out;
    const auto refused = [&walk](const std::string& line) {
        const Said said = walk.run(line);
        INFO(line << "\n" << said.out << said.err);
        CHECK(said.code == 2);
        CHECK(said.out.empty());
        CHECK(said.err.starts_with("refused: "));
        CHECK(said.err.find("\nwanted: ") != std::string::npos);
        CHECK(said.err.find("\nnext: ") != std::string::npos);
        return said.err;
    };
    CHECK(refused("use F-2 10kg --into PAN-1 --by MK").find("PAN-1") != std::string::npos);
    CHECK(refused("use F-1 10 --into PAN-1 --by MK").find("AMOUNT: ") != std::string::npos);
    CHECK(refused("reading F-1 bake-core --by MK").find("no VALUE") != std::string::npos);
    CHECK(refused("raeding F-1 bake-core 96C --by MK").find("nearest: reading") != std::string::npos);
    refused("start pan-loaf --flour 50kg --at '2030-01-01 05:00' --by MK");
    refused("start pan-laof --flour 50kg --by MK");
    refused("start pan-loaf --flour 50kg --by ZZ");
    refused("start pan-loaf --flour 50kg --dough 90kg --by MK");
    refused("hold F-1 --by QA");
    refused("void 9999 --why 'not there' --by AB");
    refused("entry 9999");
    refused("amend 9999 x=y --why z --by AB");
    refused("trace forward NOPE");
    refused("lot F-11");
    refused("ask 'DELETE FROM lot'");
    refused("report no-such-report");
    refused("plan show no-such-thing");
    refused("seal --by AB");
    refused("frobnicate");
    refused("plan frobnicate");
    refused("series F-1 bake-core no-such-file.csv --unit-of-values C --by AB");
    refused("replay no-such-file.txt");
    walk.environment.erase("PEELBOOK_BY");
    CHECK(refused("hold F-1 --why x") ==
          "refused: no initials\nwanted: who did it\nnext: add --by with your initials, or set PEELBOOK_BY\n");
    CHECK(walk.must("status --json", walk.run("status").code).out == before);
    walk.environment["PEELBOOK_SITE"] = (walk.folder / "nowhere").string();
    refused("status");
    walk.environment.erase("PEELBOOK_SITE");
    refused("status");
}

TEST_CASE("a token makes a repeated command one entry") {
    Walk walk;
    walk.open_bakery();
    const std::string line = "receive salt --from MILL-1 --lot S-9 --mass 5kg --free --code S-9 --by RS --token door-7";
    const Said first = walk.must(line);
    const Said again = walk.must(line);
    CHECK(first.out.starts_with("recorded "));
    CHECK(again.out.starts_with("recorded before "));
    CHECK(again.has("nothing new was written"));
}

TEST_CASE("a mistake is amended: the entry stays, the amendment names it, `entry` shows both") {
    Walk walk;
    walk.open_bakery();
    const Said received = walk.must("receive salt --from MILL-1 --lot S-9 --mass 5kg --free --code S-9 --by RS");
    const std::string seq = received.out.substr(9, received.out.find(' ', 9) - 9);
    walk.wait(minutes(5));
    const Said amended = walk.must("amend " + seq + " mass=50kg document=N-1 --why 'read 5 for 50' --by AB");
    CHECK(amended.out.starts_with("recorded "));
    const Said entry = walk.must("entry " + seq);
    CHECK(entry.has("5kg"));
    CHECK(entry.has("amended by entry "));
    CHECK(entry.has(" of AB at 2026-11-16 03:05: read 5 for 50\n"));
    CHECK(entry.has("5kg -> 50kg\n"));
    CHECK(entry.has("nothing -> N-1\n"));
    CHECK(walk.must("lot S-9").has("50kg"));
    walk.must("amend " + seq + " document=N-2 --why 'other note' --by AB");  // keeps the 50kg of the first amendment
    CHECK(walk.must("lot S-9").has("50kg"));
    CHECK(walk.must("lot S-9").has("N-2"));
    const Said wrong = walk.run("amend " + seq + " masss=1kg --why x --by AB");
    CHECK(wrong.code == 2);
    CHECK(wrong.err.find("nearest: mass") != std::string::npos);
    walk.must("void " + seq + " --why 'never came' --by AB");
}

TEST_CASE("from flour to cafe and back: finish, split, pack, ship, return, trace, export") {
    Walk walk;
    walk.open_bakery();
    calibrate(walk);
    receive_all(walk);
    mix(walk, "PAN-1");
    walk.wait(minutes(10));
    walk.must("reading PAN-1 dough-temperature 26C --with probe-1 --by MK");
    walk.must("step PAN-1 mix --by MK");
    walk.wait(minutes(80));
    walk.must("step PAN-1 proof --by MK");
    walk.wait(minutes(35));
    walk.must("reading PAN-1 bake-core 96.4C --with probe-1 --by MK");
    walk.must("step PAN-1 bake --by MK");
    walk.wait(minutes(150));
    walk.must("reading PAN-1 cool-before-packing 29C --with probe-1 --by MK");
    const Said finished = walk.must("finish PAN-1 --pieces 94 --mass 75.2kg --by MK");
    INFO(finished.out);
    const Said split = walk.must("split PAN-1 --part rack-A=50 --part rack-B=44 --by MK");
    CHECK(split.has("PAN-1/rack-A"));
    CHECK(split.has("PAN-1/rack-B"));
    walk.must("inspect PAN-1/rack-A label-check yes --unit 'start of run' --by AB");
    walk.must("inspect PAN-1/rack-A label-check yes --unit 'end of run' --by AB");
    walk.run("inspect metal-detector metal-check yes --by AB");  // the first of the day, and late
    walk.wait(minutes(1));
    const Said packed = walk.run("pack PAN-1/rack-A --label pan-loaf-1 --printed L320 --date 2026-11-21 --code PACK-1 --by AB");
    INFO(packed.out << packed.err);
    CHECK(packed.code <= 1);
    const Said too_early = walk.run("ship PACK-1 --to CAFE-1 --pieces 40 --document D-1 --by RS");
    CHECK(too_early.err.find("refused: shipping PACK-1, before the check at the end of its run: metal-check at metal-detector") == 0);
    walk.wait(minutes(1));
    walk.must("inspect metal-detector metal-check yes --by AB");
    const Said shipped = walk.run("ship PACK-1 --to CAFE-1 --pieces 40 --document D-1 --by RS");
    INFO(shipped.out << shipped.err);
    REQUIRE(shipped.code <= 1);
    const Said returned = walk.run("return PACK-1 --from CAFE-1 --pieces 2 --why crushed --by RS");
    INFO(returned.out << returned.err);
    CHECK(returned.code <= 1);

    const Said forward = walk.must("trace forward F-1");
    for (const char* text : {"traced forward: ", "PAN-1", "PAN-1/rack-A", "PACK-1", "CAFE-1", "L320", "mass balance"}) {
        CAPTURE(text, forward.out);
        CHECK(forward.has(text));
    }
    const Said json = walk.must("trace forward MILL-1:W4471 --json --out trace.xlsx");
    CHECK(json.has("\"lots\""));
    CHECK(json.has("\"customers\""));
    CHECK(json.has("\"balance\""));
    CHECK(json.has("\"mass_mg\""));
    CHECK(std::filesystem::file_size(walk.folder / "trace.xlsx") > 4000);
    CHECK(walk.must("trace back PACK-1").has("W4471"));
    CHECK(walk.must("allergens PAN-1").has("wheat"));
    CHECK(walk.must("allergens PACK-1 --json").has("milk"));
    CHECK(walk.must("lot PAN-1").has("94 pieces"));

    walk.must("export csv --out tables");
    CHECK(walk.files.read(walk.folder / "tables" / "use.csv")->find("from_lot") != std::string::npos);
    // Every table of the book has its file; the last hash of the entries is the head that `verify` prints.
    const auto named = walk.must("ask \"SELECT name FROM sqlite_master WHERE type = 'table' AND name <> 'attachment'\" --csv").out;
    std::istringstream names(named.substr(named.find('\n') + 1));
    for (std::string name; std::getline(names, name);) {
        while (!name.empty() && name.back() == '\r') name.pop_back();
        INFO(name);
        CHECK(walk.files.exists(walk.folder / "tables" / (name + ".csv")));
    }
    const std::string entries = *walk.files.read(walk.folder / "tables" / "entry.csv");
    const std::string status = walk.must("status --json", 1).out;  // nobody read the chill room
    const std::size_t last = entries.rfind("\r\n", entries.size() - 3) + 2;
    CHECK(status.find(entries.substr(entries.find(',', last) + 1, 64)) != std::string::npos);
    CHECK(walk.run("export csv --out tables").code == 2);
    CHECK(walk.must("verify --derived").has(": nothing wrong\n"));
    CHECK(walk.must("rebuild").has("made the derived tables anew from "));
    CHECK(walk.must("verify --derived").has(": nothing wrong\n"));
    walk.must("seal --given-to 'certifier' --by AB");
    walk.must("backup copy.db");
    CHECK(walk.run("backup copy.db").code == 2);
    CHECK(walk.must("ask 'SELECT code FROM lot ORDER BY code' --csv").out.starts_with("code\r\nBU-1\r\nF-1\r\n"));
}

TEST_CASE("a logger's file becomes readings, and stays refusable") {
    Walk walk;
    walk.open_bakery();
    receive_all(walk);
    mix(walk, "PAN-1");
    walk.wait(minutes(120));
    walk.write("core.csv", "time,value\n2026-11-16T04:00:00Z,60.5\n2026-11-16T04:10:00Z,96.1\n");
    const Said series = walk.run("series PAN-1 bake-core core.csv --unit-of-values C --with probe-1 --by AB");
    INFO(series.out << series.err);
    CHECK(series.code <= 1);
    CHECK(series.has("logger file core.csv"));
    CHECK(walk.must("ask \"SELECT count(*) AS n FROM reading WHERE point = 'bake-core'\" --csv").out == "n\r\n2\r\n");
    walk.write("broken.csv", "time,value\n2026-11-16T04:00:00Z,hot\n");
    CHECK(walk.run("series PAN-1 bake-core broken.csv --unit-of-values C --by AB").code == 2);
}

TEST_CASE("a changed byte in the book ends in exit code 3 and names the entry") {
    Walk walk;
    walk.open_bakery();
    const std::filesystem::path file = walk.folder / "bakery" / "book.db";
    std::string bytes = *walk.files.read(file);
    const std::string name = "Mirek Kolar";
    for (std::size_t at = bytes.find(name); at != std::string::npos; at = bytes.find(name, at))
        bytes.replace(at, name.size(), "Mirek Molar");
    std::filesystem::remove(file);
    walk.files.create(file, bytes);
    const Said verified = walk.run("verify");
    CHECK(verified.code == 3);
    CHECK(verified.out.empty());
    CHECK(verified.err.starts_with("damaged: entry 4: "));  // 1 opened, 2 first person, 3 plan adopted, 4 Mirek Kolar
    CHECK(walk.run("verify --json").has("\"entry\": 4"));
}

TEST_CASE("what is not a book ends in exit code 4") {
    Walk walk;
    walk.open_bakery();
    const std::filesystem::path file = walk.folder / "bakery" / "book.db";
    std::filesystem::remove(file);
    walk.files.create(file, "this is a shopping list, not a book, and long enough to be told apart from an empty file\n");
    const Said asked = walk.run("status");
    CHECK(asked.code == 4);
    CHECK(asked.out.empty());
    CHECK(asked.err.starts_with("failed: "));
    std::filesystem::remove(file);
    CHECK(walk.run("status").code >= 2);
}

TEST_CASE("an answer that cannot be written out ends in exit code 4") {
    Walk walk;
    std::ostringstream out, err;
    std::istringstream in;
    out.setstate(std::ios::badbit);
    const auto nothing = [](std::string_view) { return std::string(); };
    Context context(walk.clock, walk.files, out, err, in, nothing, walk.folder);
    CHECK(run(context, {"help"}) == 4);
    CHECK(err.str().starts_with("failed: the answer could not be written out\n"));
}

TEST_CASE("due and status answer 1 when something is overdue or open, and say so") {
    Walk walk;
    walk.open_bakery();
    calibrate(walk);
    receive_all(walk);
    CHECK(walk.run("status").code == 0);
    mix(walk, "PAN-1");
    walk.wait(minutes(30));
    const Said step = walk.run("step PAN-1 mix --by MK");  // the dough's temperature was not taken
    CHECK(step.code == 1);
    CHECK(step.has("MISSING: dough-temperature"));
    const Said status = walk.run("status");
    CHECK(status.code == 1);
    CHECK(status.has("open findings: 1\n"));
    CHECK(status.has(":dough-temperature"));
    CHECK(status.out.ends_with(caution_line));
    const Said due = walk.run("due --within 2h --json");
    CHECK(due.has("\"due\""));
    CHECK(due.has("\"caution\""));
}

TEST_CASE("the plan shows in words, the caution once and last; files that say the same have no changes") {
    Walk walk;
    walk.open_bakery();
    const Said shown = walk.must("plan show bake-core");
    CHECK(shown.has("bake-core"));
    CHECK(shown.has("93C | 200F"));
    CHECK(shown.out.find(caution_line) + caution_line.size() == shown.out.size());
    CHECK(walk.must("plan changes").out == "the files say the same as the version in force\n");
    const auto points = walk.folder / "bakery" / "points.toml";
    std::string text = *walk.files.read(points);
    text.replace(text.find("93C | 200F"), 10, "94C | 201F");
    std::filesystem::remove(points);
    walk.files.create(points, text);
    CHECK(walk.must("plan changes").has("bake-core"));
    text.replace(text.find("94C | 201F"), 10, "94 degrees");
    std::filesystem::remove(points);
    walk.files.create(points, text);
    const Said checked = walk.run("plan check");
    CHECK(checked.code == 1);
    CHECK(checked.has("points.toml:"));
    CHECK(checked.has("the plan cannot be adopted: 1 errors"));
    CHECK(walk.run("plan adopt").code == 2);
}

TEST_CASE("usage: help, version, a family, an unknown option") {
    Walk walk;
    CHECK(walk.run("").out.starts_with("peelbook: "));
    CHECK(walk.run("--help").code == 0);
    CHECK(walk.run("--version").out == walk.run("version").out);
    CHECK(walk.run("plan").has("plan adopt"));
    CHECK(walk.run("reading --help").has("usage: peelbook reading SUBJECT POINT VALUE [options]\n"));
    CHECK(walk.run("help plan adopt").has("peelbook plan adopt --by AB"));
    CHECK(walk.run("help nonsense").code == 2);
    CHECK(walk.run("--site").err == "refused: '--site'\nwanted: --site with a folder\nnext: type it as --site DIR\n");
    const Said wrong = walk.run("reading A b 3C --wiht probe-1");
    CHECK(wrong.code == 2);
    CHECK(
        wrong.err.starts_with("refused: option '--wiht'\nwanted: an option of this command\nnext: see the command's "
                              "--help\nnearest: --with"));
}
