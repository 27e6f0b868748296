// How much is there, and the arithmetic that is shown when there is not enough.
#include "site/record/admit_amounts.h"

#include <algorithm>

#include "base/text.h"
#include "fold/standing.h"
#include "site/record/admit.h"

namespace peelbook::site {
namespace {

std::string arithmetic(const book::Stock& s, bool pieces) {
    const auto text = [&](book::Int mg, book::Int n) { return pieces ? std::to_string(n) : mass_text(mg); };
    std::string out = text(s.made_mg, s.made_pieces.value_or(0)) + " made";
    if (s.gap_mg != 0 || s.gap_pieces != 0) out += ", " + text(s.gap_mg, s.gap_pieces) + " by stock counts";
    out += " - " + text(s.used_mg, s.used_pieces) + " used - " + text(s.out_mg, s.out_pieces) +
           " left the house = " + text(s.on_hand_mg, s.on_hand_pieces) + (pieces ? " pieces" : "");
    return out;
}

Refusal not_enough(const book::Lot& lot, const std::string& asked, const book::Stock& s, bool pieces) {
    return {asked + " of lot " + lot.code,
            "at most what is left: " + arithmetic(s, pieces),
            "if more is really there, count it: peelbook count " + lot.code +
                " QTY --why ...; if a delivery of this lot was not recorded, record it with: receive --at; if it was taken all "
                "the same: --already-done --why ...",
            {}};
}

}  // namespace

Result<Amount> take_from(const Request& r, const book::Lot& lot, std::int64_t pieces, const std::optional<Measure>& mass, bool rest) {
    return take_from(r, lot, r.rows().stock(lot.id).value_or(book::Stock{}), {pieces, mass}, rest);
}

Result<Amount> take_from(const Request& r, const book::Lot& lot, const book::Stock& stock, const Amount& asked, bool rest) {
    const auto& [pieces, mass] = asked;
    if (auto checked = wanted_dimension("mass", mass, Dimension::mass); !checked) return checked.refusal();
    if (pieces < 0) {
        return Refusal{std::to_string(pieces) + " pieces", "a number of pieces above nothing", "type what was really taken", {}};
    }
    if (lot.kind == LotKind::supply) return Amount{0, mass};
    if (r.amending != 0 && (pieces > 0 || mass)) return Amount{pieces, mass};  // stock is looked at when it is applied
    const bool in_pieces = stock.made_pieces.has_value();
    Amount amount{pieces, mass};
    if (rest || (pieces == 0 && !mass)) {
        if (in_pieces) {
            amount.pieces = stock.on_hand_pieces;
        } else {
            amount.mass = measure_of(stock.on_hand_mg, Unit::mg);
        }
        if (!fold::is_on_hand(stock)) return not_enough(lot, "the rest", stock, in_pieces);
        return amount;
    }
    if (pieces > 0 && !in_pieces) {
        return Refusal{std::to_string(pieces) + " pieces of lot " + lot.code,
                       "a mass: this lot is not counted in pieces",
                       "type the amount with its unit, as 12.5kg",
                       {}};
    }
    if (pieces == 0 && in_pieces && lot.kind != LotKind::received) {
        return Refusal{to_text(*mass) + " of lot " + lot.code, "pieces: this lot is counted in pieces", "add --pieces N", {}};
    }
    if (r.draft.already_done) return amount;  // it happened: the negative stock shows as a finding until it is counted
    if (pieces > stock.on_hand_pieces) return not_enough(lot, std::to_string(pieces) + " pieces", stock, true);
    if (mass && !in_pieces && mass->value > stock.on_hand_mg) return not_enough(lot, to_text(*mass), stock, false);
    return amount;
}

}  // namespace peelbook::site
