// Shares against an independent matrix solution (Eigen): with A(L, f) the mass fraction of f in the inputs of
// L, the share of the start lots in all lots is (I - A)^-1 times the indicator of the start lots. Largest
// shares against hand examples and against every possible way of drawing from a silo, kilogram by kilogram.
#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "lot_graphs.h"

using namespace peelbook;
using namespace peelbook::trace;
using peelbook::trace::testing::found;
using peelbook::trace::testing::GraphMaker;
using peelbook::trace::testing::kg;

namespace {

// By position in graph.lots.
Eigen::VectorXd matrix_shares(const Graph& graph, const std::vector<LotId>& start) {
    std::map<LotId, Eigen::Index> row;
    for (const Lot& lot : graph.lots) row.emplace(lot.id, static_cast<Eigen::Index>(row.size()));
    const auto n = static_cast<Eigen::Index>(row.size());
    Eigen::VectorXd inputs = Eigen::VectorXd::Zero(n), is_start = Eigen::VectorXd::Zero(n);
    for (const Use& use : graph.uses) inputs(row[use.into]) += static_cast<double>(*use.mass_mg);
    Eigen::MatrixXd a = Eigen::MatrixXd::Zero(n, n);
    for (const Use& use : graph.uses) {
        a(row[use.into], row[use.from]) += static_cast<double>(*use.mass_mg) / inputs(row[use.into]);
    }
    for (const LotId lot : start) {
        a.row(row[lot]).setZero();
        is_start(row[lot]) = 1;
    }
    return (Eigen::MatrixXd::Identity(n, n) - a).inverse() * is_start;
}

}  // namespace

TEST_CASE("Expected shares equal (I - A)^-1 on 500 random graphs with leaven, rework and silos") {
    double worst = 0;
    for (unsigned seed = 1; seed <= 500; ++seed) {
        GraphMaker maker(seed);
        maker.bakery(static_cast<int>(maker.between(1, 18)));
        const auto start = maker.suspects();
        const Eigen::VectorXd reference = matrix_shares(maker.graph, start);
        const auto reached = forward(maker.graph, start);
        for (std::size_t i = 0; i < maker.graph.lots.size(); ++i) {
            const double wanted = reference(static_cast<Eigen::Index>(i));
            const Reached* ours = found(reached, maker.graph.lots[i].id);
            if (!ours) {
                CHECK(wanted == Approx(0).margin(1e-12));
                continue;
            }
            REQUIRE(ours->share_expected.has_value());
            REQUIRE(ours->share_largest.has_value());
            worst = std::max(worst, std::abs(*ours->share_expected - wanted));
            CHECK(*ours->share_largest >= *ours->share_expected - 1e-12);
            CHECK(*ours->share_largest <= 1.0);
        }
    }
    CHECK(worst < 1e-12);
}

TEST_CASE("rule 34: shares are of inputs, milligrams per kilogram and the largest share of made mass") {
    // 50 kg suspect flour, 50 kg other flour, 60 kg water: 160 kg dough, 144 kg bread (a tenth baked out,
    // common practice).
    GraphMaker maker(1);
    const LotId suspect = maker.lot(LotKind::received, 200 * kg), other = maker.lot(LotKind::received, 200 * kg);
    const LotId water = maker.lot(LotKind::supply), bread = maker.lot(LotKind::batch, 144 * kg), pack = maker.lot(LotKind::pack, 72 * kg);
    const LotId rework = maker.lot(LotKind::batch);
    maker.use(bread, suspect, 50 * kg);
    maker.use(bread, other, 50 * kg);
    maker.use(bread, water, 60 * kg);
    maker.use(pack, bread, 72 * kg);
    maker.use(rework, bread, 7'200'000);
    maker.use(rework, other, 92'800'000);
    const auto reached = forward(maker.graph, {suspect});
    CHECK(*found(reached, bread)->share_expected == Approx(50.0 / 160).epsilon(1e-14));
    CHECK(*found(reached, bread)->share_largest == Approx(50.0 / 144).epsilon(1e-14));
    CHECK(*found(reached, bread)->suspect_mg == 50 * kg);
    CHECK(*found(reached, pack)->share_expected == Approx(50.0 / 160).epsilon(1e-14));
    CHECK(*found(reached, pack)->share_largest == Approx(50.0 / 144).epsilon(1e-14));
    CHECK(*found(reached, pack)->suspect_mg == 25 * kg);                            // half the bread holds half the flour
    CHECK(*found(reached, rework)->share_largest == Approx(0.025).epsilon(1e-14));  // 7.2 x 50/144 in 100
    CHECK(*found(reached, rework)->suspect_mg == 2'500'000);
    CHECK(*found(reached, suspect)->share_expected == 1.0);
    CHECK(*found(reached, suspect)->suspect_mg == 200 * kg);

    maker.graph.lots[3].made_mg = 170 * kg;  // more than went in: something was not written down, the inputs count
    CHECK(*found(forward(maker.graph, {suspect}), bread)->share_largest == Approx(50.0 / 160).epsilon(1e-14));
    maker.graph.lots[3].made_mg = 40 * kg;  // less than the suspect flour in it
    CHECK(*found(forward(maker.graph, {suspect}), bread)->share_largest == 1.0);
}

