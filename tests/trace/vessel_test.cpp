// Vessels: the first-in model against a slow conveyor of single kilograms, the mixed one against direct
// arithmetic, both against what really happened when clocks, spans and emptyings are in doubt. Hand examples
// for the rules of trace/vessel.h.
#include "trace/vessel.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "kilogram_vessel.h"
#include "lot_graphs.h"

using namespace peelbook;
using namespace peelbook::trace;
using peelbook::trace::testing::GraphMaker;
using peelbook::trace::testing::kg;
using peelbook::trace::testing::KilogramVessel;

namespace {

constexpr std::int64_t minute = 60'000;

VesselFill fill(std::int64_t id, std::int64_t kilograms, std::int64_t from_min, std::int64_t until_min) {
    return {id, 100 + id, kilograms * kg, from_min * minute, until_min * minute};
}

VesselDraw draw(std::int64_t id, std::int64_t kilograms, std::int64_t at_min) { return {id, kilograms * kg, at_min * minute}; }

// "1:60/80? 2:40/40" : fill, expected / largest kilograms, ? for possible.
std::string told(const DrawContents& draw) {
    std::string text;
    for (const Content& c : draw.contents) {
        text += (text.empty() ? "" : " ") + std::to_string(c.fill) + ":" + std::to_string(c.expected_mg / kg) + "/" +
                std::to_string(c.largest_mg / kg) + (c.certain ? "" : "?");
    }
    return text;
}

std::string told(const VesselHistory& history, std::size_t draw) { return told(draw_contents(history).at(draw)); }

VesselHistory silo(VesselModel model) {
    VesselHistory history;
    history.model = model;
    return history;
}

// Fills, draws and emptyings at distinct minutes, everything in whole kilograms.
VesselHistory random_history(GraphMaker& maker, VesselModel model) {
    VesselHistory history = silo(model);
    history.heel_mg = maker.between(0, 2) * 3 * kg;
    history.smear_mg = model == VesselModel::first_in ? maker.between(0, 6) * kg : 0;
    const std::int64_t events = maker.between(3, 40);
    for (std::int64_t i = 0; i < events; ++i) {
        const auto what = maker.between(0, 9);
        const std::int64_t at = 10 * i;
        if (i == 0 || what < 4) {
            history.fills.push_back(fill(i, maker.between(1, 30), at, at));
        } else if (what < 9) {
            history.draws.push_back(draw(i, maker.between(1, 20), at));
        } else {
            history.emptied.push_back({at * minute, true});
        }
    }
    return history;
}

}  // namespace

TEST_CASE("A first-in vessel equals the conveyor of kilograms, on 400 random histories") {
    for (unsigned seed = 1; seed <= 400; ++seed) {
        GraphMaker maker(seed);
        const VesselHistory history = random_history(maker, VesselModel::first_in);
        const auto ours = draw_contents(history);
        const auto slow = KilogramVessel(history).run();
        REQUIRE(ours.size() == slow.size());
        for (std::size_t i = 0; i < ours.size(); ++i) {
            INFO("seed " << seed << " draw " << ours[i].draw);
            CHECK(told(ours[i]) == told(slow[i]));
        }
    }
}

TEST_CASE("A mixed vessel equals direct arithmetic, on 400 random histories") {
    for (unsigned seed = 1; seed <= 400; ++seed) {
        GraphMaker maker(seed);
        const VesselHistory history = random_history(maker, VesselModel::mixed);
        const auto ours = draw_contents(history);
        const auto direct = peelbook::trace::testing::mixed_by_arithmetic(history);
        REQUIRE(ours.size() == direct.size());
        for (std::size_t i = 0; i < ours.size(); ++i) {
            INFO("seed " << seed << " draw " << ours[i].draw);
            REQUIRE(ours[i].contents.size() == direct[i].size());
            std::int64_t sum = 0;
            for (const Content& c : ours[i].contents) {
                CHECK(static_cast<double>(c.expected_mg) == Approx(direct[i].at(c.fill)).margin(50));  // mg
                CHECK(c.largest_mg >= c.expected_mg);
                sum += c.expected_mg;
            }
            const auto& drawn =
                *std::find_if(history.draws.begin(), history.draws.end(), [&](const VesselDraw& d) { return d.id == ours[i].draw; });
            CHECK(sum == drawn.mass_mg);
        }
    }
}

