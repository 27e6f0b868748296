// Rule 58 at the bench: a site that begins in practice. What is recorded is judged as ever, is marked for good, and nothing of it comes out
// better once the book is kept in earnest.
#include <catch2/catch.hpp>

#include "cli/walk.h"

using namespace peelbook;
using namespace peelbook::cli;

namespace {

const std::string mark = "*** PRACTICE: nothing is held by itself, the gate only warns ***\n";

class Practice : public Walk {
  public:
    Practice() {
        environment["PEELBOOK_SITE"] = (folder / "bakery").string();
        environment["PEELBOOK_BY"] = "AB";
        must("new bakery --by AB --person 'Ada Brandt' --name 'Weir Lane Bakery' --zone UTC");
        edit("# practice = true ", "practice = true ");
        for (const char* line :
             {"plan adopt", "partner MILL-1 'Weir Mill' --role supplier", "partner CAFE-1 'Corner Cafe' --role customer",
              "receive wheat-flour --from MILL-1 --lot W-1 --mass 1000kg --contains wheat --code F-1",
              "receive yeast --from MILL-1 --lot Y-1 --mass 50kg --best-before 2026-11-20 --free --code Y-1",
              "receive salt --from MILL-1 --lot S-1 --mass 50kg --free --code S-1",
              "receive butter --from MILL-1 --lot B-1 --mass 50kg --contains milk --temperature 4C --with probe-1 --code BU-1",
              "calibrate probe-1 passed --method ice --read 0.1C --reference 0C"})
            must(line);
    }
    void edit(const std::string& from, const std::string& to) {
        const auto file = folder / "bakery" / "site.toml";
        std::string text = *files.read(file);
        text.replace(text.find(from), from.size(), to);
        std::filesystem::remove(file);
        files.create(file, text);
    }
    void in_earnest() { edit("practice = true ", "# practice = true "); }
    // Mixed and baked at 04:00, with a core of 80 C that nobody corrects.
    void cold_batch(const std::string& code) {
        must("start pan-loaf --flour 50kg --code " + code);
        for (const char* use : {"F-1 50kg", "water 31kg", "Y-1 1250g", "S-1 900g", "BU-1 1kg"})
            must("use " + std::string(use) + " --into " + code);
        must("reading " + code + " dough-temperature 26C --with probe-1");
        must("step " + code + " mix");
        must("reading " + code + " bake-core 80C --with probe-1");
        must("step " + code + " bake");
        wait(minutes(60));
    }
};

}  // namespace

TEST_CASE("rule 58: in practice a deviation holds nothing and the gate warns, with exit 1; each page says so") {
    Practice site;
    site.cold_batch("PAN-1");
    const Said done = site.must("finish PAN-1 --pieces 94 --mass 75kg", 1);
    CHECK(done.out.starts_with(mark + "recorded "));
    CHECK(done.has("DEVIATION: bake-core 80C of PAN-1"));
    CHECK(done.has("in earnest held: PAN-1: critical deviation: bake-core, 80C; limit: at least 93C | 200F\n"));
    site.must("inspect PAN-1 label-check yes --unit 'start of run'");
    site.must("inspect PAN-1 label-check yes --unit 'end of run'");
    CHECK(site.must("pack PAN-1 --printed L1 --date 2026-11-20 --code PACK-1", 1)
              .has("in earnest refused: packing PAN-1 with a critical point not within: deviation: bake-core of PAN-1, 80C"));
    const Said gone = site.must("ship PACK-1 --to CAFE-1 --pieces 10", 1);
    CHECK(gone.has("in earnest refused: shipping PACK-1 with a critical point not within"));
    CHECK(gone.has("in earnest refused: shipping PACK-1, before the check at the end of its run: metal-check"));
    for (const char* page : {"status", "due", "lot PAN-1", "entry 5", "trace forward F-1", "matrix --week 2026-W47"}) {
        INFO(page);
        CHECK(site.run(page).out.starts_with(mark));
    }
    CHECK(site.run("status --json").has("\"practice\": true"));
    CHECK(site.run("ship PACK-1 --to CAFE-1 --pieces 10 --json").has("\"in_earnest\": [\n"));
    CHECK(site.must("ask --csv \"SELECT count(*) AS n FROM hold\"").out == "n\r\n0\r\n");
    const Said week = site.must("report weekly --week 2026-W47");
    CHECK(week.has("PRACTICE"));
}

