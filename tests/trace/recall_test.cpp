// Reconciliation (common practice: made = on hand + shipped + rework + waste + samples, shipped = returned +
// destroyed + consumed) against hand examples and on random histories kept beside.
#include "trace/recall.h"

#include <catch2/catch.hpp>

#include "lot_graphs.h"

using namespace peelbook;
using namespace peelbook::trace;
using peelbook::trace::testing::GraphMaker;
using peelbook::trace::testing::kg;

namespace {

Lot lot_of(LotId id, LotKind kind, std::optional<std::int64_t> mg, std::optional<std::int64_t> pieces, std::int64_t on_hand_mg,
           std::int64_t on_hand_pieces) {
    Lot lot;
    lot.id = id;
    lot.code = "L" + std::to_string(id);
    lot.kind = kind;
    lot.made_mg = mg;
    lot.made_pieces = pieces;
    lot.on_hand_mg = on_hand_mg;
    lot.on_hand_pieces = on_hand_pieces;
    return lot;
}

Move move_of(LotId lot, Way way, std::int64_t mg, std::int64_t pieces, const char* partner = "", std::int64_t happened = 0) {
    Move m;
    m.lot = lot;
    m.way = way;
    m.partner = partner;
    m.mass_mg = mg;
    m.pieces = pieces;
    m.happened = happened;
    return m;
}

Use use_of(LotId into, LotId from, std::int64_t mg, std::optional<std::int64_t> pieces = std::nullopt) {
    return {into, from, 0, mg, pieces, true, 0};
}

Statement said(LotId lot, const char* partner, Fate what, std::int64_t mg, std::int64_t pieces, std::int64_t happened) {
    return {{lot}, "L" + std::to_string(lot), partner, {}, what, mg, pieces, happened, 0};
}

void check_adds_up(const Account& a) {
    CHECK(a.made == a.on_hand + a.shipped + a.moved_on + a.rework + a.waste + a.samples + a.unaccounted());
    CHECK(a.shipped == a.returned + a.destroyed + a.consumed + a.found_there + a.shipped_unaccounted());
    CHECK(a.missing - a.surplus == a.unaccounted() + a.shipped_unaccounted());
    CHECK(a.shipped_unaccounted() >= 0);  // nobody is credited with more than they had
}

}  // namespace

