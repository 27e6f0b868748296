#pragma once
// Deriving: one function a subject turns its effective entries, in (happened, seq) order, into its rows. Append, amendment,
// late entry and rebuild all go through `apply`, one entry after the other in the order of the book, so what is derived
// step by step equals what is derived afresh by construction.
//
// What a fold may change beyond its subject is passed on in one direction only:
//   vessel -> blends and the batches that drew from them;  instrument -> the lots it read;
//   batch -> its racks;  a lot's inputs -> stock of the lots they came from;  a lot's allergens -> everything made from it.
#include <string>
#include <vector>

#include "judge/judge.h"
#include "site/ledger.h"

namespace peelbook::site {

// The work of deriving one entry.
struct Derivation {
    Ledger& ledger;
    Seq cause = 0;         // the entry being applied
    bool by_void = false;  // it is a void: it may not clear a finding
    Instant written;       // of the cause
    std::vector<book::Finding> changed;  // findings written, as they stand after the entry
};

// Writes the fact, the touches and all rows that follow from the entry. Inside a transaction; the entry is already appended.
void apply(Derivation& d, const record::Entry& entry);

// --- one subject each
void fold_lot(Derivation& d, book::LotId lot);
void fold_vessel(Derivation& d, const std::string& vessel, Instant from);
void fold_place(Derivation& d, const std::string& place, const std::string& point, Instant around);
void fold_instrument(Derivation& d, const std::string& instrument);

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

// The lot that `code` names: a lot's code, or what the vessel of that name held at `at`. None when there is none.
std::optional<book::Lot> lot_named(Ledger& ledger, const std::string& code, Instant at);

book::Int as_stored(judge::Verdict v);
judge::InstrumentState instrument_state(Ledger& ledger, const std::string& instrument, Instant at);

}  // namespace peelbook::site