TEST_CASE("rule 58: what a person decided, what the law says of a date or a label, and what is not there stay refused in practice") {
    Practice site;
    site.cold_batch("PAN-1");
    CHECK(site.run("use F-1 2000kg --into PAN-1").code == 2);
    site.must("finish PAN-1 --pieces 94 --mass 75kg", 1);
    const std::string number = site.must("ask --csv \"SELECT id FROM lot WHERE code = 'PAN-1'\"").out.substr(4);
    site.must("act " + number.substr(0, number.find('\r')) + ":bake-core --disposition discard --product 'struck off'");
    CHECK(site.run("pack PAN-1 --printed L1 --code PACK-1").err.starts_with("refused: packing PAN-1, signed for discard\n"));
    site.must("hold PAN-1 --why 'pale'");
    CHECK(site.run("pack PAN-1 --printed L1 --code PACK-1").err.starts_with("refused: packing PAN-1, on hold: pale\n"));
    site.must("start pan-loaf --flour 50kg --code PAN-2");
    CHECK(site.run("pack PAN-2 --printed L1 --code PACK-2").err.starts_with("refused: batch PAN-2, not finished\n"));
    site.at("2026-11-21T04:00+00:00");
    CHECK(site.run("use Y-1 1250g --into PAN-2").err.starts_with("refused: use of Y-1, past its use-by date 2026-11-20\n"));
}

TEST_CASE("rule 58: the first plan in earnest holds what deviated in practice, and there is no way back") {
    Practice site;
    site.cold_batch("PAN-1");
    site.must("finish PAN-1 --pieces 94 --mass 75kg", 1);
    site.in_earnest();
    CHECK(site.must("plan changes").out == "site: practice was yes, now no\n");
    const Said adopted = site.must("plan adopt");
    CHECK(adopted.out.starts_with("recorded "));
    CHECK(adopted.has("HELD: PAN-1 ("));
    CHECK(site.run("pack PAN-1 --printed L1 --code PACK-1")
              .err.starts_with("refused: packing PAN-1, on hold: critical deviation: bake-core"));
    CHECK(site.must("lot PAN-1").has("practice  made in practice: nothing of it was held by itself\n"));
    CHECK(site.must("entry 5").has("practice  recorded in practice\n"));
    CHECK_FALSE(site.must("start pan-loaf --flour 50kg --code PAN-2").has("PRACTICE"));
    CHECK_FALSE(site.must("lot PAN-2").has("practice"));
    CHECK(site.must("report weekly --week 2026-W47").has("PRACTICE"));  // the week has both
    CHECK_FALSE(site.must("report weekly --week 2026-W48").has("PRACTICE"));
    site.edit("# practice = true ", "practice = true ");
    CHECK(site.run("plan adopt").err ==
          "refused: a plan of practice after one in earnest\nwanted: practice only at the beginning of a book\n"
          "next: take practice = true out of [site]; to practise more, begin a site of its own: peelbook new DIR\n");
    CHECK(site.must("verify --derived").has("the derived tables: nothing wrong\n"));
}

TEST_CASE("the small starter is adopted as it is, and plan check says what it asks of each person") {
    Walk walk;
    walk.environment["PEELBOOK_SITE"] = (walk.folder / "six").string();
    walk.must("new six --by AB --person 'Ada Brandt' --name 'Corner Bakery' --zone UTC --starter small");
    const Said checked = walk.must("plan check");
    CHECK(
        checked.out.starts_with("the plan can be adopted: 0 errors, 0 warnings\n"
                                "load of a usual day: 27.8 checks, 23.8 min, of which each of 6 people has 3.9 min\n"));
    CHECK(walk.must("plan check --json").has("\"people\": 6"));
    walk.must("plan adopt --by AB");
    CHECK(walk.run("new other --by AB --starter tiny").err ==
          "refused: --starter: 'tiny'\nwanted: one of full, small\nnext: type one of these words\n");
}
