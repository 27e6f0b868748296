#pragma once
// Loggers' files that are entries of the book: which logger of the plan says how a file is read, and its rows.
#include <functional>

#include "site/ledger.h"
#include "site/logger_check.h"
#include "site/logger_file.h"

namespace peelbook::site {

// The rows of a batch or lot are judged together, so they stand in memory; a longer file belongs on a place.
inline constexpr std::int64_t most_rows_of_a_lot = 100'000;

// The statement with what the plan's logger knows filled in: column, unit of the values, what was probed. Refused: a logger
// that the plan in force when it is written does not have, no column for this point, or several.
Result<record::SeriesTaken> with_logger(Ledger& ledger, record::SeriesTaken series, Instant written);

// Refused: a file in the book that cannot be read as rows, has none, or has one after `now`; of a lot, one with too many.
Check check_series(Ledger& ledger, const record::SeriesTaken& series, Instant written, Instant now, bool of_lot);

// Reads an effective series statement from the attachment; `use` gets its rows in the order of the file. The check has the
// interval of its logger. Throws Damaged when the file is gone or cannot be read any more.
LoggerCheck read_series(Ledger& ledger, const Effective& e, const std::function<void(const LoggerRow&)>& use);

// The row of `series` for a statement, without its span and counts.
book::Series series_row_of(const Effective& e, const record::SeriesTaken& series);

// What a file holds, and what is odd about it, in lines for the person who records it.
std::vector<std::string> series_lines(Ledger& ledger, Seq seq);

}  // namespace peelbook::site
