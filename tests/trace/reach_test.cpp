// Reachability against Boost.Graph's breadth-first search (an independent library); depth, order and
// certainty against their definitions in trace/trace.h.
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/breadth_first_search.hpp>
#include <catch2/catch.hpp>
#include <chrono>
#include <map>
#include <set>

#include "lot_graphs.h"

using namespace peelbook;
using namespace peelbook::trace;
using peelbook::trace::testing::found;
using peelbook::trace::testing::GraphMaker;

namespace {

using BoostGraph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS>;

// Boost's distances from one lot: -1 when it is not reached.
std::map<LotId, int> boost_distances(const Graph& graph, LotId start, bool backward, bool sure_only) {
    std::map<LotId, std::size_t> vertex;
    for (const Lot& lot : graph.lots) vertex.emplace(lot.id, vertex.size());
    BoostGraph boosted(vertex.size());
    for (const Use& use : graph.uses) {
        if (sure_only && !use.sure) continue;
        boost::add_edge(vertex[backward ? use.into : use.from], vertex[backward ? use.from : use.into], boosted);
    }
    std::vector<int> distance(vertex.size(), -1);
    distance[vertex[start]] = 0;
    boost::breadth_first_search(boosted, vertex[start],
                                boost::visitor(boost::make_bfs_visitor(boost::record_distances(distance.data(), boost::on_tree_edge()))));
    std::map<LotId, int> by_lot;
    for (const auto& [lot, v] : vertex) by_lot[lot] = distance[v];
    return by_lot;
}

// Fewest uses from any of the start lots.
std::map<LotId, int> boost_distances(const Graph& graph, const std::vector<LotId>& starts, bool backward, bool sure_only) {
    std::map<LotId, int> best;
    for (const LotId start : starts) {
        for (const auto& [lot, distance] : boost_distances(graph, start, backward, sure_only)) {
            if (distance < 0) continue;
            const auto [entry, fresh] = best.emplace(lot, distance);
            if (!fresh) entry->second = std::min(entry->second, distance);
        }
    }
    return best;
}

void compare(const std::vector<Reached>& ours, const Graph& graph, const std::vector<LotId>& starts, bool backward) {
    const auto reach = boost_distances(graph, starts, backward, false);
    const auto surely = boost_distances(graph, starts, backward, true);
    REQUIRE(ours.size() == reach.size());
    for (const Reached& r : ours) {
        REQUIRE(reach.count(r.lot) == 1);
        CHECK(r.depth == reach.at(r.lot));
        CHECK(r.certain == (surely.count(r.lot) == 1));
        if (r.depth == 1) CHECK(r.direct);
    }
}

void check_order(const std::vector<Reached>& ours, const Graph& graph, bool backward) {
    std::map<LotId, std::size_t> place;
    for (const Reached& r : ours) place.emplace(r.lot, place.size());
    REQUIRE(place.size() == ours.size());
    for (const Use& use : graph.uses) {
        if (place.count(use.from) == 0 || place.count(use.into) == 0) continue;
        CHECK((place.at(use.from) < place.at(use.into)) != backward);
    }
}

}  // namespace

TEST_CASE("What a trace reaches is what Boost.Graph reaches, on 200 random lot graphs") {
    for (unsigned seed = 1; seed <= 200; ++seed) {
        GraphMaker maker(seed);
        maker.bakery(static_cast<int>(maker.between(1, 30)));
        const auto start = maker.suspects();
        const auto ahead = forward(maker.graph, start);
        compare(ahead, maker.graph, start, false);
        check_order(ahead, maker.graph, false);
        const std::vector<LotId> goods{maker.any(maker.doughs), maker.graph.lots.back().id};
        const auto behind = back(maker.graph, goods);
        compare(behind, maker.graph, goods, true);
        check_order(behind, maker.graph, true);
        const std::set<LotId> goods_set(goods.begin(), goods.end());
        REQUIRE(goods_set.count(behind.front().lot) == 1);
    }
}

