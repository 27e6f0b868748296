#pragma once
#include <string>
#include <utility>
#include <vector>

#include "base/table.h"
#include "fold/ledger.h"

namespace peelbook::site {

// The temporary tables of a report with needs = ["charts"], over the points that the plan in force at `until`
// marks chart = true: chart_value, chart_group and chart_note (site/report/chart_tables.cpp names their columns).
std::vector<std::pair<std::string, Table>> chart_tables(fold::Ledger& ledger, Instant from, Instant until);

}  // namespace peelbook::site