TEST_CASE("A draw from a blend may be all suspect, as far as the suspect in the blend suffices") {
    // 300 kg stand in the silo, 100 kg suspect flour come on top; batches draw 80, 100 and 250 kg.
    GraphMaker maker(1);
    const LotId old = maker.lot(LotKind::received, 300 * kg), suspect = maker.lot(LotKind::received, 100 * kg);
    const LotId blend = maker.lot(LotKind::blend, 400 * kg), water = maker.lot(LotKind::supply);
    maker.use(blend, old, 300 * kg);
    maker.use(blend, suspect, 100 * kg);
    std::vector<LotId> doughs;
    for (const std::int64_t drawn : {80, 100, 250}) {
        doughs.push_back(maker.lot(LotKind::batch));
        maker.use(doughs.back(), blend, drawn * kg);
        maker.use(doughs.back(), water, drawn * kg);
    }
    const auto reached = forward(maker.graph, {suspect});
    CHECK(*found(reached, blend)->share_expected == Approx(0.25));
    CHECK(*found(reached, blend)->share_largest == Approx(0.25));
    for (const LotId dough : doughs) CHECK(*found(reached, dough)->share_expected == Approx(0.125));
    CHECK(*found(reached, doughs[0])->share_largest == Approx(80.0 / 160));
    CHECK(*found(reached, doughs[1])->share_largest == Approx(100.0 / 200));
    CHECK(*found(reached, doughs[2])->share_largest == Approx(100.0 / 500));

    SECTION("more drawn than was filled: scales drift, the share stays at least the blend's") {
        const LotId last = maker.lot(LotKind::batch);
        maker.use(last, blend, 480 * kg);
        const auto again = forward(maker.graph, {suspect});
        CHECK(*found(again, last)->share_expected == Approx(0.25));
        CHECK(*found(again, last)->share_largest == Approx(0.25));
    }
    SECTION("the blend itself is the suspect") {
        const auto from_blend = forward(maker.graph, {blend});
        CHECK(*found(from_blend, doughs[2])->share_largest == Approx(0.5));
        CHECK(*found(from_blend, doughs[2])->share_expected == Approx(0.5));
    }
}

// A mixed silo as integers of kilograms: `most` and `least` suspect that can stand in it, over all ways of
// drawing.
TEST_CASE("The largest share of a draw equals the worst of all ways to draw, kilogram by kilogram") {
    for (unsigned seed = 1; seed <= 200; ++seed) {
        GraphMaker maker(seed);
        const LotId suspect = maker.lot(LotKind::received), other = maker.lot(LotKind::received);
        std::set<std::int64_t> possible{0};  // suspect kilograms in the silo, every amount that can be
        std::int64_t standing = 0;
        LotId blend = 0;
        std::map<LotId, double> worst;
        for (int step = 0; step < 12; ++step) {
            if (standing < 5 || maker.between(0, 2) == 0) {
                const std::int64_t filled = maker.between(1, 30);
                const bool bad = maker.between(0, 2) == 0;
                const LotId next = maker.lot(LotKind::blend, (standing + filled) * kg);
                if (standing > 0) maker.use(next, blend, standing * kg);
                maker.use(next, bad ? suspect : other, filled * kg);
                std::set<std::int64_t> after;
                for (const std::int64_t s : possible) after.insert(s + (bad ? filled : 0));
                possible = after;
                standing += filled;
                blend = next;
            } else {
                const std::int64_t drawn = maker.between(1, standing);
                std::set<std::int64_t> after;
                std::int64_t most = 0;
                for (const std::int64_t s : possible) {
                    for (std::int64_t x = std::max<std::int64_t>(0, drawn - (standing - s)); x <= std::min(drawn, s); ++x) {
                        most = std::max(most, x);
                        after.insert(s - x);
                    }
                }
                possible = after;
                standing -= drawn;
                const LotId dough = maker.lot(LotKind::batch);
                maker.use(dough, blend, drawn * kg);
                worst[dough] = static_cast<double>(most) / static_cast<double>(drawn);
            }
        }
        const auto reached = forward(maker.graph, {suspect});
        for (const auto& [dough, largest] : worst) {
            const Reached* ours = found(reached, dough);
            CHECK((ours ? *ours->share_largest : 0.0) == Approx(largest).margin(1e-12));
        }
    }
}

