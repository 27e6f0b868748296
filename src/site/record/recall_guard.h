#pragma once
// While a recall is open: all that it covers, or would, and is here, is held, else the entry is refused. Asked after every entry, inside
// its transaction, in one place. What it costs hangs on the lots that the entry linked, not on those that the recall covers.
#include <set>
#include <string>
#include <vector>

#include "fold/ledger.h"
#include "site/record/holds.h"

namespace peelbook::site {

// What an entry did, with those that the program wrote for it.
struct Done {
    Seq seq = 0;
    std::vector<Seq> entries;                             // all that were appended with it, itself among them
    std::set<book::LotId> rewired, restocked;             // lots whose inputs changed; of which there is something again
    std::set<std::pair<book::LotId, book::LotId>> taken;  // a lot, and what went into it that had not before, or not so
    std::vector<book::Finding> changed;
    std::set<book::LotId> folded;  // all whose rows were derived anew, also those that a correction took the entry from
};

// What the entry makes open recalls cover that they did not, and what it takes back in: a narrowing falls with its grounds, when the lot
// is surely one of them, or another of them went into it. To be appended.
std::vector<record::RecallWidened> widenings(fold::Ledger& ledger, const Done& done);

// Holds on what is covered, here and not held, among the lots of the entry and of the widenings written for it.
std::vector<HoldToWrite> recall_holds(fold::Ledger& ledger, const Done& done, const std::vector<record::RecallWidened>& widened);

// "RECALL-261120-1 now covers PAN-1": what it covers more and who has some of it.
std::vector<std::string> told(fold::Ledger& ledger, const record::RecallWidened& widened);

// Lots that entries are about, or those that they correct or countersign, and the blends of their vessels from then on.
std::vector<book::LotId> lots_about(fold::Ledger& ledger, const std::vector<Seq>& entries);

}  // namespace peelbook::site
