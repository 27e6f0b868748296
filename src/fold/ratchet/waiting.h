#pragma once
// Entries that wait for a countersign: which they are, and how their target stood before them.
#include <optional>

#include "fold/derivation.h"

namespace peelbook::fold {

// The entry waits from now on, if it does not yet.
void wait(Derivation& d, Seq entry);
// What somebody read, saw or counted; all else is an event.
bool is_measurement(const record::Statement& says);
// Whether a correction of such a statement waits whatever it says: measurements, the times of a batch, what went into a lot,
// the clock of a lot, and what a lot declares or that it lasts longer.
// `now` absent: it is voided, and a void of an event counts at once; what it would better waits by its findings. `moved`: to another time.
bool correction_waits(const record::Statement& was, const record::Statement* now, bool moved);
// The correction of the entry that waits, and the entry as it stood before it. Absent: none waits.
struct Before {
    Seq waits = 0;
    Effective entry;
};
std::optional<Before> before_waiting(Ledger& ledger, const Effective& now);
// What a receipt declares. Until somebody else has said which of two declarations is right, the lot contains what either says.
record::Declaration declared_of(Ledger& ledger, const Effective& receipt);
// The date that a receipt states: of two, the earlier, until somebody else has said which is right.
std::optional<Date> date_of(Ledger& ledger, const Effective& receipt);
// By itself: a reading outside the limit of its point, also where no finding says so yet; a check or a calibration that failed; an
// instrument that went out of service.
bool is_bad(Ledger& ledger, const Effective& e);
// How an entry about a place or an instrument counts while its correction waits: as it stood where that did not hold; struck, where it
// held and is voided; as it says now where that is bad, and a check of the same thing whatever it says, but at the time at which it
// stood. All else as it stood.
Effective as_it_counts(Ledger& ledger, const Effective& now);
// A countersign: what its entries waited for is decided. What is refused is taken back. Answers with the targets to be folded again.
std::vector<Seq> decide(Derivation& d, const record::Countersigned& says);

}  // namespace peelbook::fold
