// Honest days at the door and with yesterday's bread: goods that stood outside, flour that was used before its paper came, end slices.
#include <catch2/catch.hpp>

#include "cli/goods.h"

using namespace peelbook;
using namespace peelbook::cli;

TEST_CASE("milk left outside is judged at what it was when it was found, and its papers stay lacking until they come") {
    Goods day;
    day.at("2026-11-16T05:05+00:00");
    const Said found = day.must(
        "receive milk --from DAIRY-1 --lot M-7 --mass 50kg --contains milk --temperature 6.8C --with probe-1 --best-before 2026-11-24 "
        "--at 04:20 --code MI-7 --by RS",
        1);
    CHECK(found.has("LATE: written 2026-11-16 05:05, 0:45 after it happened\n"));
    CHECK(found.has("DEVIATION: chilled-receipt 6.8C of MI-7, limit at most 5C | 41F (operating)\n"));
    CHECK(found.has("  product: Refuse the delivery, or hold it and ask quality.\n"));
    CHECK(day.must("trace onestep MI-7").has("not in the book: carrier of MI-7: not stated\n"));
}

TEST_CASE("flour that was used before it was booked in: the same lot, from the moment it came, and both show as late") {
    Goods day;
    day.must("start pan-loaf --flour 50kg --code PAN-1 --by MK");
    CHECK(day.run("use SACK-1 50kg --into PAN-1 --by MK").err.starts_with("refused: lot 'SACK-1'\nwanted: a lot in the book\n"));
    day.at("2026-11-16T05:00+00:00");
    CHECK(day.must("receive wheat-flour --from MILL-1 --lot W-9 --mass 500kg --contains wheat --code SACK-1 --at 02:50 --by RS")
              .has("LATE: written 2026-11-16 05:00, 2:10 after it happened\n"));
    CHECK(day.must("use SACK-1 50kg --into PAN-1 --at 03:05 --by MK").has("LATE: written 2026-11-16 05:00, 1:55 after it happened\n"));
    CHECK(day.must("trace forward MILL-1:W-9").has("  PAN-1  batch"));
}

TEST_CASE("end slices of its own kind go into the next dough; held, returned, or not on the label they do not") {
    Goods day;
    day.mix("PAN-1");
    day.bake("PAN-1");
    day.mix("PAN-2");
    day.must("use PAN-1 4pcs --into PAN-2 --by MK");  // 3.2 kg: 6.4 % of the flour
    day.pack("PAN-1", "PACK-1");
    day.must("ship PACK-1 --to CAFE-1 --pieces 40 --document D-1 --by RS");
    day.must("return PACK-1 --from CAFE-1 --pieces 6 --document R-1 --why 'unsold' --by RS");
    // 90 were packed and 40 left; the 6 that came back are no stock.
    CHECK(day.run("use PACK-1 51pcs --into PAN-2 --by MK").err.starts_with("refused: 51 pieces of lot PACK-1\n"));
    day.must("hold PAN-2 --why 'smells' --by AB");
    day.must("start pan-loaf --flour 50kg --code PAN-3 --by MK");
    CHECK(day.run("use PAN-2 1kg --into PAN-3 --by MK").err.starts_with("refused: use of PAN-2, on hold: smells\n"));
    day.must("receive egg --from DAIRY-1 --lot E-1 --mass 20kg --contains egg --temperature 4C --with probe-1 --code EG-1 --by RS");
    CHECK(day.run("use EG-1 1kg --into PAN-3 --by MK")
              .err.starts_with(
                  "refused: use of EG-1 into PAN-3, to be packed under label pan-loaf-1, which does not declare egg (in EG-1)\n"));
}
