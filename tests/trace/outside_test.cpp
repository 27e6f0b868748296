// What is said of goods outside the house: at most what went there, by customer and lot (rule 64; common practice).
#include "trace/outside.h"

#include <catch2/catch.hpp>

#include "lot_graphs.h"
#include "trace/co_packed.h"

using namespace peelbook;
using namespace peelbook::trace;
using peelbook::trace::testing::kg;

namespace {

Move went(LotId lot, const char* partner, std::int64_t mg, std::int64_t pieces, std::int64_t happened, Way way = Way::customer) {
    Move m;
    m.lot = lot;
    m.way = way;
    m.partner = partner;
    m.mass_mg = mg;
    m.pieces = pieces;
    m.happened = m.seq = happened;
    return m;
}

Statement says(std::vector<LotId> lots, const char* partner, Fate fate, std::optional<std::int64_t> pieces, std::int64_t happened) {
    return {std::move(lots), "K1", partner, {}, fate, {}, pieces, happened, happened};
}

std::vector<Amounts> open_of(const Outside& out) {
    std::vector<Amounts> open;
    for (const auto& parcel : out.parcels) open.push_back(parcel.open());
    return open;
}

using Open = std::vector<Amounts>;

}  // namespace

TEST_CASE("rule 64: one customer's 75 where 34 were there credits 34 and hides nothing of another's") {
    const std::vector<Move> moves{went(1, "CAFE", 34 * kg, 34, 1), went(1, "SHOP", 41 * kg, 41, 2)};
    const auto out = outside(moves, {says({1}, "CAFE", Fate::destroyed, 75, 3)});
    CHECK(open_of(out) == Open{{0, 0}, {41 * kg, 41}});
    CHECK(out.parcels[0].destroyed == Amounts{34 * kg, 34});
    REQUIRE(out.excess.size() == 1);
    CHECK(out.excess[0].said.partner == "CAFE");
    CHECK(out.excess[0].amount == Amounts{0, 41});
    // Said in kilograms the same: 75 kg where 34 were.
    auto weighed = says({1}, "CAFE", Fate::used, {}, 3);
    weighed.mass_mg = 75 * kg;
    const auto by_mass = outside(moves, {weighed});
    CHECK(open_of(by_mass) == Open{{0, 34}, {41 * kg, 41}});
    CHECK(by_mass.excess[0].amount == Amounts{41 * kg, 0});
}

TEST_CASE("what is spoken of twice counts once; what the book has back comes before what is only said") {
    const std::vector<Move> moves{went(1, "CAFE", 10 * kg, 10, 1), went(1, "CAFE", 6 * kg, 6, 5, Way::returned)};
    const auto out = outside(moves, {says({1}, "CAFE", Fate::used, 8, 3), says({1}, "CAFE", Fate::destroyed, 1, 4)});
    CHECK(out.parcels[0].returned == Amounts{6 * kg, 6});
    CHECK(out.parcels[0].consumed == Amounts{4 * kg, 4});
    CHECK(out.parcels[0].destroyed == Amounts{});
    REQUIRE(out.excess.size() == 2);
    CHECK(out.excess[0].amount == Amounts{0, 4});
    CHECK(out.excess[1].amount == Amounts{0, 1});
}

TEST_CASE("a code on two lots is spread over both, those that left first, first; a shipment written down late takes up the excess") {
    std::vector<Move> moves{went(2, "SHOP", 8 * kg, 10, 1), went(1, "SHOP", 8 * kg, 10, 2)};
    const std::vector<Statement> said{says({1, 2}, "SHOP", Fate::destroyed, 25, 9)};
    const auto out = outside(moves, said);
    CHECK(out.shares.size() == 2);
    CHECK(out.shares[0].lot == 2);
    CHECK(open_of(out) == Open{{0, 0}, {0, 0}});
    CHECK(out.excess[0].amount == Amounts{0, 5});
    moves.push_back(went(1, "SHOP", 4 * kg, 5, 3));
    CHECK(outside(moves, said).excess.empty());
    CHECK(open_of(outside(moves, said)) == Open{{0, 0}, {0, 0}});
}

