#pragma once
// A logger's file on a place. A year of rows hangs on one entry, so it is judged production day by production
// day: each day has at most one finding for its limit (ord = 2 x day) and one for the longest gap that begins
// on it (ord = 2 x day + 1), with day in days since 1970-01-01. A change on the place then folds only the
// days it touches. Bounded memory: rows stream.
#include "fold/derivation.h"

namespace peelbook::fold {

// The rows of `series`, `series_row` and `series_fault` of an entry; rows are read from the file only when
// the entry is new or amended by the entry being applied.
book::Series put_series(Derivation& d, const Effective& e, const std::string& place);

// Judges anew the production days that [from, until] touches, as far as the file has rows there.
void fold_series_days(Derivation& d, const book::Series& series, Instant from, Instant until);

// Of a voided file: what it raised stays as it is and says so.
void fold_voided_series(Derivation& d, const book::Series& series);

}  // namespace peelbook::fold
