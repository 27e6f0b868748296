// A delivery round from day to day: yesterday's list, the exceptions of today, lots first expired first, all of it or none recorded.
#include <catch2/catch.hpp>

#include "cli/goods.h"

using namespace peelbook;
using namespace peelbook::cli;

namespace {

// 90 packs from each of two days, and the round of the first: 40 to one cafe, 30 to the other.
class Van : public Goods {
  public:
    Van() {
        must("partner CAFE-2 'Harbour Cafe' --role customer");
        baked("PAN-1", "PACK-1", "2026-11-21");
        must("round north --set CAFE-1:pan-loaf=40 --set CAFE-2:pan-loaf=30 --document D-1 --ship --by RS");
    }
    void baked(const std::string& batch, const std::string& packs, const std::string& date) {
        mix(batch);
        bake(batch);
        pack(batch, packs, date);
    }
    void next_day() {
        at("2026-11-17T03:00+00:00");
        baked("PAN-2", "PACK-2", "2026-11-22");
    }
    // What left: "PACK-1 CAFE-1 40;", by entry.
    std::string left(const std::string& since = "0") {
        const std::string rows = told(
            "SELECT coalesce(group_concat(code || ' ' || m.partner || ' ' || pieces, '; '), '-') AS n FROM "
            "(SELECT * FROM move WHERE happened >= " +
            since + " ORDER BY seq) m JOIN lot ON lot.id = m.lot");
        return rows.substr(3, rows.size() - 5);
    }
};

const std::string day_two = "1794884400000";  // 2026-11-17 03:00

}  // namespace

TEST_CASE("rule 25: a round is shipped lot by lot, and not twice") {
    Van van;
    CHECK(van.left() == "PACK-1 CAFE-1 40; PACK-1 CAFE-2 30");
    CHECK(van.told("SELECT DISTINCT way, document, round FROM move") ==
          "way,document,round\r\ncustomer,D-1/CAFE-1,north\r\ncustomer,D-1/CAFE-2,north\r\n");
    // Once more: all of it has gone. With five more for one of them, five go.
    const std::string again = "round north --set CAFE-1:pan-loaf=40 --set CAFE-2:pan-loaf=30 --ship --by RS";
    van.must(again);
    CHECK(van.left() == "PACK-1 CAFE-1 40; PACK-1 CAFE-2 30");
    van.must("round north --set CAFE-1:pan-loaf=45 --set CAFE-2:pan-loaf=30 --ship --by RS");
    CHECK(van.left() == "PACK-1 CAFE-1 40; PACK-1 CAFE-2 30; PACK-1 CAFE-1 5");
    // A recall by lot names who has it.
    CHECK(van.must("drill open F-1 --hazard stones --why 'the yearly one' --by AB").has(", 2 deliveries"));
    CHECK(van.must("verify --derived").has("nothing wrong"));
}

TEST_CASE("the next day begins with the list of the last, first expired first, and with its exceptions") {
    Van van;
    van.next_day();
    // 20 of PACK-1 are left and expire first.
    CHECK(van.must("round north").out ==
          "round north of 2026-11-17 05:32\n"
          "to      what      as on       wanted  gone  lots                  short\n"
          "------  --------  ----------  ------  ----  --------------------  -----\n"
          "CAFE-1  pan-loaf  2026-11-16      40        PACK-1 20, PACK-2 20\n"
          "CAFE-2  pan-loaf  2026-11-16      30        PACK-2 30\n");
    CHECK(van.left(day_two) == "-");  // nothing was recorded
    CHECK(van.run("round north --skip CAFE-9").err ==
          "refused: 'CAFE-9' to leave out\nwanted: what is on the list of today\nnext: check the code\nnearest: CAFE-1, CAFE-2\n");
    van.must("round north --set CAFE-1:pan-loaf=25 --skip CAFE-2 --ship --by RS");
    CHECK(van.left(day_two) == "PACK-1 CAFE-1 20; PACK-2 CAFE-1 5");
    // Who was passed over keeps a list.
    van.at("2026-11-18T05:00+00:00");
    const Said third = van.must("round north");
    CHECK(third.has("CAFE-1  pan-loaf  2026-11-17      25        PACK-2 25\n"));
    CHECK(third.has("CAFE-2  pan-loaf  2026-11-16      30        PACK-2 30\n"));
    CHECK(van.must("round north --like 2026-11-16").has("CAFE-1  pan-loaf  2026-11-16      40        PACK-2 40\n"));
    CHECK(van.must("round north --skip CAFE-1:pan-loaf --json").has("\"short\": 0"));
}

