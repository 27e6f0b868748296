#pragma once
// What an entry leaves to be derived, in one queue. A fold works out the rows of one subject from what lies below it in rank and
// answers with the subjects that must be worked out after it: of its own rank or a higher one, never of a lower one. So
// nothing is judged before all that it is judged by is known, and the queue runs dry.
#include <compare>
#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

#include "fold/ledger.h"

namespace peelbook::fold {

// In the order in which they are drained.
enum class Rank {
    instrument,  // its spans of service and calibration
    checks,      // findings of a place and point
    outage,      // the finding of an outage: what it left unchecked
    vessel,      // blends, and what draws are of
    line,        // what stood on it
    lot,         // a lot's own rows: what it is, what went in, what left, what was read, where it ran
    stock,       // what is left of it, and the masses of flows stated in pieces
    dated,       // until when it may be used, of itself and by what is in it
    brought,     // allergens that it brings: declared, or of what it was made from
    equipment,   // residue on a piece, and which lots met it
    carried,     // allergens of a lot with those that it or its inputs met on equipment
    findings,    // what the judge says of a lot, and what it owes next
    unsettled,   // which critical points keep it from going on
};

struct Subject {
    Rank rank = Rank::lot;
    book::LotId lot = 0;      // of the ranks that are about lots; of an outage its entry
    std::string id, point;    // of the others: instrument, vessel, line, piece, or a place with its point
    Instant from{}, until{};  // the part of its past that changed

    static Subject of_lot(Rank rank, book::LotId lot) { return {rank, lot, {}, {}, {}, {}}; }
    static Subject since(Rank rank, std::string id, Instant from) { return {rank, 0, std::move(id), {}, from, from}; }
};

using Subjects = std::vector<Subject>;

// Each subject once, with the whole of what changed of it; within a rank lots by id, so that as a rule makers come before what was
// made from them. What comes out of that order is worked out again.
class Queue {
  public:
    void add(const Subject& subject);
    void add(const Subjects& subjects);
    std::optional<Subject> take();  // of the lowest rank; empty when there is none

  private:
    using Key = std::tuple<Rank, book::LotId, std::string, std::string>;
    std::map<Key, std::pair<Instant, Instant>> waiting_;
};

}  // namespace peelbook::fold
