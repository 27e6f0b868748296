#pragma once
// The mixed model worked out: which blend each draw is of. Inside the layer only; the rules stand in
// trace/vessel.h.
#include <optional>
#include <vector>

#include "trace/vessel_order.h"

namespace peelbook::trace {

struct MixedDraw {                        // blends by number, which is that of the fill that made them
    std::vector<std::size_t> candidates;  // that it may be of, in order; empty: nothing was ever filled
    std::optional<std::size_t> nominal;   // by the times as written; one of the candidates
    bool contradicts = false;             // after an inspected emptying and before the next fill
    bool sure() const { return candidates.size() == 1 && !contradicts; }
};

struct MixedVessel {
    explicit MixedVessel(const VesselHistory& history);
    OrderedHistory history;
    std::vector<Blend> blends;     // by fill, as ordered
    std::vector<MixedDraw> draws;  // by draw, as ordered
};

}  // namespace peelbook::trace
