#pragma once
// Deriving: one function a subject turns its effective entries, in (happened, seq) order, into its rows. Append, amendment,
// late entry and rebuild all go through `apply`, one entry after the other in the order of the book, so what is derived
// step by step equals what is derived afresh by construction.
//
// What a fold may change beyond its subject is passed on in one direction only:
//   vessel -> blends and the batches that drew from them;  instrument -> the lots and places it read;  line -> the batches that ran there;
//   equipment -> the lots that met its residue;  label readings -> the packs of their run;
//   batch -> its racks;  a lot's inputs -> stock of the lots they came from;  a lot's allergens -> everything made from it.
#include <map>
#include <set>
#include <string>
#include <vector>

#include "judge/judge.h"
#include "fold/ledger.h"

namespace peelbook::fold {

// What a draw from a vessel may be of: a blend of a mixed vessel, a fill of a first-in one.
struct DrawPart {
    book::LotId from = 0;
    book::Int expected_mg = 0, largest_mg = 0;
    bool certain = false;
};

// The work of deriving one entry.
struct Derivation {
    Ledger& ledger;
    Seq cause = 0;         // the entry being applied
    bool by_void = false;  // it is a void: it may not clear a finding
    Instant written;       // of the cause
    std::vector<book::Finding> changed{};  // findings written, as they stand after the entry
    std::map<Seq, std::vector<DrawPart>> drawn{};  // worked out anew by a vessel's fold, by the entry that draws
    std::set<book::LotId> rewired{};               // lots whose inputs changed
    std::map<book::LotId, judge::Facts> judged{};  // what the judge was told of the lots folded, the last time
};

// Writes the fact, the touches and all rows that follow from the entry. Inside a transaction; the entry is already appended.
void apply(Derivation& d, const record::Entry& entry);

// --- one subject each
void fold_lot(Derivation& d, book::LotId lot);
// The blends and draws of a vessel from the change at `from` on.
void fold_vessel(Derivation& d, const std::string& vessel, Instant from);
// One draw that changes nothing but what was drawn into; false: it does, and the vessel is to be folded.
bool fold_draw(Derivation& d, const std::string& vessel, Seq draw);
// What stood on a line from `from` on, and the batches that ran there.
void fold_line(Derivation& d, const std::string& line, Instant from);
void fold_place(Derivation& d, const std::string& place, const std::string& point, Instant around);
// Every check of a place and point whose verdict the moments in [from, until] can change: those that stand there, and the gap that ends there.
void fold_checks(Derivation& d, const std::string& place, const std::string& point, Instant from, Instant until);
// An amended check is of this place and point no more: what was raised there is cleared by the amendment.
void fold_left_place(Derivation& d, const std::string& place, const std::string& point, Seq check);
void fold_instrument(Derivation& d, const std::string& instrument);
// Residue from the last run before `from` on, and what met it. Folds every lot for which that changed, but not `except`, whose
// fold is under way.
void fold_equipment(Derivation& d, const std::string& equipment, Instant from, book::LotId except = 0);
// The packs of a line whose label readings changed at `around`.
void fold_label_runs(Derivation& d, const std::string& line, const std::string& point, Instant around);

// --- parts of a lot's fold
// Masses of flows that were stated in pieces, the lot's stock row, and onwards wherever a mass changed.
void refresh_stock(Derivation& d, book::LotId lot);
// The allergens of a lot from its own declaration and its inputs, and onwards wherever they changed.
void refresh_allergens(Derivation& d, book::LotId lot);

// Merges what the judge says now with what was raised before: a finding once raised stays, as cleared by the entry that cleared
// it; a void never clears. `mine` are all findings of the subject now; `before` the rows that stand.
void merge_findings(Derivation& d, const std::vector<book::Finding>& before, const std::vector<book::Finding>& mine,
                    const std::vector<bool>& on_voided);

// Subjects that an entry is about; `place#point` for checks on a place.
std::vector<book::Touch> touches_of(Ledger& ledger, const Effective& e);
std::string place_subject(const std::string& place, const std::string& point);

// The possible uses of what stood on the line while a batch ran there, without a mass.
std::vector<book::Use> line_uses(Ledger& ledger, const book::Lot& batch, const std::string& line);

// The line a batch ran on; of a rack or a pack, that of the first batch behind it. Empty: none.
std::string line_of(Ledger& ledger, const book::Lot& lot);

judge::InstrumentState instrument_state(Ledger& ledger, const std::string& instrument, Instant at);

}  // namespace peelbook::fold
