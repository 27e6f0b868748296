// The lot graph against a search written here, on random graphs and on circles.
#include <catch2/catch.hpp>
#include <map>
#include <random>
#include <set>

#include "support.h"

using namespace peelbook;
using namespace peelbook::book;

namespace {

std::set<LotId> reached(const std::vector<std::pair<LotId, LotId>>& edges,
                        LotId start) {  // edges: from, into
    std::set<LotId> found{start};
    for (bool grew = true; grew;) {
        grew = false;
        for (const auto& [from, into] : edges)
            if (found.contains(from) && found.insert(into).second) grew = true;
    }
    return found;
}

std::set<LotId> ids(const std::vector<Lot>& lots) {
    std::set<LotId> found;
    for (const Lot& lot : lots) found.insert(lot.id);
    CHECK(found.size() == lots.size());
    return found;
}

void put_graph(Book& book, LotId lots, const std::vector<std::pair<LotId, LotId>>& edges) {
    Book::Work work = book.begin();
    std::map<LotId, std::vector<Use>> into_lot;
    for (const auto& [from, into] : edges)
        into_lot[into].push_back(Use{into, from, 1000 + from, 1, {}, {}, 1, 1, {}, 0, ""});
    for (LotId id = 1; id <= lots; ++id) {
        book.derived().put(lot_of(id, "L-" + std::to_string(id)));
        book.derived().set_uses_into(id, into_lot[id]);
    }
    work.commit();
}

}  // namespace

TEST_CASE("Everything that a lot reached, and nothing else") {
    std::mt19937 random(7);
    for (int round = 0; round < 40; ++round) {
        constexpr LotId lots = 25;
        std::set<std::pair<LotId, LotId>> set;
        for (int n = std::uniform_int_distribution<int>{5, 45}(random); n > 0; --n) {
            const LotId from = std::uniform_int_distribution<LotId>{1, lots}(random);
            const LotId into = std::uniform_int_distribution<LotId>{1, lots}(random);
            if (from != into) set.emplace(from, into);
        }
        const std::vector<std::pair<LotId, LotId>> edges(set.begin(), set.end());
        std::vector<std::pair<LotId, LotId>> turned;
        for (const auto& [from, into] : edges) turned.emplace_back(into, from);
        Book book = Book::in_memory();
        put_graph(book, lots, edges);
        for (LotId start = 1; start <= lots; ++start) {
            const std::set<LotId> forward = reached(edges, start);
            const Derived::Graph graph = book.derived().forward({start});
            CHECK(ids(graph.lots) == forward);
            std::size_t into_them = 0;
            for (const auto& [from, into] : edges) into_them += forward.contains(into) ? 1 : 0;
            CHECK(graph.uses.size() == into_them);
            CHECK(ids(book.derived().back({start}).lots) == reached(turned, start));
        }
    }
}

TEST_CASE("A circle of lots ends, and several starts make one graph") {
    Book book = Book::in_memory();
    put_graph(book, 5, {{1, 2}, {2, 3}, {3, 1}, {4, 5}});
    CHECK(ids(book.derived().forward({1}).lots) == std::set<LotId>{1, 2, 3});
    CHECK(ids(book.derived().forward({1, 4}).lots) == std::set<LotId>{1, 2, 3, 4, 5});
    CHECK(book.derived().forward({}).lots.empty());
}

TEST_CASE("what a trace shows is the same reach, with stock, holds and ways out; a use that a decision ended is not followed") {
    auto book = Book::in_memory();
    auto& rows = book.derived();
    const auto work = book.begin();
    for (const LotId id : {1, 2, 3, 4, 9}) {
        Lot lot;
        lot.id = id;
        lot.code = "L-" + std::to_string(id);
        lot.kind = "batch";
        lot.made_mg = 100 * id;
        rows.put(lot);
    }
    Stock stock;
    stock.lot = 2;
    stock.made_mg = 200;
    stock.used_mg = 50;
    stock.on_hand_mg = 150;
    rows.put(stock);
    rows.set_holds(3, {Hold{7, 3, 0, "why", {}, "", {}, {}}});
    rows.set_moves(3, {Move{3, 8, "customer", "C", 40, {}, 1, 0, 5, 1, "D-1", "", "", ""}});
    rows.set_uses_into(2, {Use{2, 1, 11, 10, {}, {}, 1, 1, {}, 1, ""}, Use{2, 9, 12, 5, {}, 8, 1, 0, {}, 1, ""}});
    rows.set_uses_into(3, {Use{3, 2, 13, 20, {}, {}, 1, 1, {}, 2, ""}});
    rows.set_uses_into(4, {Use{4, 3, 14, 30, {}, {}, 1, 1, 77, 3, ""}});
    const auto forward = rows.traced({1}, true);
    REQUIRE(forward.lots.size() == 3);
    CHECK(forward.lots[1].code == "L-2");
    CHECK(forward.lots[1].stock.on_hand_mg == 150);
    CHECK_FALSE(forward.lots[1].held);
    CHECK(forward.lots[2].held);
    REQUIRE(forward.uses.size() == 3);  // from outside too
    CHECK(forward.uses[1].from_lot == 9);
    CHECK(forward.uses[1].largest_mg == 8);
    CHECK_FALSE(forward.uses[1].sure);
    REQUIRE(forward.ended.size() == 1);
    CHECK(forward.ended[0].ended_by == 77);
    REQUIRE(forward.moves.size() == 1);
    CHECK(forward.moves[0].partner == "C");
    const auto back = rows.traced({4}, false);
    CHECK(back.lots.size() == 1);
    CHECK(back.ended.size() == 1);
    CHECK(rows.traced({3}, false).lots.size() == 4);
    CHECK(rows.traced({}, true).lots.empty());
}
