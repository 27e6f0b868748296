// An outage through the command line: stated once it is over, one finding, one action. Under the starter plan the chill room's air is
// owed every 4 h and the metal detector every hour from 04:00 to 14:00, here in UTC.
#include <catch2/catch.hpp>

#include "cli/walk.h"

using namespace peelbook;
using namespace peelbook::cli;

TEST_CASE("power out: one outage names what it left unchecked, and one action answers it") {
    Walk w;
    w.open_bakery();
    w.at("2026-11-16T06:30+00:00");
    w.must("reading chill-room chill-air 3.5C --at 04:10", 1);  // no instrument: unproven
    for (const char* time : {"04:30", "05:30", "06:30"}) w.must("inspect metal-detector metal-check yes --at " + std::string(time));
    w.at("2026-11-16T09:50+00:00");

    CHECK(w.run("outage --from 07:10 --until 09:45").code == 2);  // without a reason
    const Said later = w.run("outage --from 07:10 --until '2026-11-16 09:55' --why 'power out'");
    CHECK(later.code == 2);
    CHECK(later.err.find("a time in the future: 2026-11-16 09:55") != std::string::npos);

    // The detector was due by 07:30, the room by 08:10.
    const Said said = w.must("outage --from 07:10 --until 09:45 --why 'power out'", 1);
    CHECK(said.has("recorded 14  outage of 2:35, the whole house at 2026-11-16 09:45: power out\n"));
    CHECK(said.has("UNPROVEN: outage 2:35 without checks, limit every check that is owed (critical)"));
    CHECK(said.has(
        "Not checked: air of the chill room (chill-room chill-air), metal detector finds its test pieces (metal-detector metal-check)."));
    CHECK(w.run("status").has("outage"));
    w.must("act 14:outage --product 'probed, 4.6C' --process 'fuse replaced' --disposition release --by QA");
    CHECK_FALSE(w.run("status").has("outage"));
    w.must("amend 14 'until=2026-11-16 08:00' --why 'power was back earlier' --by QA", 1);
    CHECK(w.must("entry 14").has("08:00"));
}