TEST_CASE("A recall of one batch by hand: 240 loaves of 0.75 kg") {
    // 100 to MILLS, 60 to ALDER, 20 wasted, 4 sampled, 12 into rework, 40 packed, 3 on hand: one loaf nobody
    // can find.
    const std::vector<Lot> lots{lot_of(1, LotKind::batch, 180 * kg, 240, 2'250'000, 3), lot_of(2, LotKind::pack, 30 * kg, 20, 0, 0),
                                lot_of(3, LotKind::batch, 100 * kg, std::nullopt, 100 * kg, 0)};
    const std::vector<Use> uses{use_of(2, 1, 30 * kg, 40), use_of(3, 1, 9 * kg, 12), use_of(9, 8, 5 * kg, 5)};
    const std::vector<Move> moves{move_of(1, Way::customer, 75 * kg, 100, "MILLS", 10),
                                  move_of(1, Way::van, 45 * kg, 60, "ALDER", 10),
                                  move_of(1, Way::waste, 15 * kg, 20),
                                  move_of(1, Way::sample, 3 * kg, 4),
                                  move_of(1, Way::returned, 30 * kg, 40, "MILLS", 20),
                                  move_of(2, Way::customer, 30 * kg, 20, "MILLS", 10)};
    const std::vector<Statement> statements{said(1, "MILLS", Fate::found, 37'500'000, 50, 15),
                                            said(1, "MILLS", Fate::used, 7'500'000, 10, 16),
                                            said(1, "ALDER", Fate::destroyed, 30 * kg, 40, 17), said(1, "", Fate::used, 15 * kg, 20, 18),
                                            said(2, "MILLS", Fate::destroyed, 30 * kg, 20, 19)};
    const Reconciliation r = reconcile(lots, uses, moves, outside(moves, statements).parcels);
    REQUIRE(r.lots.size() == 3);
    const Account& pieces = *r.lots[0].pieces;
    CHECK(pieces.on_hand == 3);
    CHECK(pieces.shipped == 160);
    CHECK(pieces.moved_on == 40);
    CHECK(pieces.rework == 12);
    CHECK(pieces.waste == 20);
    CHECK(pieces.samples == 4);
    CHECK(pieces.unaccounted() == 1);
    CHECK(pieces.returned == 40);
    CHECK(pieces.destroyed == 40);
    CHECK(pieces.consumed == 10);    // the 20 that nobody puts a name to stay unaccounted
    CHECK(pieces.found_there == 0);  // 50 found, 10 of them eaten, 40 of them sent back
    CHECK(pieces.shipped_unaccounted() == 70);
    CHECK(pieces.missing == 71);
    CHECK(*pieces.percent_found() == 70'416);  // 169 of 240 are 70.4166 %, rounded down
    const Account& mg = *r.lots[0].mg;
    CHECK(mg.unaccounted() == 750'000);
    CHECK(mg.shipped_unaccounted() == 52'500'000);
    CHECK(r.lots[1].mg->closes());
    CHECK(*r.lots[1].mg->percent_found() == 100'000);
    CHECK_FALSE(r.lots[2].pieces.has_value());
    // In total the packed goods count once: 240 loaves, of which 40 went into 20 packs.
    CHECK(r.goods.pieces.made == 240 + 20 - 40);
    CHECK(r.goods.pieces.moved_on == 0);
    CHECK(r.goods.pieces.shipped == 180);
    CHECK(r.goods.mg.made == 280 * kg);
    CHECK(r.goods.lots == 3);
    CHECK(r.goods.not_counted == 1);
    CHECK(r.materials.lots == 0);
    for (const Total* t : {&r.goods, &r.materials, &r.all}) {
        check_adds_up(t->mg);
        check_adds_up(t->pieces);
    }
}

TEST_CASE("Reconciliation adds up on random histories, lot by lot and in total") {
    constexpr Way ways[] = {Way::customer, Way::own_shop, Way::van, Way::donation, Way::co_packer, Way::waste, Way::sample, Way::returned};
    constexpr LotKind kinds[] = {LotKind::received, LotKind::blend, LotKind::batch, LotKind::rack, LotKind::pack, LotKind::supply};
    for (unsigned seed = 1; seed <= 200; ++seed) {
        GraphMaker maker(seed);
        std::vector<Lot> lots;
        std::vector<Use> uses;
        std::vector<Move> moves;
        std::vector<Statement> statements;
        const LotId n = maker.between(1, 25);
        for (LotId id = 1; id <= n; ++id) {
            const bool weighed = maker.between(0, 5) != 0;
            lots.push_back(lot_of(id, kinds[maker.between(0, 5)], weighed ? std::optional(maker.between(0, 1'000 * kg)) : std::nullopt,
                                  maker.between(0, 2) != 0 ? std::optional(maker.between(0, 900)) : std::nullopt,
                                  maker.between(0, 100 * kg), maker.between(0, 100)));
            for (std::int64_t k = maker.between(0, 4); k > 0; --k) {
                moves.push_back(move_of(id, ways[maker.between(0, 7)], maker.between(0, 90 * kg), maker.between(0, 90),
                                        maker.between(0, 1) != 0 ? "A" : "B", maker.between(0, 9)));
                statements.push_back(said(id, maker.between(0, 3) != 0 ? "A" : "", static_cast<Fate>(maker.between(0, 3)),
                                          maker.between(0, 50 * kg), maker.between(0, 50), maker.between(0, 9)));
                if (id > 1) uses.push_back(use_of(id, maker.between(1, id - 1), maker.between(0, 90 * kg), maker.between(0, 90)));
            }
        }
        const Reconciliation r = reconcile(lots, uses, moves, outside(moves, statements).parcels);
        REQUIRE(r.lots.size() == lots.size());
        std::int64_t open_mg = 0, shipped_pieces = 0, missing = 0;
        for (const LotAccount& lot : r.lots) {
            for (const auto& account : {lot.mg, lot.pieces}) {
                if (!account) continue;
                check_adds_up(*account);
                CHECK(account->found_there >= 0);
                CHECK(account->percent_found().value_or(0) <= 100'000);
            }
            if (lot.kind == LotKind::supply) continue;
            if (lot.mg) open_mg += lot.mg->unaccounted();
            if (lot.mg) missing += lot.mg->missing;
            if (lot.pieces) shipped_pieces += lot.pieces->shipped;
        }
        CHECK(r.all.mg.unaccounted() == open_mg);
        CHECK(r.all.mg.missing == missing);
        CHECK(r.all.pieces.shipped == shipped_pieces);
        CHECK(r.goods.mg.unaccounted() + r.materials.mg.unaccounted() == open_mg);
        for (const Total* t : {&r.goods, &r.materials, &r.all}) {
            check_adds_up(t->mg);
            check_adds_up(t->pieces);
        }
    }
}

TEST_CASE("A surplus in one lot does not hide what another lacks") {
    const Reconciliation r =
        reconcile({lot_of(1, LotKind::pack, 10 * kg, 10, 9 * kg, 9), lot_of(2, LotKind::pack, 10 * kg, 10, 11 * kg, 11)}, {}, {}, {});
    CHECK(r.goods.pieces.unaccounted() == 0);
    CHECK(r.goods.pieces.missing == 1);
    CHECK(r.goods.pieces.surplus == 1);
    CHECK_FALSE(r.goods.pieces.closes());
    CHECK(*r.goods.pieces.percent_found() == 95'000);
}

TEST_CASE("A blend carries a material on; water is in no total") {
    const Reconciliation r = reconcile(
        {lot_of(1, LotKind::received, 100 * kg, std::nullopt, 0, 0), lot_of(2, LotKind::blend, 300 * kg, std::nullopt, 50 * kg, 0),
         lot_of(3, LotKind::batch, 400 * kg, std::nullopt, 400 * kg, 0), lot_of(4, LotKind::supply, 150 * kg, std::nullopt, 0, 0)},
        {use_of(2, 1, 100 * kg), use_of(3, 2, 250 * kg), use_of(3, 4, 150 * kg)}, {}, {});
    CHECK(r.materials.mg.made == 300 * kg);
    CHECK(r.materials.mg.rework == 250 * kg);
    CHECK(r.materials.mg.closes());
    CHECK(r.materials.lots == 2);
    CHECK(r.all.mg.made == 700 * kg);
    CHECK(*r.all.mg.percent_found() == 100'000);
}

TEST_CASE("Per cent found never rounds up to all, and large masses do not overflow") {
    Account a;
    CHECK_FALSE(a.percent_found().has_value());
    a.made = 9'000'000'000'000'000'000;  // mg, nine million tonnes
    a.missing = 1;
    CHECK(*a.percent_found() == 99'999);
    a.missing = 0;
    CHECK(*a.percent_found() == 100'000);
    a.made = 3;
    a.missing = 5;
    CHECK(*a.percent_found() == 0);
}