namespace {

const Content* listed(const DrawContents& draw, std::int64_t fill) {
    for (const Content& content : draw.contents) {
        if (content.fill == fill) return &content;
    }
    return nullptr;
}

// One way it may really have been: the clocks err by up to half the uncertainty each, so that two of them
// differ by at most all of it; a fill goes in at one moment of its span; an emptying that nobody inspected
// took place or not.
VesselHistory one_truth(const VesselHistory& book, GraphMaker& maker) {
    const std::int64_t half = book.clock_uncertainty_ms / 2;
    const auto off = [&] { return maker.between(-half, half); };
    VesselHistory truth = book;
    truth.clock_uncertainty_ms = truth.smear_mg = 0;
    truth.emptied.clear();
    for (VesselFill& f : truth.fills) f.from = f.until = maker.between(f.from, f.until) + off();
    for (VesselDraw& d : truth.draws) d.at += off();
    for (const VesselEmptied& e : book.emptied) {
        if (e.inspected || maker.between(0, 1) == 0) truth.emptied.push_back({e.at + off(), true});
    }
    return truth;
}

VesselHistory doubtful_history(GraphMaker& maker, VesselModel model) {
    VesselHistory book = random_history(maker, model);
    book.clock_uncertainty_ms = 2 * maker.between(0, 8) * minute;
    for (VesselFill& f : book.fills) {
        f.mass_mg += maker.between(0, 1) * 30 * kg;
        f.until += maker.between(0, 25) * minute;
    }
    for (VesselDraw& d : book.draws) d.mass_mg = (d.mass_mg + kg) / 2;
    for (VesselEmptied& e : book.emptied) e.inspected = maker.between(0, 2) != 0;
    return book;
}

}  // namespace

