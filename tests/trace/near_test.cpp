// Nearness against its definition in trace/near.h.
#include "trace/near.h"

#include <catch2/catch.hpp>

using namespace peelbook::trace;

namespace {

constexpr std::int64_t half_a_percent = 5'000;  // of a million

Reached lot_at(int depth, std::optional<double> share) {
    Reached one;
    one.depth = depth;
    one.share_expected = share;
    return one;
}

}  // namespace

TEST_CASE("A lot asked for and one use away from it are near whatever their share") {
    CHECK(near(lot_at(0, 1.0), half_a_percent) == Near::asked_for);
    CHECK(near(lot_at(0, std::nullopt), half_a_percent) == Near::asked_for);
    CHECK(near(lot_at(1, 0.000'001), half_a_percent) == Near::direct);
}

TEST_CASE("Through other lots a share below the plan's is carry-over, the share itself is not") {
    CHECK(near(lot_at(2, 0.005), half_a_percent) == Near::further);
    CHECK(near(lot_at(2, 0.004'999), half_a_percent) == Near::carry_over);
    CHECK(near(lot_at(9, 0.0), half_a_percent) == Near::carry_over);
    CHECK(near(lot_at(9, 0.0), 0) == Near::further);
}

TEST_CASE("A share that nobody knows is further") { CHECK(near(lot_at(2, std::nullopt), half_a_percent) == Near::further); }

TEST_CASE("Each nearness has a word of its own") {
    CHECK(to_text(Near::asked_for) == "asked for");
    CHECK(to_text(Near::direct) == "direct");
    CHECK(to_text(Near::further) == "further");
    CHECK(to_text(Near::carry_over) == "carry-over");
}