TEST_CASE("lots that may not go are not proposed, and what is short is told with why") {
    Van van;
    van.next_day();
    van.must("hold PACK-1 --why 'seam open' --by QA");
    CHECK(van.must("round north").has("CAFE-1  pan-loaf  2026-11-16      40        PACK-2 40\n"));
    CHECK(van.must("round north --set CAFE-1:pan-loaf=70", 1)
              .has("CAFE-2  pan-loaf  2026-11-16      30        PACK-2 20     10\nkept here: shipping PACK-1, on hold: seam open\n"));
    // Another lot was in the crate: it is named, and then it is of that and of no other.
    const Said named = van.must("round north --set CAFE-1:PACK-2=15 --set CAFE-1:PACK-1=5 --ship --by RS", 1);
    CHECK(named.has("kept here: shipping PACK-1, on hold: seam open\n"));
    CHECK(van.left(day_two) == "PACK-2 CAFE-1 15; PACK-2 CAFE-2 30");
}

TEST_CASE("rule 43: what an open recall covers is on no list") {
    Van van;
    van.next_day();
    van.must("recall open PAN-1 --hazard stones --why 'the sieve broke' --by QA");
    const Said round = van.must("round north --set CAFE-1:pan-loaf=70", 1);
    CHECK(round.has("CAFE-1  pan-loaf  today           70        PACK-2 70\n"));
    CHECK(round.has("kept here: shipping PACK-1, covered by RECALL-261117-1: stones\n"));
}

TEST_CASE("rule 25: typed late, under an earlier time or in pieces, a round is still shipped once") {
    Van van;
    van.next_day();
    van.must("ship PACK-2 --to CAFE-2 --pieces 10 --round north --by RS");
    van.wait(minutes(40));
    van.must("round north --ship --at 05:33 --by RS");
    van.must("round north --ship --at 05:31 --by RS");
    CHECK(van.left(day_two) == "PACK-2 CAFE-2 10; PACK-1 CAFE-1 20; PACK-2 CAFE-1 20; PACK-2 CAFE-2 20");
    CHECK(van.run("ship PACK-2 --to CAFE-2 --pieces 1 --round 'the north' --by RS").err.starts_with("refused: round 'the north'\n"));
    // What was voided did not go.
    const std::string last = van.told("SELECT max(seq) AS n FROM move");
    van.must("void " + last.substr(3, last.size() - 5) + " --why 'left standing on the ramp' --by AB");
    van.must("round north --ship --by RS");
    CHECK(van.left(day_two) == "PACK-2 CAFE-2 10; PACK-1 CAFE-1 20; PACK-2 CAFE-1 20; PACK-2 CAFE-2 20");
}

TEST_CASE("a round is recorded whole or not at all") {
    Van van;
    van.next_day();
    CHECK(van.run("round north --set DAIRY-1:pan-loaf=5 --ship --by RS")
              .err.starts_with("refused: goods to DAIRY-1, Hill Dairy, who is no customer but supplier, carrier\n"));
    CHECK(van.left(day_two) == "-");
    CHECK(van.run("round north --ship --by MK").err.starts_with("refused: 'ship' by MK, role baker\n"));
    van.must("round north --ship --token van-2 --by RS");
    const std::string once = van.left(day_two);
    CHECK(once == "PACK-1 CAFE-1 20; PACK-2 CAFE-1 20; PACK-2 CAFE-2 30");
}

TEST_CASE("a new round begins with customers, with a file of lines, or is asked about") {
    Van van;
    van.next_day();
    CHECK(van.must("round south --to CAFE-2").has("CAFE-2  pan-loaf  2026-11-16      30        PACK-1 20, PACK-2 10\n"));
    CHECK(van.run("round nort").err ==
          "refused: round 'nort', by which nothing went in the 7 days before\nwanted: a round that was driven, or what a new one begins "
          "with\nnext: check the name; or add --to CUSTOMER,..., --set CUSTOMER:PRODUCT=AMOUNT or --list FILE\nnearest: north\n");
    van.write("orders.txt", "# Tuesday\nCAFE-2:pan-loaf=12\nown-shop:pan-loaf=30\n\nCAFE-1:salt=2kg\n");
    van.must("round north --list orders.txt --ship --by RS");
    CHECK(van.told("SELECT way, m.partner, code, pieces, mass_mg, stated FROM move m JOIN lot ON lot.id = m.lot WHERE m.happened >= " +
                   day_two + " ORDER BY seq") ==
          "way,partner,code,pieces,mass_mg,stated\r\ncustomer,CAFE-1,S-1,,2000000,1\r\ncustomer,CAFE-2,PACK-1,12,9600000,0\r\n"
          "own-shop,,PACK-1,8,6400000,0\r\nown-shop,,PACK-2,22,17600000,0\r\n");
    CHECK(van.run("round north --set CAFE-1:pan-laof=4").err ==
          "refused: 'pan-laof' for CAFE-1\nwanted: a product, a material or a lot\nnext: check the word\nnearest: pan-loaf\n");
    CHECK(van.run("round north --set CAFE-1=4").err ==
          "refused: 'CAFE-1=4'\nwanted: who gets how much of what\nnext: type it as CAFE-1:pan-loaf=40, or =4kg\n");
    CHECK(van.run("round north --set CAVE-1:pan-loaf=4").err ==
          "refused: customer 'CAVE-1'\nwanted: a partner in the book, own-shop or staff-shop\nnext: check the code\nnearest: CAFE-1, "
          "CAFE-2\n");
}
