// Recalls and drills as they are typed.
#include <catch2/catch.hpp>

#include "cli/walk.h"

using namespace peelbook;
using namespace peelbook::cli;

namespace {

void receive_flour(Walk& walk) {
    walk.open_bakery();
    walk.must(
        "receive wheat-flour --from MILL-1 --lot W-4471 --mass 500kg --best-before 2099-05-02 --contains "
        "wheat --code FLOUR-1");
}

}  // namespace

TEST_CASE("a drill says DRILL on every screen, first and last") {
    Walk walk;
    receive_flour(walk);
    const Said opened = walk.must("drill open MILL-1:W-4471 --hazard stones --why 'yearly drill' --level C --aware 02:52");
    CHECK(opened.has("opened DRILL-261116-1 at 2026-11-16 03:00: stones, 1 lot, 0 deliveries"));
    const Said status = walk.must("drill status");
    CHECK(status.out.starts_with("*** DRILL ***\n"));
    CHECK(status.out.ends_with("*** DRILL ***\n"));
    CHECK(status.has("8 min"));
    CHECK(status.has("a recall would hold: FLOUR-1"));
    CHECK(status.has("every customer reached"));
    CHECK(status.has("Starting point"));  // the deadline's source, as the plan states it
    CHECK(status.has("since the snapshot: nothing was added or removed"));
    const Said json = walk.must("drill status DRILL-261116-1 --json");
    CHECK(json.has("\"drill\": true"));
    CHECK(json.has("\"stamp\": \"DRILL\""));
    CHECK(walk.run("status").out.starts_with("DRILL OPEN: DRILL-261116-1, stones, since 2026-11-16 03:00"));
    CHECK(walk.run("drill close DRILL-261116-1").err.find("NOT DONE: effectiveness check") == std::string::npos);  // nobody had any of it
    walk.must("drill close DRILL-261116-1 --why 'no shop had any of it, and a drill tells nobody else'");
    CHECK(walk.must("drill list").has("100.000%"));
    CHECK(walk.must("recall list").out == "no recall in the book\n");
    CHECK(walk.must("drill status --out drill.xlsx").has("wrote drill.xlsx"));
}

TEST_CASE("a recall holds at once; its code is not a drill's, and the other way round") {
    Walk walk;
    receive_flour(walk);
    const Said opened = walk.must("recall open FLOUR-1 --hazard stones --class II --why 'the miller called'");
    CHECK(opened.has("HELD: FLOUR-1"));
    const Said wrong = walk.run("drill close RECALL-261116-1");
    CHECK(wrong.code == 2);
    CHECK(wrong.err ==
          "refused: RECALL-261116-1 with `peelbook drill close`\nwanted: a drill\nnext: type: peelbook "
          "recall close RECALL-261116-1\n");
    CHECK(walk.run("recall close RECALL-261116-2").err.find("nearest: RECALL-261116-1") != std::string::npos);
    CHECK(walk.run("recall open FLUOR-1 --hazard stones --why x").err.find("nearest: FLOUR-1") != std::string::npos);
    CHECK(walk.must("recall tell RECALL-261116-1 authority --name 'food office' --how telephone")
              .has("authority told, food office, telephone"));
    CHECK(walk.must("recall contact RECALL-261116-1 CAFE-1 reached --person 'Ms Lund'").has("CAFE-1 had nothing of it"));
    CHECK(walk.must("recall calls").has("OVERDUE"));
    walk.must("recall try CAFE-1 reached --how telephone");
    CHECK_FALSE(walk.must("recall calls").has("OVERDUE"));
    CHECK(walk.must("recall decide RECALL-261116-1 --decision withdrawal --why 'stones of 3 mm'").has(": withdrawal"));
    CHECK(walk.must("recall status").has("withdrawal"));
}

TEST_CASE("one step back and forward, with what the book lacks") {
    Walk walk;
    receive_flour(walk);
    const Said answer = walk.must("trace onestep FLOUR-1");
    CHECK(answer.has("W-4471"));
    CHECK(answer.has("Weir Mill"));
    CHECK(answer.has("nothing of it has left the house"));
    CHECK(answer.has("not in the book: carrier of FLOUR-1: not stated"));
    CHECK(walk.must("trace onestep FLOUR-1 --json").has("\"supplier_lot\": \"W-4471\""));
}
