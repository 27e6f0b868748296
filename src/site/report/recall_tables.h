#pragma once
// The temporary tables that a report with needs = ["recall"] reads. Masses in mg, times in Unix ms, yes/no as 1/0.
#include <string>
#include <utility>
#include <vector>

#include "base/table.h"
#include "base/zone.h"
#include "site/ask/recall.h"

namespace peelbook::site {

// name and rows, in this order; recall_tables.cpp names the columns:
//   recall_fact      what the recall is, in words
//   recall_timing    its steps and their deadlines
//   recall_scope     a row a lot; by: the entries behind its state
//   recall_customer  a row a customer or unnamed way, and printed code: what went, who was told, what is open, what is to be asked
//   recall_way       a row a way out
//   recall_account   a row a lot and quantity ("pieces" or "mg"); lot is "all", "goods", "materials" of the totals, which come first
//   recall_log       what was done, by time
//   recall_letter    a row a partner: what is asked back
//   recall_change    since the snapshot
//   recall_note      what the reader must know
std::vector<std::pair<std::string, Table>> recall_report_tables(const RecallView& view, const Zone& zone);

// "RECALL" or "DRILL", class, decision, who opened it when, ... in the order in which a person reads them.
std::vector<std::pair<std::string, std::string>> recall_facts(const RecallView& view, const Zone& zone);

std::string entries_text(const std::vector<Seq>& by);  // "17, 23"

// "96.250%" of 96,250 thousandths.
std::string percent_of_thousandths(std::int64_t thousandths);

}  // namespace peelbook::site
