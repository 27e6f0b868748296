#pragma once
// Deriving: one function a subject turns its effective entries, in (happened, seq) order, into its rows, and answers with the
// subjects that its rows may change. Each stands in the file of its name, unless another is said.
#include "fold/derivation.h"
#include "fold/queue.h"

namespace peelbook::fold {

// Folds all that waits, lowest rank first, and what becomes dirty by it. A fold that dirties a lower rank is a fault of ours.
void drain(Derivation& d, Queue& queue);

// --- one subject each
Subjects fold_instrument(Derivation& d, const std::string& instrument);
// The rows of the entries on a place and point that happened at `at`; the answer is the window of checks to be judged again. In
// fold_checks.cpp, as the next.
Subjects put_checks(Derivation& d, const std::string& place, const std::string& point, Instant at);
// An amended check is of this place and point no more: what was raised there is cleared by the amendment.
void clear_left_place(Derivation& d, const std::string& place, const std::string& point, Seq check);
// Every check of a place and point whose verdict the moments in [from, until] can change: those that stand there, and the gap that
// ends there.
Subjects fold_checks(Derivation& d, const std::string& place, const std::string& point, Instant from, Instant until);
// The rows of an entry that states an outage; the answer is every window of checks that it reached before or reaches now.
Subjects put_outage(Derivation& d, Seq seq);
Subjects fold_outage(Derivation& d, Seq seq);
// The blends and draws of a vessel from the change at `from` on.
Subjects fold_vessel(Derivation& d, const std::string& vessel, Instant from);
// One draw that changes nothing but what was drawn into; false: it does, and the vessel is to be folded. In fold_vessel.cpp.
bool fold_draw(Derivation& d, const std::string& vessel, Seq draw);
// What stood on a line from `from` on.
Subjects fold_line(Derivation& d, const std::string& line, Instant from);
Subjects fold_lot(Derivation& d, book::LotId lot);
// Masses of flows that were stated in pieces, and the lot's stock row.
Subjects fold_stock(Derivation& d, book::LotId lot);
Subjects fold_dated(Derivation& d, book::LotId lot);    // dates.cpp
Subjects fold_brought(Derivation& d, book::LotId lot);  // fold_allergens.cpp
// Residue from the last run before `from` on, and what met it.
Subjects fold_equipment(Derivation& d, const std::string& piece, Instant from);
Subjects fold_carried(Derivation& d, book::LotId lot);  // fold_allergens.cpp
Subjects fold_findings(Derivation& d, book::LotId lot);
Subjects fold_unsettled(Derivation& d, book::LotId lot);

}  // namespace peelbook::fold
