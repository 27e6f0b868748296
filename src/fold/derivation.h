#pragma once
// The work of deriving one entry: what the folds of its subjects share.
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "fold/lot_facts.h"

namespace peelbook::fold {

// What a draw from a vessel may be of: a blend of a mixed vessel, a fill of a first-in one.
struct DrawPart {
    book::LotId from = 0;
    book::Int expected_mg = 0, largest_mg = 0;
    bool certain = false;
};

using FindingsBefore = std::map<std::tuple<Seq, std::string, book::Int>, std::optional<book::Finding>>;

struct Derivation {
    Ledger& ledger;
    Seq cause = 0;                                                      // the entry being applied
    Instant written;                                                    // of the cause
    const record::Entry* entry = nullptr;                               // the same
    std::vector<book::Finding> changed{};                               // findings written, as they stand after the entry
    FindingsBefore before{};                                            // how those stood before it; absent: they did not
    std::optional<book::Waiting> correction{};                          // what it corrects, if it does; a row should it wait
    std::map<Seq, std::vector<DrawPart>> drawn{};                       // worked out anew by a vessel's fold, by the entry that draws
    std::map<book::LotId, LotFacts> gathered{};                         // by a lot's fold, for its judging
    std::set<book::LotId> rewired{};                                    // lots whose inputs changed
    std::set<std::pair<book::LotId, book::LotId>> taken{};              // a lot, and what went into it that had not before
    std::map<book::LotId, judge::Facts> judged{};                       // what the judge was told of the lots folded
    std::map<book::LotId, std::vector<book::Unsettled>> open_points{};  // critical points of the lots judged that no record shows yet
    std::set<book::LotId> restocked{};                                  // lots of which there was nothing left, and is again
};

}  // namespace peelbook::fold