TEST_CASE("A path runs over uses, and over sure ones where there is such a way") {
    GraphMaker maker(1);
    const LotId flour = maker.lot(LotKind::received), leaven = maker.lot(LotKind::batch), dough = maker.lot(LotKind::batch);
    const LotId bread = maker.lot(LotKind::pack), other = maker.lot(LotKind::received);
    maker.use(leaven, flour, 1'000);
    maker.use(dough, leaven, 1'000);
    maker.use(dough, flour, 1'000, false);
    maker.use(bread, dough, 1'000);
    CHECK(path(maker.graph, flour, bread) == std::vector<LotId>{flour, leaven, dough, bread});
    CHECK(path(maker.graph, flour, flour) == std::vector<LotId>{flour});
    CHECK(path(maker.graph, other, bread).empty());
    CHECK(path(maker.graph, bread, flour).empty());
    CHECK(path(maker.graph, 999'999, bread).empty());
    const auto reached = forward(maker.graph, {flour});
    CHECK(found(reached, dough)->direct);
    CHECK(found(reached, dough)->depth == 1);
    CHECK(found(reached, dough)->certain);
    CHECK(found(reached, bread)->depth == 2);
    CHECK_FALSE(found(reached, bread)->direct);

    maker.graph.uses[0].sure = false;  // now no way is sure: the shortest is shown, and nothing is certain
    CHECK(path(maker.graph, flour, bread) == std::vector<LotId>{flour, dough, bread});
    CHECK_FALSE(found(forward(maker.graph, {flour}), bread)->certain);
}

TEST_CASE("A use that would close a cycle is shown with the cycle") {
    GraphMaker maker(1);
    const LotId scald = maker.lot(LotKind::batch), dough = maker.lot(LotKind::batch), bread = maker.lot(LotKind::pack);
    maker.use(dough, scald, 1'000);
    maker.use(bread, dough, 1'000);
    CHECK(cycle_closed_by(maker.graph, scald, bread) == std::vector<LotId>{scald, dough, bread});
    CHECK(cycle_closed_by(maker.graph, dough, dough) == std::vector<LotId>{dough});
    CHECK(cycle_closed_by(maker.graph, bread, scald).empty());

    const LotId flour = maker.lot(LotKind::received);
    maker.use(scald, flour, 1'000);
    maker.use(scald, bread, 1'000);
    const LotId after = maker.lot(LotKind::pack);
    maker.use(after, bread, 1'000);
    CHECK_THROWS_AS(forward(maker.graph, {flour}), std::logic_error);
    CHECK_THROWS_AS(back(maker.graph, {after}), std::logic_error);
    try {
        forward(maker.graph, {flour});
    } catch (const std::logic_error& e) {
        const std::string said = e.what();
        const bool names_one_of_it = said == "the lot graph holds a cycle through lot L3" ||
                                     said == "the lot graph holds a cycle through lot L10" ||
                                     said == "the lot graph holds a cycle through lot L17";
        CHECK(names_one_of_it);
    }
}

TEST_CASE("Odd starts: unknown lots, repeats, a start behind another") {
    GraphMaker maker(1);
    const LotId flour = maker.lot(LotKind::received, 5'000), dough = maker.lot(LotKind::batch);
    maker.use(dough, flour, 5'000);
    const auto lone = forward(maker.graph, {4'711});
    REQUIRE(lone.size() == 1);
    CHECK(lone[0].depth == 0);
    const auto both = forward(maker.graph, {dough, flour, flour});
    REQUIRE(both.size() == 2);
    CHECK(both[0].lot == flour);
    CHECK(both[1].depth == 0);
    CHECK(both[1].direct);
    CHECK(forward({}, {}).empty());
    CHECK(back({}, {}).empty());
}

// rule 33: five years of daily feedings is 1,826 levels.
TEST_CASE("rule 33: a leaven of 2,000 feedings keeps its ancestry, in under a second", "[timed]") {
    GraphMaker maker(1);
    const LotId first_flour = maker.lot(LotKind::received, 1'000'000);
    LotId leaven = maker.lot(LotKind::batch);
    maker.use(leaven, first_flour, 1'000'000);
    for (int day = 0; day < 2'000; ++day) {
        const LotId flour = maker.lot(LotKind::received, 9'000'000), fed = maker.lot(LotKind::batch);
        maker.use(fed, leaven, 1'000'000);
        maker.use(fed, flour, 9'000'000);
        leaven = fed;
    }
    const auto begin = std::chrono::steady_clock::now();
    const auto ahead = forward(maker.graph, {first_flour});
    const auto behind = back(maker.graph, {leaven});
    [[maybe_unused]] const auto took = std::chrono::steady_clock::now() - begin;
#ifndef __SANITIZE_ADDRESS__  // the sanitizers' build takes several times as long
    CHECK(took < std::chrono::seconds(1));
#endif
    REQUIRE(ahead.size() == 2'002);
    CHECK(ahead.back().lot == leaven);
    CHECK(ahead.back().depth == 2'001);
    CHECK(ahead.back().certain);
    CHECK(found(ahead, leaven)->share_expected.has_value());  // a tenth a day: small beyond counting, and still listed
    CHECK(behind.size() == 4'002);
    CHECK(path(maker.graph, first_flour, leaven).size() == 2'002);
}

TEST_CASE("A cycle is found and told lot by lot; without one there is none") {
    for (unsigned seed = 1; seed <= 100; ++seed) {
        GraphMaker maker(seed);
        Graph graph;
        constexpr LotId lots = 60;
        for (LotId into = 2; into <= lots; ++into) {
            for (int i = 0; i < 2; ++i) graph.uses.push_back({into, maker.between(1, into - 1), into, {}, {}, true, 0});
        }
        CHECK(cycle_in(graph).empty());
        const LotId early = maker.between(1, 30);
        const auto reached = forward(graph, {early});
        const LotId late = reached.back().lot;
        graph.uses.push_back({early, late, 0, {}, {}, true, 0});
        const auto cycle = cycle_in(graph);
        INFO("seed " << seed);
        REQUIRE_FALSE(cycle.empty());
        for (std::size_t i = 0; i < cycle.size(); ++i) {
            const LotId from = cycle[i], into = cycle[(i + 1) % cycle.size()];
            CHECK(std::any_of(graph.uses.begin(), graph.uses.end(), [&](const Use& use) { return use.from == from && use.into == into; }));
        }
    }
}
