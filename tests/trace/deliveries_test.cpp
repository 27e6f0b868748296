// Who got what: grouping, order and totals against hand examples.
#include <catch2/catch.hpp>

#include "lot_graphs.h"

using namespace peelbook;
using namespace peelbook::trace;
using peelbook::trace::testing::GraphMaker;

namespace {

class Shipping {
  public:
    LotId pack(const std::string& printed_code, bool reached_surely = true) {
        const LotId lot = maker.lot(LotKind::pack);
        maker.graph.lots.back().printed_code = printed_code;
        maker.graph.lots.back().item = "rye";
        maker.graph.lots.back().name = "Rye loaf";
        Reached r;
        r.lot = lot;
        r.certain = reached_surely;
        reached.push_back(r);
        return lot;
    }

    void move(LotId lot, Way way, const std::string& partner, std::int64_t pieces, std::int64_t happened,
              const std::string& document = "") {
        Move m;
        m.lot = lot;
        m.seq = static_cast<std::int64_t>(moves.size());
        m.way = way;
        m.partner = partner;
        m.partner_name = partner.empty() ? "" : "Name of " + partner;
        m.pieces = pieces;
        m.mass_mg = pieces * 750'000;
        m.happened = happened;
        m.document = document;
        moves.push_back(m);
    }

    std::vector<Delivery> result() const { return deliveries(reached, maker.graph, moves); }

    GraphMaker maker{1};
    std::vector<Reached> reached;
    std::vector<Move> moves;
};

}  // namespace

TEST_CASE("a document is listed once, also when another begins, ends or is cut out of it alike") {
    Shipping s;
    const LotId lot = s.pack("B1");
    std::int64_t at = 100;
    for (const char* document : {"D-11", "D-1", "AD-1", "D-11", "D-1", "1", "AD-1"}) s.move(lot, Way::customer, "MILLS", 1, at++, document);
    const auto got = s.result();
    REQUIRE(got.size() == 1);
    CHECK(got[0].document == "D-11, D-1, AD-1, 1");
}

TEST_CASE("rule 36: the printed code is the unit named to a customer") {
    Shipping s;
    const LotId early = s.pack("B1"), late = s.pack("B1"), other = s.pack("A9");
    s.move(late, Way::customer, "MILLS", 10, 300, "D2");
    s.move(early, Way::customer, "MILLS", 20, 200, "D1");
    s.move(early, Way::returned, "MILLS", 5, 400);
    s.move(other, Way::customer, "MILLS", 7, 250, "D1");
    s.move(early, Way::customer, "ALDER", 3, 500, "D3");
    const auto got = s.result();
    REQUIRE(got.size() == 3);
    CHECK(got[0].partner == "ALDER");
    CHECK(got[0].partner_name == "Name of ALDER");
    CHECK(got[1].printed_code == "A9");
    CHECK(got[1].pieces == 7);
    CHECK(got[2].printed_code == "B1");
    CHECK(got[2].pieces == 30);
    CHECK(got[2].mass_mg == 30 * 750'000);
    CHECK(got[2].returned_pieces == 5);
    CHECK(got[2].returned_mg == 5 * 750'000);
    CHECK(got[2].first == 200);
    CHECK(got[2].last == 300);
    CHECK(got[2].lot_code == "L3, L10");
    CHECK(got[2].document == "D1, D2");
    CHECK(got[2].item_name == "Rye loaf");
    CHECK(got[2].certain);
}

TEST_CASE("rule 36: a lot that was not reached but bears the same code is in it, as possible") {
    Shipping s;
    const LotId reached = s.pack("B1"), same_code = s.pack("B1"), elsewhere = s.pack("C5");
    s.reached.resize(1);
    s.move(same_code, Way::customer, "MILLS", 4, 100);
    s.move(elsewhere, Way::customer, "MILLS", 4, 100);
    const auto got = s.result();
    REQUIRE(got.size() == 1);
    CHECK(got[0].pieces == 4);
    CHECK_FALSE(got[0].certain);
    s.move(reached, Way::customer, "MILLS", 1, 100);
    CHECK(s.result()[0].certain);
}

TEST_CASE("rule 25: every way out that feeds somebody is listed, with or without a partner") {
    Shipping s;
    const LotId lot = s.pack("");
    const LotId maybe = s.pack("", false);
    s.move(lot, Way::own_shop, "", 1, 100);
    s.move(lot, Way::van, "", 2, 100);
    s.move(lot, Way::staff_shop, "", 3, 100);
    s.move(lot, Way::donation, "PANTRY", 4, 100);
    s.move(lot, Way::animal_feed, "FARM", 5, 100);
    s.move(lot, Way::waste, "", 6, 100);
    s.move(lot, Way::sample, "LAB", 7, 100);
    s.move(maybe, Way::van, "", 8, 100);
    const auto got = s.result();
    std::int64_t pieces = 0;
    for (const Delivery& d : got) pieces += d.pieces;
    CHECK(got.size() == 6);
    CHECK(pieces == 1 + 2 + 3 + 4 + 5 + 8);
    for (const Delivery& d : got) CHECK(d.certain == (d.pieces != 8));
}
