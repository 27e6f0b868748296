#pragma once
// How things stand, each rule said once: what left the house, what is here, what is open, what is settled.
#include "book/derived.h"

namespace peelbook::fold {

// --- a move

// Out to somebody who may eat or sell it: neither waste nor sample, no return, and not of what had come back.
inline bool left_the_house(const book::Move& move) { return !feeds_nobody(move.way) && move.way != Way::returned && move.of_returned == 0; }
// Between us and somebody: what left the house, and what of it came back.
inline bool has_recipient(const book::Move& move) { return left_the_house(move) || move.way == Way::returned; }

// --- a lot

inline bool is_open(const book::Lot& lot) { return lot.kind == LotKind::batch && !lot.finished; }
// There to be used or sold. What came back stands apart, and is not.
inline bool is_on_hand(const book::Stock& stock) { return stock.on_hand_mg > 0 || stock.on_hand_pieces > 0; }
// Some of it can be laid a hand on: on hand, come back, a batch still open, or a lot whose stock is not reckoned yet. Never a supply.
bool is_here(book::Derived& rows, const book::Lot& lot);

// --- a finding

inline bool is_open(const book::Finding& finding) { return finding.verdict != Verdict::within && !finding.cleared_by; }
// SHA-256 in hexadecimal of what a signer of the finding sees: the verdict, what was measured, where and when.
std::string digest_of(const book::Finding& finding);
// What a person has signed that becomes of the product, of the finding as it stands: a signature covers what its signer saw (rule 51),
// and what is milder. The latest counts. Absent: nobody has, or what was signed was milder, or other. The finding keeps it as `decided`.
std::optional<record::Disposition> disposition_of(book::Derived& rows, const book::Finding& finding);
inline bool is_settled(const book::Finding& f) { return f.decided.has_value(); }

}  // namespace peelbook::fold
