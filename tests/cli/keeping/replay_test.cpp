// Replay: one command a line, stamps, late entries, and where it stops.
#include "cli/keeping/replay.h"

#include <catch2/catch.hpp>

#include "base/text.h"
#include "cli/walk.h"

using namespace peelbook;
using namespace peelbook::cli;

namespace {

const char* const morning =
    "# the first delivery\n"
    "\n"
    "2026-11-16T04:02+00:00 receive wheat-flour --from MILL-1 --lot W1 --mass 100kg --contains wheat --code "
    "F-1 --by RS\n"
    "2026-11-16T04:10+00:00 peelbook start pan-loaf --flour 50kg --code PAN-1 --by MK   # batch one\n"
    "2026-11-16T04:12+00:00 use F-1 50kg --into PAN-1 --at 2026-11-16T04:11+00:00 --by MK\n";

}  // namespace

TEST_CASE("the shipped replay takes a stamp as --at: the past shows as late") {
    Walk walk;
    walk.open_bakery();
    walk.at("2026-11-17T09:00+00:00");
    walk.write("morning.txt", morning);
    const Said said = walk.run("replay morning.txt --verbose");
    INFO(said.out << said.err);
    CHECK(said.code == 0);
    CHECK(said.has("replayed 3 lines of morning.txt: 3 done, 0 not within, 0 refused\n"));
    CHECK(said.has("at 2026-11-16 04:02, LATE: written 2026-11-17 09:00"));
    CHECK(said.has("at 2026-11-16 04:11, LATE: written 2026-11-17 09:00"));
    CHECK(walk.must("lot PAN-1").has("2026-11-16 04:10"));
}

TEST_CASE("quiet without --verbose: only the summary and what is not within") {
    Walk walk;
    walk.open_bakery();
    walk.at("2026-11-16T05:00+00:00");
    walk.write("morning.txt", morning);
    CHECK(walk.must("replay morning.txt").out == "replayed 3 lines of morning.txt: 3 done, 0 not within, 0 refused\n");
}

TEST_CASE("a refused line stops the replay and is named; --keep-going goes on") {
    Walk walk;
    walk.open_bakery();
    walk.at("2026-11-16T05:00+00:00");
    walk.write("bad.txt", std::string(morning) + "use NOPE 1kg --into PAN-1 --by MK\nsample F-1 1kg --why 'for the lab' --by QA\n");
    const Said stopped = walk.run("replay bad.txt");
    CHECK(stopped.code == 2);
    CHECK(stopped.err.starts_with("bad.txt:6: use NOPE 1kg --into PAN-1 --by MK\nrefused: "));
    CHECK(stopped.has("replayed 4 lines of bad.txt: 3 done, 0 not within, 1 refused\n"));

    walk.write("open.txt", "hold F-1 --why 'stones\nsample F-1 1kg --why 'for the lab' --by QA\n");
    const Said open = walk.run("replay open.txt");
    CHECK(open.code == 2);
    CHECK(open.err ==
          "open.txt:1: hold F-1 --why 'stones\nrefused: 'hold F-1 --why 'stones'\nwanted: a closing '\nnext: "
          "close the quote\n");
    const Said on = walk.run("replay open.txt --keep-going");
    CHECK(on.code == 2);
    CHECK(on.has("replayed 2 lines of open.txt: 1 done, 0 not within, 1 refused\n"));
}

TEST_CASE("standard input is read for -") {
    Walk walk;
    walk.open_bakery();
    walk.at("2026-11-16T05:00+00:00");
    walk.input = morning;
    CHECK(walk.must("replay -").has("3 done"));
}

TEST_CASE("with a clock of its own, a stamp sets the clock and --at makes a late entry") {
    Walk walk;
    walk.open_bakery();
    std::ostringstream out, err;
    std::istringstream in;
    const auto look_up = [&walk](std::string_view name) { return walk.environment[std::string(name)]; };
    Context context(walk.clock, walk.files, out, err, in, look_up, walk.folder);
    const std::string text = std::string(morning) +
                             "2026-11-16T06:00+00:00 receive salt --from MILL-1 --lot S-1 --mass 5kg --free "
                             "--at 2026-11-16T05:00+00:00 --by RS\n";
    const Replayed replayed = replay(
        context, text, {.name = "week", .keep_going = false, .verbose = true, .on_stamp = [&walk](Instant t) { walk.clock.set(t); }});
    INFO(out.str() << err.str());
    CHECK(replayed.done == 4);
    CHECK(replayed.exit == Exit::done);
    CHECK(out.str().find("at 2026-11-16 04:02\n") != std::string::npos);
    CHECK(out.str().find("at 2026-11-16 05:00, LATE: written 2026-11-16 06:00, 1:00 after it happened") != std::string::npos);
}
