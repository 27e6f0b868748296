#include "trace/co_packed.h"

#include <algorithm>

namespace peelbook::trace {
namespace {

bool may_be_of(const CameBack& back, const Move& move) {
    return move.way == Way::co_packer && move.partner == back.partner && move.happened <= back.happened &&
           std::find(back.from.begin(), back.from.end(), move.lot) != back.from.end();
}

// At most `wanted` of what the move still has.
std::int64_t take(std::optional<std::int64_t>& sent, std::int64_t wanted) {
    const std::int64_t taken = std::min(wanted, sent.value_or(0));
    if (sent) *sent -= taken;
    return taken;
}

}  // namespace

void net_co_packed(const std::vector<CameBack>& back, std::vector<Move> others, std::vector<Move>& moves, std::vector<Use>& uses) {
    for (const CameBack& one : back) {
        Amounts rest = one.amount;
        for (std::vector<Move>* sent : {&others, &moves}) {
            for (Move& move : *sent) {
                if (!may_be_of(one, move)) continue;
                const Amounts taken{take(move.mass_mg, rest.mg), take(move.pieces, rest.pieces)};
                rest -= taken;
                const auto use =
                    std::find_if(uses.begin(), uses.end(), [&](const Use& u) { return u.from == move.lot && u.into == one.lot; });
                if (sent == &others || use == uses.end()) continue;
                use->mass_mg = use->mass_mg.value_or(0) + taken.mg;
                use->pieces = use->pieces.value_or(0) + taken.pieces;
            }
        }
    }
}

}  // namespace peelbook::trace
