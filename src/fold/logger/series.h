#pragma once
// Loggers' files that are entries of the book: which logger of the plan says how a file is read, and its rows.
#include <functional>

#include "fold/ledger.h"
#include "fold/logger/check.h"
#include "fold/logger/file.h"

namespace peelbook::fold {

// The rows of a batch or lot are judged together, so they stand in memory; a longer file belongs on a place.
inline constexpr std::int64_t most_rows_of_a_lot = 100'000;

// The statement with what the plan's logger knows filled in: column, unit of the values, what was probed. Refused: a logger
// that the plan in force when it is written does not have, no column for this point, or several.
Result<record::SeriesTaken> with_logger(Ledger& ledger, record::SeriesTaken series, Instant written);

// Reads an effective series statement from the attachment; `use` gets its rows with a value, in the order of the file. The check
// has the interval of its logger. Throws Damaged when the file is gone, and UnreadableSeries when it cannot be read as rows, has
// none, or one later than it was written down; of a lot, too many. Whoever records a file learns so by trying, since reading
// a million rows twice would take twice as long; a file that was recorded never throws it.
struct UnreadableSeries : Damaged {
    UnreadableSeries(const std::string& sha256, Refusal why)
        : Damaged("a logger file of the book cannot be read any more: " + sha256), refusal(std::move(why)) {}
    Refusal refusal;
};
LoggerCheck read_series(Ledger& ledger, const Effective& e, std::int64_t most_rows, const std::function<void(const LoggerRow&)>& use);

// The row of `series` for a statement, without its span and counts.
book::Series series_row_of(const Effective& e, const record::SeriesTaken& series);

// What a file holds, and what is odd about it, in lines for the person who records it.
std::vector<std::string> series_lines(Ledger& ledger, Seq seq);

}  // namespace peelbook::fold
