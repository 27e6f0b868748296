#pragma once
// A trace as text and as JSON (its workbook is the report "trace"). Rows are grouped, never cut off.
#include <string>

#include "base/zone.h"
#include "output/json.h"
#include "site/site.h"

namespace peelbook::cli {

// `carry_over_ppm` of the plan: shares of the inputs below it stand in a group of their own.
std::string trace_text(const site::TraceAnswer& answer, const Zone& zone, std::int64_t carry_over_ppm);

// Keys: direction, start, lots, customers, balance, possible, notes, caution. Each lot with code, kind,
// mass_mg (made, or null).
output::Json trace_json(const site::TraceAnswer& answer, const Zone& zone, std::int64_t carry_over_ppm);

// The same rows for both.
struct TraceTables {
    Table lots, customers, uses, balance, possible;
};
TraceTables trace_tables(const site::TraceAnswer& answer, const Zone& zone, std::int64_t carry_over_ppm);

}  // namespace peelbook::cli
