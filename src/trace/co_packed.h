#pragma once
// Goods at a co-packer stay ours, and what comes back is a new lot made of what was sent. In a reconciliation it is the same goods
// again: it counts where it stands now, and only the rest is still with the co-packer.
#include "trace/outside.h"

namespace peelbook::trace {

struct CameBack {
    LotId lot = 0;
    std::string partner;
    Amounts amount;
    std::int64_t happened = 0;
    std::vector<LotId> from;  // what it was made of, or may be
};

// Takes what came back out of the moves to the co-packer and puts it into the uses: mass and pieces apart, of each at most what was
// sent up to then, in the order of the moves. Where it may be of several lots, it is taken for that of `others` first, lots that are
// not reconciled: of the rest nobody can show that it is not still there. `back` and the moves in the order of time.
void net_co_packed(const std::vector<CameBack>& back, std::vector<Move> others, std::vector<Move>& moves, std::vector<Use>& uses);

}  // namespace peelbook::trace
