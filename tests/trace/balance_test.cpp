// Balances against a ledger kept piece by piece and milligram by milligram beside them.
#include <catch2/catch.hpp>

#include "lot_graphs.h"

using namespace peelbook;
using namespace peelbook::trace;
using peelbook::trace::testing::GraphMaker;

namespace {

constexpr Way ways[] = {Way::customer, Way::own_shop, Way::van, Way::donation, Way::animal_feed, Way::waste, Way::sample};

Move move_of(LotId lot, Way way, std::optional<std::int64_t> mass_mg, std::optional<std::int64_t> pieces) {
    Move m;
    m.lot = lot;
    m.way = way;
    m.mass_mg = mass_mg;
    m.pieces = pieces;
    return m;
}

}  // namespace

TEST_CASE("A balance is exact on random histories with counts, pieces and milligrams") {
    for (unsigned seed = 1; seed <= 300; ++seed) {
        GraphMaker maker(seed);
        Lot lot;
        lot.id = 42;
        lot.kind = LotKind::batch;
        lot.made_mg = maker.between(1, 900'000'000'000);
        lot.made_pieces = maker.between(0, 5'000);
        std::int64_t mg = *lot.made_mg, pieces = *lot.made_pieces, gap_mg = 0, gap_pieces = 0, back_mg = 0;
        std::vector<Use> uses;
        std::vector<Move> moves;
        for (int step = 0; step < 40; ++step) {
            const std::int64_t some_mg = maker.between(0, mg), some = maker.between(0, pieces);
            const auto what = maker.between(0, 3);
            if (what == 3) {  // a count: what stands there is taken as found
                const std::int64_t found_mg = maker.between(0, mg + 1'000), found = maker.between(0, pieces + 3);
                gap_mg += found_mg - mg;
                gap_pieces += found - pieces;
                mg = found_mg;
                pieces = found;
                continue;
            }
            if (what == 0) {
                uses.push_back({43, lot.id, step, some_mg, some, true, 0});
            } else if (what == 1) {
                moves.push_back(move_of(lot.id, ways[maker.between(0, 6)], some_mg, some));
            } else {
                moves.push_back(move_of(lot.id, Way::returned, some_mg, some));
                back_mg += some_mg;
                continue;
            }
            mg -= some_mg;
            pieces -= some;
        }
        uses.push_back({43, 41, 99, 5, 5, true, 0});  // of another lot: passed over
        moves.push_back(move_of(41, Way::customer, 5, 5));
        lot.on_hand_mg = mg;
        lot.on_hand_pieces = pieces;
        const Balance b = balance(lot, uses, moves, gap_mg, gap_pieces);
        CHECK(b.made_mg == b.used_mg + b.out_mg() + b.on_hand_mg - b.gap_mg);
        CHECK(b.made_pieces == b.used_pieces + b.out_pieces() + b.on_hand_pieces - b.gap_pieces);
        CHECK(b.unaccounted_mg() == -gap_mg);
        CHECK(b.unaccounted_pieces() == -gap_pieces);
        CHECK(b.closes() == (gap_mg == 0 && gap_pieces == 0));
        CHECK(b.returned_mg == back_mg);
    }
}

TEST_CASE("rules 24 to 26: pieces and mass apart, each way out its own, returns under shipped") {
    Lot lot;
    lot.id = 1;
    lot.kind = LotKind::batch;
    lot.made_mg = 180'000'000;
    lot.made_pieces = 240;
    lot.on_hand_mg = 45'000'000;
    lot.on_hand_pieces = 60;
    const std::vector<Move> moves{move_of(1, Way::customer, 90'000'000, 120), move_of(1, Way::customer, 15'000'000, 20),
                                  move_of(1, Way::waste, 30'000'000, 40), move_of(1, Way::returned, 7'500'000, 10)};
    const Balance b = balance(lot, {}, moves, 0, 0);
    CHECK(b.closes());
    REQUIRE(b.out.size() == 2);  // returned is none
    CHECK(b.out[0].way == Way::customer);
    CHECK(b.out[0].pieces == 140);
    CHECK(b.out[0].mg == 105'000'000);
    CHECK(b.out[1].way == Way::waste);
    CHECK(b.out[1].pieces == 40);
    CHECK(b.returned_pieces == 10);

    lot.on_hand_pieces = 59;
    const Balance short_one = balance(lot, {}, moves, 0, -1);
    CHECK_FALSE(short_one.closes());
    CHECK(short_one.unaccounted_pieces() == 1);
    CHECK(short_one.unaccounted_mg() == 0);
}

TEST_CASE("rule 28: water never runs out, its balance is what was drawn") {
    Lot water;
    water.id = 1;
    water.kind = LotKind::supply;
    const std::vector<Use> uses{{2, 1, 1, 60'000'000, std::nullopt, true, 0}, {3, 1, 2, 40'000'000, std::nullopt, true, 0}};
    const Balance b = balance(water, uses, {}, 0, 0);
    CHECK(b.made_mg == 100'000'000);
    CHECK(b.closes());
}
