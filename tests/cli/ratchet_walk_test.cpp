// What is corrected or typed late waits for another person, told as command lines (rules 59 and 60).
#include <catch2/catch.hpp>

#include "cli/walk.h"

using namespace peelbook;
using namespace peelbook::cli;

namespace {

// One pan loaf under the starter plan, in the oven.
class Baking : public Walk {
  public:
    Baking() {
        open_bakery();
        must("receive wheat-flour --from MILL-1 --lot W-1 --mass 1000kg --contains wheat --code F-1 --by RS");
        must("calibrate probe-1 --method ice --read 0.1C --by QA");
        clock_at("04:00");
        must("start pan-loaf --flour 50kg --code PAN-1 --by MK");
        must("use F-1 50kg --into PAN-1 --by MK");
        must("reading PAN-1 dough-temperature 26C --with probe-1 --by MK");
        must("step PAN-1 mix --by MK");
        clock_at("04:40");
        must("step PAN-1 proof --by MK");
        clock_at("05:12");
    }
    void clock_at(const std::string& time) { at("2026-11-16T" + time + "+00:00"); }
    // A core that is too low, with the bake over and so long past that nothing corrects it: the number of its entry.
    std::string low_core() {
        must("reading PAN-1 bake-core 88.5C --with probe-1 --by MK");
        const std::string entry = last_entry();
        clock_at("05:20");
        must("step PAN-1 bake --by MK");
        clock_at("05:50");
        must("step PAN-1 cool --by MK", 1);
        return entry;
    }
    std::string last_entry() { return told("SELECT max(seq) FROM fact WHERE kind <> 'held'"); }
    // The one value that a question is answered with.
    std::string told(const std::string& sql) {
        const std::string rows = must("ask --csv \"" + sql + "\"").out;  // heading and row, each with CR LF (RFC 4180)
        const auto row = rows.find('\n') + 1;
        return rows.substr(row, rows.find('\r', row) - row);
    }
    // Verdict and what was measured of the core.
    std::string core() { return told("SELECT verdict || ' ' || measured FROM finding WHERE point = 'bake-core' AND lot IS NOT NULL"); }
};

}  // namespace

TEST_CASE("rule 59: the baker amends a core, both values stand, and quality countersigns; the hold stays") {
    Baking b;
    const std::string low = b.low_core();
    CHECK(b.core() == "3 88.5C");
    const Said amended = b.must("amend " + low + " value=98.5C --why 'typed 88, it was 98' --by MK", 1);
    const std::string entry = b.last_entry();
    CHECK(amended.has("entry " + entry + " waits for another person, until then the worse counts: peelbook countersign " + entry));
    CHECK(b.core() == "3 88.5C");
    const Said list = b.must("countersign --list", 1);
    CHECK(list.has("entry " + entry + ", amended by MK, 2026-11-16 05:50: entry " + low + ", reading\n"));
    CHECK(list.has("  before: subject: PAN-1; point: bake-core; value: 88.5C; instrument: probe-1\n"));
    CHECK(list.has("  after:  subject: PAN-1; point: bake-core; value: 98.5C; instrument: probe-1\n"));
    CHECK(list.has("  until then deviation: bake-core of PAN-1, 88.5C ["));
    CHECK(list.out.ends_with(caution_line));
    CHECK(b.must("status", 1).has("waiting for another person: 1\n"));
    const Said own = b.must("countersign " + entry + " --by MK", 2);
    CHECK(own.err.find("'countersign' by MK, role baker") != std::string::npos);
    const Said signed_now = b.must("countersign " + entry + " --by QA");
    CHECK(signed_now.has("countersigned entry " + entry));
    CHECK(b.core() == "0 98.5C");
    CHECK(b.must("status", 1).has("on hold: 1\n"));
    CHECK(b.must("countersign --list").has("Nothing waits."));
}

TEST_CASE("rule 59: a core typed from memory is unproven until somebody countersigns it, and then within") {
    Baking b;
    b.clock_at("05:20");
    b.must("step PAN-1 bake --by MK");
    b.clock_at("06:10");
    const Said late = b.must("reading PAN-1 bake-core 96.4C --with probe-1 --at 05:12 --by MK", 1);
    const std::string entry = b.last_entry();
    CHECK(b.core() == "1 96.4C");
    CHECK(late.has("entry " + entry + " waits for another person"));
    const Said list = b.must("countersign --list", 1);
    CHECK(list.has("  typed:  subject: PAN-1; point: bake-core; value: 96.4C; instrument: probe-1; at: 2026-11-16 05:12\n"));
    b.must("countersign " + entry + " --by QA");
    CHECK(b.core() == "0 96.4C");
}

TEST_CASE("rule 59: a refused correction never counted, and wants a reason") {
    Baking b;
    const std::string low = b.low_core();
    b.must("amend " + low + " value=98.5C --why 'typed 88, it was 98' --by MK", 1);
    const std::string entry = b.last_entry();
    CHECK(b.must("countersign " + entry + " --refuse --by QA", 2).err.find("a refusal without a reason") != std::string::npos);
    b.must("countersign " + entry + " --refuse --why 'the probe log says 88' --by QA", 1);
    CHECK(b.core() == "3 88.5C");
    CHECK(b.must("countersign --list").has("Nothing waits."));
}

TEST_CASE("rule 60: a step pressed too early and voided leaves nothing missing, and undo needs no second person") {
    Baking b;
    const bool undone = GENERATE(true, false);
    b.clock_at("04:50");
    b.must("step PAN-1 bake --by MK");
    const std::string early = b.last_entry();
    b.clock_at("05:05");
    b.must("step PAN-1 cool --by MK", 1);
    CHECK(b.core() == "2 no reading");
    b.must(undone ? "undo --by MK" : "void " + b.last_entry() + " --why 'the wrong batch' --by QA");
    b.must(undone ? "undo --by MK" : "void " + early + " --why 'the wrong batch' --by QA", undone ? 2 : 0);
    if (undone) b.must("void " + early + " --why 'the wrong batch' --by QA");
    const Said status = b.run("status");
    INFO(status.out);
    CHECK(status.has("open findings: none\n"));
    CHECK(b.must("countersign --list").has("Nothing waits."));
    b.clock_at("05:28");
    b.must("reading PAN-1 bake-core 96.4C --with probe-1 --by MK");
    b.clock_at("05:30");
    b.must("step PAN-1 bake --by MK");
    CHECK(b.core() == "0 96.4C");
}

TEST_CASE("rule 59: where there is no second person, what is late may be decided alone, and stays to be looked at") {
    Baking b;
    const auto file = b.folder / "bakery" / "site.toml";
    std::string text = *b.files.read(file);
    text.insert(text.find("[site]\n") + 7, "alone = true\n");
    std::filesystem::remove(file);
    b.files.create(file, text);
    b.must("plan adopt");
    b.clock_at("05:20");
    b.must("step PAN-1 bake --by AB");
    b.clock_at("06:10");
    b.must("reading PAN-1 bake-core 96.4C --with probe-1 --at 05:12 --by AB", 1);
    const std::string entry = b.last_entry();
    b.must("countersign " + entry + " --by AB", 2);  // wants a reason
    CHECK(b.must("countersign " + entry + " --why 'I read it and wrote it on my hand' --by AB").has("alone"));
    CHECK(b.core() == "0 96.4C");
    CHECK(b.must("countersign --list", 1).has("counts, decided alone, to be looked at"));
    b.must("countersign " + entry + " --by QA");
    CHECK(b.must("countersign --list").has("Nothing waits."));
}
