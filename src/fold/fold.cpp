#include "fold/fold.h"

#include <cassert>

namespace peelbook::fold {
namespace {

Subjects fold(Derivation& d, const Subject& s) {
    switch (s.rank) {
        case Rank::instrument:
            return fold_instrument(d, s.id);
        case Rank::checks:
            return fold_checks(d, s.id, s.point, s.from, s.until);
        case Rank::outage:
            return fold_outage(d, s.lot);
        case Rank::vessel:
            return fold_vessel(d, s.id, s.from);
        case Rank::line:
            return fold_line(d, s.id, s.from);
        case Rank::lot:
            return fold_lot(d, s.lot);
        case Rank::stock:
            return fold_stock(d, s.lot);
        case Rank::dated:
            return fold_dated(d, s.lot);
        case Rank::brought:
            return fold_brought(d, s.lot);
        case Rank::equipment:
            return fold_equipment(d, s.id, s.from);
        case Rank::carried:
            return fold_carried(d, s.lot);
        case Rank::findings:
            return fold_findings(d, s.lot);
        case Rank::unsettled:
            return fold_unsettled(d, s.lot);
    }
    return {};
}

}  // namespace

void drain(Derivation& d, Queue& queue) {
    while (const auto subject = queue.take()) {
        for (const auto& dirtied : fold(d, *subject)) {
            assert(dirtied.rank >= subject->rank);
            queue.add(dirtied);
        }
    }
}

}  // namespace peelbook::fold
