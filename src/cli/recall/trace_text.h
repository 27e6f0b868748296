#pragma once
// A trace as text and as JSON (its workbook is the report "trace"). Rows are grouped, never cut off.
#include <iosfwd>

#include "base/zone.h"
#include "output/json.h"
#include "site/site.h"

namespace peelbook::cli {

// `carry_over_ppm` of the plan: shares of the inputs below it stand in a group of their own.
void write_trace(std::ostream& out, const site::TraceAnswer& answer, const Zone& zone, std::int64_t carry_over_ppm);

// Keys: direction, start, lots, customers, balance, uses, possible, notes, caution. Each lot with code, kind,
// mass_mg (made, or null), certain, share_expected and share_largest (mass fractions of the lots asked for,
// or null), mg_per_kg of made mass.
output::Json trace_json(const site::TraceAnswer& answer, const Zone& zone, std::int64_t carry_over_ppm);

}  // namespace peelbook::cli
