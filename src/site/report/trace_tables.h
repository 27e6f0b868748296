#pragma once
// The temporary tables that a report with needs = ["trace"] reads: an answer to trace forward or trace back as rows. Masses in mg,
// times in Unix ms, yes/no as 1/0; a cell is empty where the answer does not know.
#include <string>
#include <utility>
#include <vector>

#include "base/table.h"
#include "book/rows.h"
#include "site/site.h"

namespace peelbook::site {

// name and rows, in this order:
//   trace_lot      ord, code, kind, item, name, happened, state, depth, certain, direct, share, share_largest, suspect_mg, made_mg,
//                  made_pieces, on_hand_mg, on_hand_pieces, held, printed_code, label, supplier, supplier_lot, vessel
//                  state: how near it stands (trace/near.h), or "possible": not reached, but a batch with a missing use, made
//                         while the lot was in house
//                  ord counts in the answer's order: forward, every lot after all it was made from; back, the other way round
//   trace_edge     from_code, from_name, into_code, into_name, mass_mg, pieces, sure, happened, seq
//   customer       partner, name, address, phone, email, way, printed_code, lot, item, pieces, mass_mg, returned_pieces,
//                  returned_mg, first, last, certain, document
//   trace_balance  ord, code, made_mg, used_mg, out_mg, on_hand_mg, gap_mg, returned_mg, unaccounted_mg, made_pieces, used_pieces,
//                  out_pieces, on_hand_pieces, gap_pieces, returned_pieces, unaccounted_pieces, ways, closes
//                  ways: each way out with its amount, in words
//   trace_note     ord, note: of the answer, then what 21 CFR 1.337 and 1.345 ask of the step and the book lacks
//   step_back      ord, lot, item, name, supplier_lot, gtin, mass_mg, pieces, received, document, certain, supplier, supplier_contact,
//                  carrier, carrier_contact (address, below it telephone and e-mail): a row a received lot that is in the lots asked
//                  for
//   step_forward   ord, departed, way, lot, printed_code, name, pieces, mass_mg, document, certain, recipient, recipient_contact,
//                  carrier, carrier_contact: a row each time that some of the lots asked for, or a rack or pack of them, left or
//                  came back
using NamedTables = std::vector<std::pair<std::string, Table>>;
NamedTables trace_report_tables(const TraceAnswer& answer, const OneStep& step, const std::vector<book::Partner>& partners);

}  // namespace peelbook::site
