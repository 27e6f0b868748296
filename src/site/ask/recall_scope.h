#pragma once
// What a recall covers: every row of the trace, and besides, as possible, batches with a missing use and what
// was made from them, and lots that bear a printed code of one that is covered (a customer cannot tell them
// apart).
#include <map>
#include <set>
#include <string>
#include <vector>

#include "fold/ledger.h"
#include "site/ask/trace_answer.h"
#include "trace/recall.h"

namespace peelbook::site {

struct RecallScope {
    trace::Graph graph;              // the lots covered, and the uses into them
    trace::Snapshot reach;           // lots in the order of a trace; deliveries by printed code
    std::vector<trace::Move> moves;  // of the lots covered, but for what became of returned goods
    std::vector<std::string> notes;
    std::map<trace::LotId, const trace::Lot*> by_id() const;
};
// What a recall begins with: lots, of which in a window only what was taken out of them then.
struct RecallBegins {
    std::vector<book::Lot> lots;
    TraceWindow window;
};

RecallScope recall_scope(fold::Ledger& ledger, const RecallBegins& begins, const LeftOut& left_out = {});
// Of one that was opened, as it stands now.
RecallScope recall_scope(fold::Ledger& ledger, const book::Recall& recall);
RecallBegins begins_of(fold::Ledger& ledger, const book::Recall& recall);
LeftOut left_out_of(fold::Ledger& ledger, const book::Recall& recall);

// The same supplier, material and lot: a lot of theirs may come with many trucks, and is written down in many ways.
bool same_suppliers_lot(const book::Lot& a, const book::Lot& b);
// Whether a lot that came to be later is one that an opened recall begins with; `asked`: those that it began with.
bool begins_with(const book::Recall& recall, const std::vector<book::Lot>& asked, const book::Lot& lot, bool is_supply);
// In the time that it states; open ends hold everything.
bool in_its_time(const book::Recall& recall, book::Int at);

// The snapshot that its opening froze.
trace::Snapshot snapshot_of(fold::Ledger& ledger, const book::Recall& recall);

// Lots that a recall holds: in the scope, not left out, and on hand, returned, or a batch that is not
// finished.
std::vector<std::string> to_hold(fold::Ledger& ledger, const RecallScope& scope, const std::set<trace::LotId>& left_out);

// "CAFE-1: 40 pieces of printed code QR323 (QR-P261119-2)"
std::string delivery_text(const trace::Delivery& d);

}  // namespace peelbook::site
