// Dates and ages from the command line, under the starter plan: the loaf lasts five days from the bake, and butter three once opened.
#include <catch2/catch.hpp>

#include "cli/walk.h"

using namespace peelbook;
using namespace peelbook::cli;

namespace {

class DatedWalk : public Walk {
  public:
    DatedWalk() {
        open_bakery();
        const auto materials = folder / "bakery" / "materials.toml";
        std::string text = *files.read(materials);
        const std::string butter = "name = \"butter\"\n";
        text.insert(text.find(butter) + butter.size(), "opened_within = \"3days\"\n");
        std::filesystem::remove(materials);
        files.create(materials, text);
        for (const char* line :
             {"plan adopt", "receive wheat-flour --from MILL-1 --lot W-1 --mass 1000kg --contains wheat --code F-1 --by RS",
              "receive yeast --from MILL-1 --lot Y-1 --mass 50kg --free --best-before 2026-11-18 --code Y-1 --by RS",
              "receive salt --from MILL-1 --lot S-1 --mass 50kg --free --code S-1 --by RS",
              "receive butter --from DAIRY-1 --lot B-1 --mass 50kg --contains milk --temperature 4C --with probe-1 --code BU-1 --by RS",
              "calibrate probe-1 passed --method ice --read 0.1C --reference 0C --by QA"})
            must(line);
    }
};

}  // namespace

TEST_CASE("rule 66: finish and lot tell the date to print, and a later one or none is refused") {
    DatedWalk day;
    day.must("start pan-loaf --flour 50kg --code PAN-1 --by MK");
    for (const char* use : {"F-1 50kg", "water 31kg", "Y-1 1250g", "S-1 900g", "BU-1 1kg"})
        day.must("use " + std::string(use) + " --into PAN-1 --by MK");
    day.must("reading PAN-1 dough-temperature 26C --with probe-1 --by MK");
    day.must("step PAN-1 mix --by MK");
    day.must("step PAN-1 proof --by MK");
    day.wait(minutes(60));
    day.must("reading PAN-1 bake-core 96.4C --with probe-1 --by MK");
    day.must("step PAN-1 bake --by MK");  // 04:00; the yeast of the 18th went in before
    day.wait(minutes(90));
    day.must("reading PAN-1 cool-before-packing 28C --by MK");
    const std::string line = "print best-before 2026-11-21 at the latest: its shelf life, over 2026-11-21 04:00\n";
    CHECK(day.must("finish PAN-1 --pieces 94 --mass 75.2kg --by MK").has("next: " + line));
    CHECK(day.must("lot PAN-1").has(line));
    day.must("step PAN-1 cool --by MK");
    for (const char* unit : {"start of run", "end of run"})
        day.must("inspect PAN-1 label-check yes --unit '" + std::string(unit) + "' --by AB");
    const Said late = day.must("pack PAN-1 --printed L1 --date 2026-11-22 --code PACK-1", 2);
    CHECK(late.err ==
          "refused: packing PAN-1 under the date 2026-11-22\n"
          "wanted: best-before 2026-11-21 at the latest: its shelf life, over 2026-11-21 04:00\n"
          "next: print the right date, and pack those; if it has already happened: --already-done --why ...\n");
    CHECK(day.must("pack PAN-1 --printed L1 --code PACK-1", 2).err.starts_with("refused: packing PAN-1, which has no date on its packs\n"));
    const Said done = day.must("pack PAN-1=10 --printed L1 --date 2026-11-22 --code PACK-1 --already-done --why 'the old reel'", 1);
    CHECK(done.has("already-done"));
    CHECK(done.has("HELD: PACK-1 ("));
    day.run("pack PAN-1 --printed L1 --date 2026-11-21 --code PACK-2");
    CHECK(day.must("lot PACK-2").has("best-before  2026-11-21\n"));
}

TEST_CASE("rule 22: what comes in past its date") {
    DatedWalk day;
    const std::string yeast = "receive yeast --from MILL-1 --lot Y-2 --mass 5kg --free --best-before 2026-11-15 --by RS";
    CHECK(day.must(yeast + " --why 'smells fresh'", 2).err.starts_with("refused: yeast, past its use-by date 2026-11-15\n"));
    CHECK(day.must(yeast + " --status held --why 'the dairy is to say'").has("held"));
    const std::string salt = "receive salt --from MILL-1 --lot S-2 --mass 5kg --free --best-before 2026-11-15 --by RS";
    CHECK(day.must(salt, 2).err.starts_with("refused: salt, past its best-before date 2026-11-15 without a reason\n"));
    day.must(salt + " --why 'salt'");
}

TEST_CASE("rule 67: opened and thawed by anybody, and again only of another tub") {
    DatedWalk day;
    const Said opened = day.must("opened BU-1 --by MK");
    CHECK(opened.has("  opened BU-1 at 2026-11-16 03:00\n"));
    CHECK(opened.has("next: use it before 2026-11-19 03:00: its time once opened, over 2026-11-19 03:00\n"));
    day.must("start pan-loaf --flour 50kg --code PAN-1 --by MK");
    day.at("2026-11-19T03:00+00:00");
    CHECK(day.must("use BU-1 1kg --into PAN-1 --by MK", 2)
              .err.starts_with("refused: use of BU-1, past its time once opened, over 2026-11-19 03:00\n"));
    CHECK(day.must("opened BU-1 --by MK", 2).err.starts_with("refused: BU-1, which was opened 2026-11-16 03:00\n"));
    CHECK(day.must("opened BU-1 --another --by MK").has("  opened another of BU-1 at 2026-11-19 03:00\n"));
    day.must("use BU-1 1kg --into PAN-1 --by MK");
    CHECK(day.must("thawed BU-1 --by MK").has("next: the plan states no thawed_within for butter: no time runs from it\n"));
}

TEST_CASE("the code of a lot that was taken back is given to no other") {
    DatedWalk day;
    const std::string sack = "receive salt --from MILL-1 --lot S-2 --mass 5kg --free --code SACK-1 --by RS";
    day.must(sack);
    day.must("undo --by RS");
    CHECK(day.must(sack, 2).err.starts_with("refused: lot code 'SACK-1', which entry "));
}
