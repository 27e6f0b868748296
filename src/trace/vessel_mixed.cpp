// Mixed vessels: a chain of blends, and draws that point at the blend of their moment, or at each it may have
// been.
#include "trace/vessel_mixed.h"

#include <algorithm>

#include "base/measure.h"
#include "base/units.h"
#include "trace/vessel_order.h"

namespace peelbook::trace {
namespace {

// The last fill that had begun by the clock as written, or none.
std::optional<std::size_t> standing_at(const OrderedHistory& history, std::int64_t at) {
    std::size_t begun = history.begun_by(at);
    while (begun > 0 && history.fills[begun - 1].from > at) --begun;
    if (begun == 0) return std::nullopt;
    return begun - 1;
}

// May blend `k` still have been in the vessel at `at`? Its fill has begun, for all we know.
bool may_stand(const OrderedHistory& history, std::size_t k, std::int64_t at) {
    if (history.emptied_after(k)) return at <= history.emptied_at(k) + history.clock;
    return k + 1 == history.fills.size() || at <= history.fills[k + 1].until + history.clock;
}

// Every blend that a draw at `at` may be of, in order. With an overlong fill that is each back to the one
// before it.
std::vector<std::size_t> candidates(const OrderedHistory& history, std::int64_t at) {
    const std::size_t begun = history.begun_by(at);
    const auto open = history.spans_around(at);
    std::size_t first = begun == 0 ? 0 : begun - 1;
    if (!open.empty()) first = open.back() == 0 ? 0 : open.back() - 1;
    if (first > 0 && history.emptied_after(first - 1) && at <= history.emptied_at(first - 1) + history.clock) --first;
    std::vector<std::size_t> found;
    for (std::size_t k = first; k < begun; ++k) {
        if (may_stand(history, k, at)) found.push_back(k);
    }
    return found;
}

// The blend that the times as written name. It was emptied: the next one if the clocks allow it.
std::optional<std::size_t> nominal(const OrderedHistory& history, const std::vector<std::size_t>& open, std::int64_t at) {
    const auto standing = standing_at(history, at);
    if (!standing) return open.empty() ? std::nullopt : std::optional(open.front());
    if (at < history.emptied_at(*standing)) return standing;
    const auto later = std::find_if(open.begin(), open.end(), [&](std::size_t k) { return k > *standing; });
    return later == open.end() ? standing : std::optional(*later);
}

MixedDraw placed(const OrderedHistory& history, std::int64_t at) {
    MixedDraw draw;
    draw.candidates = candidates(history, at);
    draw.nominal = nominal(history, draw.candidates, at);
    draw.contradicts = draw.nominal && draw.candidates.empty();
    if (draw.contradicts) draw.candidates.push_back(*draw.nominal);
    return draw;
}

}  // namespace

MixedVessel::MixedVessel(const VesselHistory& given) : history(given) {
    // By blend: what was drawn by the times as written, and what was surely drawn by the end of it.
    std::vector<std::int64_t> drawn(history.fills.size(), 0), surely(drawn);
    for (const VesselDraw& draw : history.draws) {
        draws.push_back(placed(history, draw.at));
        if (!draws.back().nominal) continue;
        drawn[*draws.back().nominal] += draw.mass_mg;
        surely[draws.back().candidates.back()] += draw.mass_mg;
    }
    std::int64_t most = 0;  // that can stand in the vessel
    for (std::size_t k = 0; k < history.fills.size(); ++k) {
        const VesselFill& fill = history.fills[k];
        Blend blend{fill.id, fill.lot, fill.mass_mg};
        blend.fill_sure = history.doubt_between(k, k) == OrderedHistory::never;
        if (k == 0) {
            blend.left_mg = given.under_mg;
            blend.left_largest_mg = given.under_largest_mg;
        }
        if (k > 0 && !history.emptied_after(k - 1)) {
            blend.stands_on = history.fills[k - 1].id;
            blend.left_mg = std::max(blends.back().made_mg() - drawn[k - 1], given.heel_mg);
            blend.left_largest_mg = std::max({most - surely[k - 1], given.heel_mg, blend.left_mg});
            blend.rest_sure = history.doubt_between(k - 1, k) == OrderedHistory::never;
        }
        most = fill.mass_mg + blend.left_largest_mg;
        blends.push_back(blend);
    }
}

BlendChain blend_chain(const VesselHistory& history) {
    const MixedVessel vessel(history);
    BlendChain chain;
    chain.blends = vessel.blends;
    for (std::size_t i = 0; i < vessel.draws.size(); ++i) {
        const VesselDraw& draw = vessel.history.draws[i];
        for (const std::size_t k : vessel.draws[i].candidates) {
            const bool as_written = vessel.draws[i].nominal == k;
            chain.draws.push_back({draw.id, vessel.blends[k].fill, as_written ? draw.mass_mg : 0, draw.mass_mg, vessel.draws[i].sure()});
        }
    }
    return chain;
}

namespace {

// How much of each fill stands in a blend: expected masses that sum to the blend, and the most that can be
// left of a fill.
struct Composition {
    std::size_t first = 0;  // fill that the chain began with
    std::vector<std::int64_t> expected, most;
    std::vector<bool> sure;  // nothing may have taken the fill out between
};

// `total` shared out in proportion to `parts`, by cumulative division, so that the shares sum to it.
std::vector<std::int64_t> in_proportion(const std::vector<std::int64_t>& parts, std::int64_t total) {
    Wide whole = 0;
    for (const std::int64_t part : parts) whole += part;
    std::vector<std::int64_t> shares;
    Wide so_far = 0;
    std::int64_t given = 0;
    for (const std::int64_t part : parts) {
        so_far += part;
        const auto up_to = static_cast<std::int64_t>(so_far * total / whole);
        shares.push_back(up_to - given);
        given = up_to;
    }
    return shares;
}

std::vector<Composition> compositions(const MixedVessel& vessel) {
    std::vector<Composition> all;
    for (std::size_t k = 0; k < vessel.blends.size(); ++k) {
        const Blend& blend = vessel.blends[k];
        Composition now;
        now.first = k;
        if (blend.stands_on) {
            now = all.back();
            now.expected = in_proportion(now.expected, blend.left_mg);
            for (std::int64_t& most : now.most) most = std::min(most, blend.left_largest_mg);
            for (std::size_t j = 0; j < now.sure.size(); ++j) {
                const bool doubt = vessel.history.doubt_between(now.first + j, k) != OrderedHistory::never;
                now.sure[j] = now.sure[j] && !doubt;
            }
        }
        now.expected.push_back(blend.filled_mg);
        now.most.push_back(blend.filled_mg);
        now.sure.push_back(blend.fill_sure);
        all.push_back(std::move(now));
    }
    return all;
}

// What one draw may hold, by fill.
class Holding {
  public:
    Holding(const MixedVessel& vessel, const MixedDraw& where, std::int64_t drawn)
        : vessel_(vessel),
          where_(where),
          drawn_(drawn),
          by_fill_(vessel.blends.size()),
          in_(vessel.blends.size(), 0),
          surely_in_(vessel.blends.size(), 0) {}