// Whatever then was in a draw must be listed, at most in the largest mass; and what is called certain must be
// in it.
TEST_CASE("What really was in a draw is always listed, in both models") {
    int happened = 0;
    for (unsigned seed = 1; seed <= 6'000; ++seed) {
        GraphMaker maker(seed);
        const auto model = seed % 2 == 0 ? VesselModel::mixed : VesselModel::first_in;
        const VesselHistory book = doubtful_history(maker, model);
        const VesselHistory truth = one_truth(book, maker);
        if (!peelbook::trace::testing::can_have_happened(truth)) continue;
        ++happened;
        std::map<std::int64_t, DrawContents> by_book;
        for (const DrawContents& d : draw_contents(book)) by_book[d.draw] = d;
        for (const DrawContents& real : draw_contents(truth)) {
            const DrawContents& said = by_book[real.draw];
            INFO("seed " << seed << " draw " << real.draw << " truly " << told(real) << " told " << told(said));
            for (const Content& was : real.contents) {
                const Content* content = listed(said, was.fill);
                REQUIRE(content != nullptr);
                CHECK(content->largest_mg + 50 >= was.expected_mg);  // the truth is rounded too
            }
            for (const Content& content : said.contents) {
                if (content.certain) CHECK(listed(real, content.fill) != nullptr);
            }
        }
    }
    CHECK(happened > 1'000);
}

TEST_CASE("rule 30: only an inspected emptying ends the old-to-new chain") {
    for (const auto model : {VesselModel::mixed, VesselModel::first_in}) {
        VesselHistory h = silo(model);
        h.heel_mg = 5 * kg;
        h.fills = {fill(1, 100, 0, 10), fill(2, 100, 100, 110)};
        h.draws = {draw(1, 100, 50), draw(2, 10, 200)};  // computed: zero before fill 2, the heel stays
        SECTION(model == VesselModel::mixed ? "mixed: a computed zero" : "first-in: a computed zero") {
            CHECK(told(h, 1) == (model == VesselModel::mixed ? "1:0/5 2:9/10" : "1:5/5? 2:5/5"));
        }
        SECTION(model == VesselModel::mixed ? "mixed: emptied, not inspected" : "first-in: emptied, not inspected") {
            h.emptied = {{60 * minute, false}};
            CHECK(told(h, 1) == (model == VesselModel::mixed ? "1:0/5? 2:9/10" : "1:5/5? 2:5/10"));
        }
        SECTION(model == VesselModel::mixed ? "mixed: inspected" : "first-in: inspected") {
            h.emptied = {{60 * minute, true}};
            CHECK(told(h, 1) == "2:10/10");
        }
    }
}

TEST_CASE("rule 31: first-in draws point at fills, smeared to either side of a boundary") {
    VesselHistory h = silo(VesselModel::first_in);
    h.smear_mg = 10 * kg;
    h.fills = {fill(1, 100, 0, 10), fill(2, 100, 20, 30)};
    h.draws = {draw(1, 85, 100), draw(2, 10, 110), draw(3, 10, 120), draw(4, 10, 130), draw(5, 20, 140)};
    CHECK(told(h, 0) == "1:85/85");
    CHECK(told(h, 1) == "1:10/10 2:0/5?");   // running mass 85 to 95: from 90 on it may be the second fill
    CHECK(told(h, 2) == "1:5/10? 2:5/10?");  // 95 to 105
    CHECK(told(h, 3) == "1:0/5? 2:10/10");   // 105 to 115: the first fill reaches to 110
    CHECK(told(h, 4) == "2:20/20");
}

TEST_CASE("rule 32: a draw during a fill, or within the clocks of it, may be of either side") {
    for (const auto model : {VesselModel::mixed, VesselModel::first_in}) {
        const bool mixed = model == VesselModel::mixed;
        VesselHistory h = silo(model);
        h.clock_uncertainty_ms = 5 * minute;
        h.fills = {fill(1, 100, 0, 10), fill(2, 100, 100, 120)};
        const auto at = [&](std::int64_t min) {
            h.draws = {draw(1, 10, min)};
            return told(h, 0);
        };
        CHECK(at(94) == "1:10/10");
        CHECK(at(95) == (mixed ? "1:10/10 2:0/10?" : "1:10/10? 2:0/10?"));
        CHECK(at(110) == (mixed ? "1:5/10 2:5/10?" : "1:10/10? 2:0/10?"));
        CHECK(at(125) == (mixed ? "1:5/10 2:5/10?" : "1:10/10? 2:0/10?"));
        CHECK(at(126) == (mixed ? "1:5/10 2:5/10" : "1:10/10"));
        CHECK(at(3) == "1:10/10");  // nothing stood there before the first fill
    }
}

TEST_CASE("rule 32: a draw before a fill began never holds it, whatever the smear") {
    VesselHistory h = silo(VesselModel::first_in);
    h.smear_mg = 50 * kg;
    h.fills = {fill(1, 100, 0, 10), fill(2, 100, 100, 120)};
    h.draws = {draw(1, 80, 99), draw(2, 20, 200)};
    CHECK(told(h, 0) == "1:80/80");
    CHECK(told(h, 1) == "1:20/20? 2:0/20?");
}

TEST_CASE("Draws too close to tell may have come in either order") {
    VesselHistory h = silo(VesselModel::first_in);
    h.clock_uncertainty_ms = 2 * minute;
    h.fills = {fill(1, 10, 0, 0), fill(2, 100, 10, 10)};
    h.draws = {draw(1, 10, 100), draw(2, 10, 101), draw(3, 10, 110)};
    CHECK(told(h, 0) == "1:10/10? 2:0/10?");
    CHECK(told(h, 1) == "1:0/10? 2:10/10?");
    CHECK(told(h, 2) == "2:10/10");
}

TEST_CASE("Odd histories: nothing filled, a draw from a vessel that was emptied, drawing on beyond the last fill") {
    for (const auto model : {VesselModel::mixed, VesselModel::first_in}) {
        VesselHistory h = silo(model);
        h.draws = {draw(1, 10, 5)};
        CHECK(told(h, 0).empty());
        h.fills = {fill(1, 100, 50, 50)};
        CHECK(told(h, 0).empty());
        h.emptied = {{60 * minute, true}};
        h.draws = {draw(1, 10, 70)};
        CHECK(told(h, 0) == "1:10/10?");
        h.emptied.clear();
        h.draws = {draw(1, 100, 70), draw(2, 10, 80)};
        CHECK(told(h, 1) == (model == VesselModel::mixed ? "1:10/10" : "1:10/10?"));
        h.draws[0].mass_mg = 0;
        CHECK_THROWS_AS(draw_contents(h), std::logic_error);
        h.draws.clear();
        h.fills[0].until = 0;
        CHECK_THROWS_AS(draw_contents(h), std::logic_error);
        h.fills[0] = fill(1, 0, 0, 0);
        CHECK_THROWS_AS(draw_contents(h), std::logic_error);
        h.fills.clear();
        h.heel_mg = -1;
        CHECK_THROWS_AS(draw_contents(h), std::logic_error);
    }
}

// The lots of the graph and the list by fill tell the same story.
TEST_CASE("A chain of blends gives the shares that the contents give") {
    for (unsigned seed = 1; seed <= 100; ++seed) {
        GraphMaker maker(seed);
        const VesselHistory history = random_history(maker, VesselModel::mixed);
        const BlendChain chain = blend_chain(history);
        std::map<std::int64_t, LotId> blend_lot, fill_lot, dough;
        for (const Blend& b : chain.blends) {
            fill_lot[b.fill] = maker.lot(LotKind::received);
            blend_lot[b.fill] = maker.lot(LotKind::blend, b.made_mg());
            maker.use(blend_lot[b.fill], fill_lot[b.fill], b.filled_mg);
            if (b.stands_on) maker.use(blend_lot[b.fill], blend_lot[*b.stands_on], b.left_mg);
        }
        for (const BlendDraw& d : chain.draws) {
            dough[d.draw] = maker.lot(LotKind::batch);
            maker.use(dough[d.draw], blend_lot[d.blend], d.expected_mg);
            CHECK(d.expected_mg == d.largest_mg);  // distinct times and exact clocks: one blend a draw
        }
        for (const auto& [id, lot] : fill_lot) {
            const auto reached = forward(maker.graph, {lot});
            for (const DrawContents& d : draw_contents(history)) {
                const auto content =
                    std::find_if(d.contents.begin(), d.contents.end(), [&, fill = id](const Content& c) { return c.fill == fill; });
                const Reached* by_graph = peelbook::trace::testing::found(reached, dough[d.draw]);
                REQUIRE((by_graph != nullptr) == (content != d.contents.end()));
                if (!by_graph) continue;
                CHECK(static_cast<double>(*by_graph->suspect_mg) == Approx(static_cast<double>(content->expected_mg)).margin(100));
            }
        }
    }
}
