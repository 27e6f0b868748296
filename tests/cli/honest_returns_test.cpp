// What comes back from a cafe on an honest day: unsold loaves, a tray that nobody kept cold, a complaint about a code.
#include <catch2/catch.hpp>

#include "cli/goods.h"

using namespace peelbook;
using namespace peelbook::cli;

namespace {

// Forty of ninety packs went to the cafe, and six came back unsold.
class Back : public Goods {
  public:
    Back() {
        must("partner FARM-1 'Hill Farm, pigs' --role customer");
        mix("PAN-1");
        bake("PAN-1");
        pack("PAN-1", "PACK-1");
        must("ship PACK-1 --to CAFE-1 --pieces 40 --document D-1 --by RS");
        must("return PACK-1 --from CAFE-1 --pieces 6 --document R-1 --why 'unsold' --by RS");
    }
};

}  // namespace

TEST_CASE("rule 26: unsold loaves that came back go to feed or waste without a release, and to nobody's table") {
    Back day;
    for (const char* way : {"--to CAFE-1", "--way own-shop", "--way staff-shop", "--way donation --to CAFE-1"}) {
        const Said again = day.run("ship PACK-1 --returned --pieces 1 --by RS " + std::string(way));
        INFO(way);
        CHECK(again.code == 2);
        CHECK(
            again.err.ends_with("wanted: waste, sample, animal-feed or supplier: what came back is held\n"
                                "next: discard it; if it has already left: --already-done --why ...\n"));
    }
    CHECK(day.run("ship PACK-1 --pieces 51 --to CAFE-1 --by RS").err.starts_with("refused: 51 pieces of lot PACK-1\n"));  // 50 are here
    day.must("ship PACK-1 --returned --way animal-feed --to FARM-1 --pieces 4 --by RS");
    day.must("discard PACK-1 2pcs --returned --why 'stale' --by MK");
    CHECK(day.told("SELECT on_hand_pieces, returned_pieces, (SELECT count(*) FROM hold) AS holds FROM stock s JOIN lot ON lot.id = s.lot "
                   "WHERE code = 'PACK-1'") == "on_hand_pieces,returned_pieces,holds\r\n50,0,0\r\n");
    CHECK(day.run("discard PACK-1 1pcs --returned --why 'stale' --by MK").err.starts_with("refused: returned goods of PACK-1\n"));
    // What never left goes on as before.
    day.must("ship PACK-1 --pieces 10 --to CAFE-1 --by RS");
    CHECK(day.must("verify --derived").has("nothing wrong"));
}

TEST_CASE("rule 26: custard that came back is waste: nobody kept it cold") {
    Back day;
    for (const char* line :
         {"receive milk --from DAIRY-1 --lot M-1 --mass 50kg --contains milk --temperature 4C --with probe-1 --code MI-1 --by RS",
          "receive egg --from DAIRY-1 --lot E-1 --mass 20kg --contains egg --temperature 4C --with probe-1 --code EG-1 --by RS",
          "receive sugar --from MILL-1 --lot SU-1 --mass 20kg --free --code SU-1 --by RS",
          "receive maize-starch --from MILL-1 --lot MS-1 --mass 20kg --free --code MS-1 --by RS", "start custard --code CU-1 --by MK",
          "use MI-1 10kg --into CU-1 --by MK", "use EG-1 1500g --into CU-1 --by MK", "use SU-1 2kg --into CU-1 --by MK",
          "use MS-1 800g --into CU-1 --by MK", "reading CU-1 custard-boil 92C --with probe-1 --by MK", "step CU-1 boil --by MK"})
        day.must(line);
    for (const auto& [after, value] : {std::pair{10, "60C"}, {80, "20.5C"}, {230, "4.6C"}}) {
        day.wait(minutes(after));
        day.run("reading CU-1 custard-cooling " + std::string(value) + " --with probe-1 --by MK");
    }
    day.must("step CU-1 cool --by MK");
    day.must("reading CU-1 custard-kept 4.4C --with probe-1 --by MK");
    day.must("step CU-1 store --by MK");
    day.must("finish CU-1 --mass 14.1kg --by MK");
    day.must("ship CU-1 --to CAFE-1 --mass 5kg --by RS");
    day.must("return CU-1 --from CAFE-1 --mass 2kg --why 'opened too many' --by RS");
    CHECK(day.run("ship CU-1 --returned --way animal-feed --to FARM-1 --mass 2kg --by RS").err ==
          "refused: returned goods of CU-1 as animal-feed, which had to be used by a date or within a time\nwanted: waste, sample or "
          "supplier: nobody knows that they were kept cold\nnext: discard them: peelbook discard CU-1 --returned --why ...\n");
    day.must("discard CU-1 2kg --returned --why 'came back warm' --by MK");
}

TEST_CASE("rule 36: a complaint holds the code that stands on the pack, and all that bears it") {
    Back day;
    day.must("pack PAN-1=3 --printed L1 --date 2026-11-21 --code PACK-2 --by AB");
    day.wait(minutes(1));
    day.must("inspect metal-detector metal-check yes --by AB");
    const Said held = day.must("hold L1 --why 'complaint of CAFE-1: bitter' --by RS");
    CHECK(held.has("held PACK-1, PACK-2 at 2026-11-16 05:33: complaint of CAFE-1: bitter\n"));
    CHECK(held.has("  already gone to CAFE-1: 40 pieces of PACK-1, printed code L1\n"));
    for (const char* pack : {"PACK-1", "PACK-2"}) {
        CHECK(day.run("ship " + std::string(pack) + " --pieces 1 --to CAFE-1 --by RS")
                  .err.starts_with("refused: shipping " + std::string(pack) + ", on hold: complaint of CAFE-1: bitter\n"));
    }
    CHECK(day.run("release PACK-1 --why 'tasted' --by RS").err.starts_with("refused: 'release' by RS, role store\n"));
    day.must("release PACK-1 PACK-2 --why 'tasted against a kept loaf: as it should be' --by QA");
    day.must("ship PACK-2 --pieces 1 --to CAFE-1 --by RS");
    CHECK(day.run("hold L9 --why 'complaint' --by RS").err.starts_with("refused: lot 'L9'\n"));
}
