#pragma once
// How far a hold reaches, and the holds that the program writes itself.
#include <set>
#include <string>
#include <vector>

#include "fold/ledger.h"
#include "site/site.h"

namespace peelbook::site {

struct HoldReach {
    std::vector<std::string> on_hand;    // codes to hold: the lots and what was made from them and is here, or came back
    std::vector<std::string> customers;  // "CAFE-1: 40 pieces of PAN-261116-P1", for what left
};
HoldReach hold_reach(fold::Ledger& ledger, const std::vector<book::LotId>& lots);

// For critical deviations among `changed` that no hold names yet: the lots of the finding; of a room those that lay there then; of a
// device whose check failed, proves nothing or came too late, what passed it since the last good one (at_place.h).
struct HoldToWrite {
    record::Held says;
    std::vector<std::string> customers;
};
std::vector<HoldToWrite> holds_for(fold::Ledger& ledger, const std::vector<book::Finding>& changed);
// A hold reached only what was there. Of lots of which there was nothing left and is again: those made of one that is held. And lots
// into which a held one went without asking the gate: from the line they run on, or by a draw that a late fill made one of it.
std::vector<HoldToWrite> holds_carried(fold::Ledger& ledger, const std::set<book::LotId>& restocked,
                                       const std::set<std::pair<book::LotId, book::LotId>>& taken);

}  // namespace peelbook::site
