// The lot graph against a search written here, on random graphs and on cycles.
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
    for (const auto& [from, into] : edges) into_lot[into].push_back(Use{into, from, 1000 + from, 1, {}, {}, 1, 1, {}, 0, ""});
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

TEST_CASE("A cycle of lots ends, and several starts make one graph") {
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
        lot.kind = LotKind::batch;
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
    rows.set_moves(3, {Move{3, 8, Way::customer, "C", 40, {}, 1, 0, 5, 1, "D-1", "", "", ""}});
    rows.set_uses_into(2, {Use{2, 1, 11, 10, {}, {}, 1, 1, {}, 1, ""}, Use{2, 9, 12, 5, {}, 8, 1, 0, {}, 1, ""}});
    rows.set_uses_into(3, {Use{3, 2, 13, 20, {}, {}, 1, 1, {}, 2, ""}});
    rows.set_uses_into(4, {Use{4, 3, 14, 30, {}, {}, 1, 1, 77, 3, ""}});
    const auto reach = rows.reached_from({1}, true);
    CHECK(reach == std::vector<LotId>{1, 2, 3});
    std::vector<std::string> codes;
    std::vector<bool> held;
    rows.each_lot(reach, [&](const Derived::TracedLot& lot) {
        codes.emplace_back(lot.code);
        held.push_back(lot.held);
    });
    CHECK(codes == std::vector<std::string>{"L-1", "L-2", "L-3"});
    CHECK(held == std::vector<bool>{false, false, true});
    int stocks = 0;
    rows.each_stock(reach, [&](const Derived::TracedStock& s, std::size_t place) {
        ++stocks;
        CHECK(place == 1);
        CHECK(s.mg.made == 200);
        CHECK(s.mg.used == 50);
        CHECK(s.mg.on_hand == 150);
        CHECK(s.mg.gap == 0);
        CHECK(s.pieces.made == 0);
    });
    CHECK(stocks == 1);
    std::vector<Derived::TracedUse> uses;
    rows.each_use_into(reach, [&](const Derived::TracedUse& use) { uses.push_back(use); });
    REQUIRE(uses.size() == 3);  // from outside too
    CHECK(uses[0].mass_mg == 10);
    CHECK_FALSE(uses[0].largest_mg);
    CHECK(uses[1].from_lot == 9);
    CHECK(uses[1].largest_mg == 8);
    CHECK_FALSE(uses[1].sure);
    CHECK(uses[2].happened == 2);
    const auto ended = rows.ended_after(reach);
    REQUIRE(ended.size() == 1);
    CHECK(ended[0].into_lot == 4);
    CHECK(ended[0].ended_by == 77);
    int moves = 0;
    rows.each_move(reach, [&](const Derived::TracedMove& move, std::size_t place) {
        ++moves;
        CHECK(place == 2);
        CHECK(move.partner == "C");
        CHECK(move.document == "D-1");
        CHECK(move.mass_mg == 40);
        CHECK_FALSE(move.pieces);
    });
    CHECK(moves == 1);
    CHECK(rows.reached_from({4}, false) == std::vector<LotId>{4});
    rows.each_use_into({4}, [](const Derived::TracedUse& use) { CHECK(use.ended_by == 77); });
    CHECK(rows.reached_from({3}, false) == std::vector<LotId>{1, 2, 3, 9});
    CHECK(rows.reached_from({}, true).empty());
}

TEST_CASE("lots far apart and side by side, with more rows of others between than are stepped over, each give all their rows once") {
    auto book = Book::in_memory();
    auto& rows = book.derived();
    const auto work = book.begin();
    constexpr LotId last = 200;
    for (LotId into = 2; into <= last; ++into) {
        std::vector<Use> uses;  // as many as its number modulo 5: some lots have none
        for (LotId from = 1; from <= into % 5 && from < into; ++from) uses.push_back(Use{into, from, into, 10, {}, {}, 1, 1, {}, 1, ""});
        rows.set_uses_into(into, uses);
    }
    for (const LotId step : {1, 2, 7, 40}) {
        std::vector<LotId> lots, wanted, got;
        for (LotId lot = 3; lot <= last + step; lot += step) lots.push_back(lot);
        for (const LotId lot : lots)
            if (lot <= last) wanted.insert(wanted.end(), static_cast<std::size_t>(std::min(lot % 5, lot - 1)), lot);
        rows.each_use_into(lots, [&](const Derived::TracedUse& use) { got.push_back(use.into_lot); });
        CHECK(got == wanted);
    }
}