TEST_CASE("found is the last word of what stands there, less what was returned, destroyed or used since") {
    const std::vector<Move> moves{went(1, "CAFE", 40 * kg, 40, 1)};
    const auto found = [&](std::vector<Statement> said) { return outside(moves, said).parcels[0].found_there.pieces; };
    CHECK(found({says({1}, "CAFE", Fate::found, 30, 2)}) == 30);
    CHECK(found({says({1}, "CAFE", Fate::found, 30, 2), says({1}, "CAFE", Fate::found, 12, 3)}) == 12);
    CHECK(found({says({1}, "CAFE", Fate::found, 30, 2), says({1}, "CAFE", Fate::used, 10, 3)}) == 20);
    CHECK(found({says({1}, "CAFE", Fate::used, 10, 2), says({1}, "CAFE", Fate::found, 30, 3)}) == 30);
    CHECK(found({says({1}, "CAFE", Fate::found, 30, 2), says({1}, "SHOP", Fate::destroyed, 10, 3)}) == 30);
    CHECK(found({says({1}, "CAFE", Fate::found, 55, 2)}) == 40);
    // By weight: 30 kg stand there, then 10 of the 40 pieces (10 kg) are eaten.
    auto weighed = says({1}, "CAFE", Fate::found, {}, 2);
    weighed.mass_mg = 30 * kg;
    CHECK(outside(moves, {weighed, says({1}, "CAFE", Fate::used, 10, 3)}).parcels[0].found_there == Amounts{20 * kg, 0});
}

TEST_CASE("rule 65: a way that names nobody is spoken for by our own people, and what was sold over the counter is not used up by word") {
    const std::vector<Move> moves{went(1, "", 20 * kg, 20, 1, Way::own_shop), went(1, "", 5 * kg, 5, 1, Way::staff_shop)};
    auto back = went(1, "", 3 * kg, 3, 4, Way::returned);
    back.left_by = Way::own_shop;
    auto with_return = moves;
    with_return.push_back(back);
    auto found = says({1}, "", Fate::destroyed, 9, 5);
    found.way = Way::staff_shop;
    auto used = says({1}, "", Fate::used, 2, 6);
    used.way = Way::own_shop;
    const auto nobody = says({1}, "", Fate::destroyed, 4, 7);
    const auto out = outside(with_return, {found, used, nobody});
    CHECK(open_of(out) == Open{{17 * kg, 17}, {0, 0}});
    REQUIRE(out.excess.size() == 3);
    CHECK(out.excess[0].amount == Amounts{0, 4});
    CHECK(out.excess[1].amount == Amounts{0, 2});
    CHECK(out.excess[2].amount == Amounts{0, 4});
}

TEST_CASE("the mass of pieces closes to the milligram with the last of them, weighed on the way or not") {
    const std::vector<Move> moves{went(1, "CAFE", 10'000'001, 3, 1)};
    const auto out = outside(
        moves, {says({1}, "CAFE", Fate::used, 1, 2), says({1}, "CAFE", Fate::destroyed, 1, 3), says({1}, "CAFE", Fate::returned, 1, 4)});
    CHECK(out.parcels[0].consumed.mg == 3'333'333);  // 10,000,001 / 3, down
    CHECK(open_of(out) == Open{{0, 0}});
    auto weighed = says({1}, "CAFE", Fate::used, 1, 2);
    weighed.mass_mg = 3'200'000;
    CHECK(open_of(outside(moves, {weighed, says({1}, "CAFE", Fate::destroyed, 2, 3)})) == Open{{0, 0}});
}

TEST_CASE("rule 65: what a co-packer sent back as another lot is no longer there, mass and pieces apart, at most what was sent") {
    const auto net = [](std::vector<Move> others, Amounts back, std::int64_t when = 5) {
        std::vector<Move> moves{went(1, "COPACK", 30 * kg, 100, 1, Way::co_packer), went(1, "CAFE", 9 * kg, 9, 1)};
        std::vector<Use> uses{{9, 1, 5, {}, {}, true, 5}, {8, 1, 5, {}, {}, true, 5}};
        net_co_packed({{9, "COPACK", back, when, {1, 2}}}, std::move(others), moves, uses);
        CHECK(moves[1].pieces == 9);
        CHECK_FALSE(uses[1].pieces.has_value());
        CHECK(uses[0].mass_mg.value_or(0) + *moves[0].mass_mg == 30 * kg);
        CHECK(uses[0].pieces.value_or(0) + *moves[0].pieces == 100);
        return Amounts{*moves[0].mass_mg, *moves[0].pieces};
    };
    CHECK(net({}, {28 * kg, 40}) == Amounts{2 * kg, 60});
    CHECK(net({}, {33 * kg, 0}) == Amounts{0, 100});
    CHECK(net({}, {28 * kg, 40}, 0) == Amounts{30 * kg, 100});  // came back before it was sent: of something else
    // It may as well be of lot 2, which is not recalled: only what lot 2 cannot have been is taken off.
    CHECK(net({went(2, "COPACK", 20 * kg, 0, 1, Way::co_packer)}, {28 * kg, 40}) == Amounts{22 * kg, 60});
    CHECK(net({went(2, "OTHER", 20 * kg, 0, 1, Way::co_packer)}, {28 * kg, 40}) == Amounts{2 * kg, 60});
}
