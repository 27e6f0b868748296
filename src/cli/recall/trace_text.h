#pragma once
// A trace as text and as JSON (its workbook is the report "trace"). Rows are grouped, never cut off.
#include <iosfwd>

#include "base/zone.h"
#include "output/json.h"
#include "site/site.h"

namespace peelbook::cli {

void write_trace(std::ostream& out, const site::TraceAnswer& answer, const Zone& zone);

// Keys: direction, start, lots, customers, balance, uses, possible, notes, caution. Each lot with code, kind,
// mass_mg (made, or null), certain, share_expected and share_largest (mass fractions of the lots asked for,
// or null), mg_per_kg of made mass.
output::Json trace_json(const site::TraceAnswer& answer, const Zone& zone);

}  // namespace peelbook::cli
