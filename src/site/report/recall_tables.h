#pragma once
// The temporary tables that a report with needs = ["recall"] reads. Masses in mg, times in Unix ms, yes/no as
// 1/0.
#include <string>
#include <utility>
#include <vector>

#include "base/table.h"
#include "base/zone.h"
#include "site/ask/recall.h"

namespace peelbook::site {

// name and rows, in this order:
//   recall_fact      ord, name, value            what the recall is, in words
//   recall_timing    ord, step, done, due, basis, state
//   recall_scope     ord, code, state, asked, certain, kind, name, happened, made_mg, made_pieces,
//   on_hand_mg, on_hand_pieces, held,
//                    printed_code, supplier, supplier_lot, by        by: the entries behind the state
//   recall_customer  ord, partner, name, address, phone, email, way, printed_code, lots, item, pieces,
//   mass_mg, returned_pieces,
//                    returned_mg, first, last, certain, document, reached, to_check
//   recall_account   ord, lot, name, quantity ("pieces" or "mg"), made, on_hand, shipped, moved_on, used,
//   waste, samples, open,
//                    returned, destroyed, consumed, found, shipped_open, closes
//                    lot is "all", "goods", "materials" of the totals, which come first
//   recall_log       ord, happened, kind, whom, name, how, reached, checks, text, by, entry
//   recall_letter    ord, partner, name, address, phone, email, goods, pieces, mass_mg, missing_pieces,
//   missing_mg, reached, tried recall_change    ord, what, text, by recall_note      ord, note
std::vector<std::pair<std::string, Table>> recall_report_tables(const RecallView& view, const Zone& zone);

// "RECALL" or "DRILL", class, decision, who opened it when, ... in the order in which a person reads them.
std::vector<std::pair<std::string, std::string>> recall_facts(const RecallView& view, const Zone& zone);

// "96.250%" of 96,250 thousandths.
std::string percent_of_thousandths(std::int64_t thousandths);

}  // namespace peelbook::site
