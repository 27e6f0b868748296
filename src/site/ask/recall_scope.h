#pragma once
// What a recall covers: every row of the trace, and besides, as possible, batches with a missing use and what
// was made from them, and lots that bear a printed code of one that is covered (a customer cannot tell them
// apart).
#include <map>
#include <set>
#include <string>
#include <vector>

#include "fold/ledger.h"
#include "trace/recall.h"

namespace peelbook::site {

struct RecallScope {
    trace::Graph graph;              // the lots covered, and the uses into them
    trace::Snapshot reach;           // lots in the order of a trace; deliveries by printed code
    std::vector<trace::Move> moves;  // of the lots covered, but for what became of returned goods
    std::vector<std::string> notes;
    std::map<trace::LotId, const trace::Lot*> by_id() const;
};
RecallScope recall_scope(fold::Ledger& ledger, const std::vector<book::Lot>& start);

// The lots that an opened recall began with, as they stand now.
std::vector<book::Lot> start_of(fold::Ledger& ledger, const book::Recall& recall);

// The snapshot that its opening froze.
trace::Snapshot snapshot_of(fold::Ledger& ledger, const book::Recall& recall);

// Lots that a recall holds: in the scope, not left out, and on hand, returned, or a batch that is not
// finished.
std::vector<std::string> to_hold(fold::Ledger& ledger, const RecallScope& scope, const std::set<trace::LotId>& left_out);

// "CAFE-1: 40 pieces of printed code QR323 (QR-P261119-2)"
std::string delivery_text(const trace::Delivery& d);

}  // namespace peelbook::site
