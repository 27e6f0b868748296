#pragma once
// The parts of a trace question that recalls ask too.
#include <map>
#include <string>
#include <vector>

#include "fold/ledger.h"
#include "site/site.h"

namespace peelbook::site {

// A lot of the book as a trace has it; what is on hand of it and whether it is held are asked apart. `FromBook` is a whole row or a
// book::Derived::TracedLot.
template <class FromBook> trace::Lot traced(const FromBook& l, std::string name) {
    trace::Lot lot;
    lot.id = l.id;
    lot.code = l.code;
    lot.kind = l.kind;
    lot.item = l.item;
    lot.name = std::move(name);
    lot.happened = l.happened;
    lot.made_mg = l.made_mg;
    lot.made_pieces = l.made_pieces;
    lot.printed_code = l.printed_code;
    lot.label = l.label;
    lot.supplier = l.partner;
    lot.supplier_lot = l.supplier_lot;
    lot.vessel = l.vessel;
    return lot;
}

inline trace::Use traced(const book::Use& u) { return {u.into_lot, u.from_lot, u.seq, u.mass_mg, u.pieces, u.sure != 0, u.happened}; }
inline trace::Move traced(const book::Move& m, std::string partner_name = {}) {
    return {m.lot,      m.seq,       m.way,     m.partner,    std::move(partner_name), m.document, m.mass_mg, m.pieces,
            m.happened, m.sure != 0, m.left_by, m.stated != 0};
}

// What stands left out of a recall, and since which entry: what was made of it after that rests on that decision, and is not traced.
using LeftOut = std::map<trace::LotId, Seq>;

// Where these lots went (forward), or what is behind them.
TraceAnswer answer_of(fold::Ledger& ledger, std::vector<book::Lot> start, bool forward, const TraceWindow& window = {},
                      const LeftOut& left_out = {});

}  // namespace peelbook::site
