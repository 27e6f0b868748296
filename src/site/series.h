#pragma once
#include "site/ledger.h"

namespace peelbook::site {

// Rows of a logger file: time and value, separated by ';' or ',' or a tab. A first line that is no row is the header. Times are
// ISO 8601 with an offset, or "2026-11-16 05:40[:30]" in the site's zone; a decimal comma is read where ';' or tab separates.
// Refused with the line: a row that cannot be read, times that do not rise.
Result<std::vector<record::SeriesRow>> read_series(std::string_view bytes, Unit unit, const Zone& zone);

// Refused: a file in the book that cannot be read as rows.
Check check_series(Ledger& ledger, const record::SeriesTaken& series);

}  // namespace peelbook::site
