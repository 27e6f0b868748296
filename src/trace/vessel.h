#pragma once
// What a draw from a silo, tank or tub may hold: which fills, how much of each, and how sure. Pure values; masses in mg,
// instants in ms, both models rest on the recorded fills and draws alone.
//
// mixed (the default): everything that stands in the vessel is one blend. Each fill makes a new blend out of what was left and
//   the fill; draws take from it in proportion. What was left is the blend less its draws, never less than the heel: scales
//   drift, so a computed zero ends nothing.
// first-in (wants a cited validation in the plan): what went in first leaves first. Fill i takes the stretch [F(i), F(i+1))
//   of the running mass drawn, F(i) = max(end of fill i - 1, drawn so far + heel), 0 for the first. A boundary between two
//   fills is smeared by `smear_mg` to either side. What is drawn beyond the last fill belongs to it, as possible.
//
// Both:
// - Only an inspected emptying ends the old-to-new chain; cleaning, an emptying without inspection and a computed zero change
//   nothing. One that may have happened during a fill (its span widened by the clock uncertainty) ends nothing either. An
//   emptying that ends nothing leaves a doubt: what stood there before is possible from the next fill on, and in a first-in
//   vessel that fill may come at once.
// - A draw within the span of a fill, widened by the clock uncertainty, may be of before or of after the fill: both sides are
//   possible. A draw before that span never holds the fill, whatever the smear. The same goes for an inspected emptying.
// - Draws closer together than the clock uncertainty may have happened in either order.
// - A fill is certain in a draw when it is in it however the open questions are answered; else it is possible. Expected
//   masses follow the times as written and sum to the draw. A largest mass is what could be in that draw at most.
// - A draw after an inspected emptying and before the next fill contradicts the book: it gets what stood there before, as
//   possible. A draw from a vessel that was never filled has no contents.
#include <cstdint>
#include <optional>
#include <vector>

#include "trace/trace.h"

namespace peelbook::trace {

enum class VesselModel { mixed, first_in };

struct VesselFill {
    std::int64_t id = 0;  // the caller's, unique among fills
    LotId lot = 0;
    std::int64_t mass_mg = 0;          // above 0
    std::int64_t from = 0, until = 0;  // until >= from; equal when no span was recorded
};

struct VesselDraw {
    std::int64_t id = 0;       // the caller's, unique among draws
    std::int64_t mass_mg = 0;  // above 0
    std::int64_t at = 0;
};

struct VesselEmptied {
    std::int64_t at = 0;
    bool inspected = false;
};

struct VesselHistory {
    VesselModel model = VesselModel::mixed;
    std::int64_t heel_mg = 0;
    std::int64_t smear_mg = 0;  // first-in only
    std::int64_t clock_uncertainty_ms = 0;
    // Mixed only, when this is the end of a longer history: what stood under the first fill, as expected and at most.
    std::int64_t under_mg = 0, under_largest_mg = 0;
    std::vector<VesselFill> fills;  // in any order; so are the others
    std::vector<VesselDraw> draws;
    std::vector<VesselEmptied> emptied;
};

struct Content {
    std::int64_t fill = 0;
    LotId lot = 0;
    std::int64_t expected_mg = 0;
    std::int64_t largest_mg = 0;  // never below expected
    bool certain = false;
};

struct DrawContents {
    std::int64_t draw = 0;
    std::vector<Content> contents;  // by start of the fill, then id
};

// Draws in order of time, then id. Mixed: grows with draws x fills since the last inspected emptying; blend_chain does not.
// Throws std::logic_error when a mass is not above 0, a limit is negative or a fill ends before it starts.
std::vector<DrawContents> draw_contents(const VesselHistory& history);

// --- the mixed model as lots: linear in fills and draws -----------------------------------------------------------------

struct Blend {
    std::int64_t fill = 0;  // that made it; also its name here
    LotId lot = 0;
    std::int64_t filled_mg = 0;
    std::optional<std::int64_t> stands_on = std::nullopt;  // the blend whose rest is in it; none after an inspected emptying
    std::int64_t left_mg = 0;                              // of that blend, by the times as written
    std::int64_t left_largest_mg = 0;                      // the most it can be when draws near a fill came after it
    // False: an emptying that does not count may have taken the rest, or even the fill, away.
    bool rest_sure = true, fill_sure = true;
    std::int64_t made_mg() const { return filled_mg + left_mg; }
};

struct BlendDraw {
    std::int64_t draw = 0;
    std::int64_t blend = 0;        // Blend::fill
    std::int64_t expected_mg = 0;  // the whole draw for the blend of its time as written, 0 for the other ones it may be of
    std::int64_t largest_mg = 0;   // the whole draw
    bool certain = false;          // false when there are others
};

struct BlendChain {
    std::vector<Blend> blends;     // by start of the fill
    std::vector<BlendDraw> draws;  // by time of the draw, then blend
};
// For a mixed vessel; the model written in `history` is not looked at. Throws as draw_contents does.
BlendChain blend_chain(const VesselHistory& history);

}  // namespace peelbook::trace
