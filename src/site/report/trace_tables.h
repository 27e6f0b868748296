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

// name and rows, in this order; trace_tables.cpp names the columns:
//   trace_lot      the lots in the answer's order: forward, every lot after all it was made from; back, the other way round
//   trace_edge     the uses between them
//   customer       who has it, with the contact data of today
//   trace_balance  the mass balance of each lot
//   trace_note     notes of the answer, then what 21 CFR 1.337 and 1.345 ask of the step and the book lacks
//   step_back      a row a received lot that is in the lots asked for
//   step_forward   a row each time that some of the lots asked for, or a rack or pack of them, left or came back
using NamedTables = std::vector<std::pair<std::string, Table>>;
NamedTables trace_report_tables(const TraceAnswer& answer, const OneStep& step, const std::vector<book::Partner>& partners);

}  // namespace peelbook::site