    // The draw is of blend `k`, or may be.
    void add(std::size_t k, const Composition& blend) {
        const std::vector<std::int64_t> parts = in_proportion(blend.expected, drawn_);
        for (std::size_t j = 0; j < parts.size(); ++j) {
            const std::size_t fill = blend.first + j;
            Content& content = by_fill_[fill];
            if (where_.nominal == k) content.expected_mg = parts[j];
            content.largest_mg = std::max({content.largest_mg, parts[j], std::min(drawn_, blend.most[j])});
            ++in_[fill];
            if (blend.expected[j] > 0 && blend.sure[j]) ++surely_in_[fill];
        }
    }

    // A fill that was perhaps still to come is certain only when nothing else stood there.
    std::vector<Content> contents(const std::vector<std::size_t>& open) {
        const auto listed = std::count_if(in_.begin(), in_.end(), [](std::size_t times) { return times > 0; });
        if (listed > 1) {
            for (const std::size_t fill : open) surely_in_[fill] = 0;
        }
        std::vector<Content> result;
        for (std::size_t fill = 0; fill < by_fill_.size(); ++fill) {
            if (in_[fill] == 0) continue;
            Content& content = by_fill_[fill];
            content.fill = vessel_.history.fills[fill].id;
            content.lot = vessel_.history.fills[fill].lot;
            content.certain = surely_in_[fill] == where_.candidates.size() && !where_.contradicts;
            result.push_back(content);
        }
        return result;
    }

  private:
    const MixedVessel& vessel_;
    const MixedDraw& where_;
    std::int64_t drawn_;
    std::vector<Content> by_fill_;
    std::vector<std::size_t> in_, surely_in_;  // in how many of the candidates, and with some mass
};

}  // namespace

std::vector<DrawContents> mixed_contents(const VesselHistory& history) {
    const MixedVessel vessel(history);
    const std::vector<Composition> blends = compositions(vessel);
    std::vector<DrawContents> result;
    for (std::size_t i = 0; i < vessel.draws.size(); ++i) {
        const VesselDraw& draw = vessel.history.draws[i];
        Holding holding(vessel, vessel.draws[i], draw.mass_mg);
        for (const std::size_t k : vessel.draws[i].candidates) holding.add(k, blends[k]);
        result.push_back({draw.id, holding.contents(vessel.history.spans_around(draw.at))});
    }
    return result;
}

}  // namespace peelbook::trace