TEST_CASE("rule 29: packaging reaches, and never enters shares") {
    GraphMaker maker(1);
    const LotId film = maker.lot(LotKind::received, 10 * kg), flour = maker.lot(LotKind::received, 10 * kg);
    maker.graph.lots[0].packaging = true;
    const LotId bread = maker.lot(LotKind::batch), pack = maker.lot(LotKind::pack);
    maker.use(bread, flour, 10 * kg);
    maker.use(pack, bread, 10 * kg);
    maker.use(pack, film, 1 * kg);
    const auto by_film = forward(maker.graph, {film});
    REQUIRE(found(by_film, pack) != nullptr);
    CHECK(found(by_film, pack)->certain);
    CHECK_FALSE(found(by_film, pack)->share_expected.has_value());
    CHECK_FALSE(found(by_film, pack)->share_largest.has_value());
    const auto by_flour = forward(maker.graph, {flour});
    CHECK(*found(by_flour, pack)->share_expected == 1.0);
    const auto by_both = forward(maker.graph, {flour, film});
    CHECK(*found(by_both, pack)->share_expected == 1.0);
}

TEST_CASE("A use without a mass reaches; the expected share is unknown from there on, the largest stays bounded") {
    GraphMaker maker(1);
    const LotId dusting = maker.lot(LotKind::received, 2 * kg), flour = maker.lot(LotKind::received, 100 * kg);
    const LotId loaf = maker.lot(LotKind::batch, 90 * kg), rework = maker.lot(LotKind::batch), pack = maker.lot(LotKind::pack);
    maker.use(loaf, flour, 100 * kg);
    maker.use(loaf, dusting, std::nullopt, false);
    maker.use(rework, loaf, 9 * kg);
    maker.use(rework, flour, 91 * kg);
    maker.use(pack, loaf, std::nullopt);
    const auto reached = forward(maker.graph, {dusting});
    CHECK_FALSE(found(reached, loaf)->share_expected.has_value());
    CHECK_FALSE(found(reached, loaf)->suspect_mg.has_value());
    CHECK_FALSE(found(reached, rework)->share_expected.has_value());
    CHECK_FALSE(found(reached, loaf)->certain);
    CHECK(*found(reached, loaf)->share_largest == Approx(2.0 / 90));  // at most all of the dusting flour
    CHECK(*found(reached, rework)->share_largest == Approx(9.0 * 2 / 90 / 100));
    CHECK(*found(reached, pack)->share_largest == Approx(2.0 / 90));
    // Traced from the flour, the unweighed dusting flour is left out and the pack of one batch has its
    // batch's share.
    const auto by_flour = forward(maker.graph, {flour});
    CHECK(*found(by_flour, loaf)->share_expected == 1.0);
    CHECK(*found(by_flour, pack)->share_expected == 1.0);
    maker.graph.lots[0].made_mg.reset();
    CHECK(*found(forward(maker.graph, {dusting}), loaf)->share_largest == 1.0);
}

TEST_CASE("A possible use of another lot does not thin the largest share") {
    GraphMaker maker(1);
    const LotId suspect = maker.lot(LotKind::received), other = maker.lot(LotKind::received), dough = maker.lot(LotKind::batch);
    maker.use(dough, suspect, 30 * kg, false);
    maker.use(dough, other, 30 * kg, false);
    const auto reached = forward(maker.graph, {suspect});
    CHECK(*found(reached, dough)->share_expected == Approx(0.5));
    CHECK(*found(reached, dough)->share_largest == 1.0);
}

TEST_CASE("Parts of a draw from a vessel count with their largest mass, and the draw as a whole") {
    // A first-in silo: 10 kg drawn, expected of the other fill, of which up to 5 kg may be the suspect; 6 kg
    // of water.
    GraphMaker maker(1);
    const LotId suspect = maker.lot(LotKind::received), other = maker.lot(LotKind::received), water = maker.lot(LotKind::supply);
    const LotId dough = maker.lot(LotKind::batch);
    maker.use(dough, suspect, 0, false);
    maker.graph.uses.back().largest_mg = 5 * kg;
    maker.use(dough, other, 10 * kg, false);
    maker.graph.uses.back().largest_mg = 10 * kg;
    maker.use(dough, water, 6 * kg);
    const auto by_suspect = forward(maker.graph, {suspect});
    CHECK(*found(by_suspect, dough)->share_expected == 0.0);
    CHECK(*found(by_suspect, dough)->share_largest == Approx(5.0 / 16));
    CHECK_FALSE(found(by_suspect, dough)->certain);
    CHECK(*found(forward(maker.graph, {other}), dough)->share_largest == Approx(10.0 / 16));
}
