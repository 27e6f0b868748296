#include "site/record/recall_count.h"

#include <algorithm>

#include "base/text.h"
#include "base/units.h"
#include "fold/standing.h"
#include "site/ask/recall_scope.h"

namespace peelbook::site {
namespace {

struct Shipped {  // of one lot to one partner
    book::Lot lot;
    std::int64_t pieces = 0, mg = 0;            // went there
    std::int64_t said_pieces = 0, said_mg = 0;  // back, returned, destroyed, used

    // Of the next `count` pieces; exact in sum when all are spoken of.
    std::int64_t mass_of(std::int64_t count) const {
        if (pieces <= 0) return 0;
        const std::int64_t all = std::min(pieces, said_pieces + count);
        return std::max<std::int64_t>(0, static_cast<std::int64_t>(Wide(mg) * all / pieces) - said_mg);
    }
};

Result<std::vector<book::Lot>> covered_lots(const Request& r, const book::Recall& recall, const std::string& code) {
    std::vector<book::Lot> lots;
    if (auto lot = r.rows().lot(code)) {
        lots = {*lot};
    } else {
        lots = r.rows().lots_with_printed_code(code);
    }
    const auto scope = recall_scope(r.ledger, recall);
    std::vector<std::string> known;
    std::set<book::LotId> covered;
    for (const auto& row : r.rows().recall_lots(recall.seq)) covered.insert(row.lot);
    for (const auto& one : scope.reach.lots) covered.insert(one.lot);
    for (const auto& d : scope.reach.deliveries) known.push_back(d.printed_code.empty() ? d.lot_code : d.printed_code);
    std::erase_if(lots, [&](const auto& lot) { return !covered.contains(lot.id); });
    if (!lots.empty()) return lots;
    return Refusal{"code '" + shown(code) + "'", "a printed code or lot that " + recall.code + " covers", "read it from the pack again",
                   nearest(code, known)};
}

Shipped shipped_of(const Request& r, const book::Recall& recall, const book::Lot& lot, const std::string& partner) {
    Shipped out{lot, 0, 0, 0, 0};
    for (const auto& move : r.rows().moves(lot.id)) {
        if (move.partner != partner || !fold::has_recipient(move)) continue;
        const bool back = move.way == Way::returned;
        (back ? out.said_pieces : out.pieces) += move.pieces.value_or(0);
        (back ? out.said_mg : out.mg) += move.mass_mg.value_or(0);
    }
    for (const auto& c : r.rows().recall_counts(recall.seq)) {
        const bool in_moves = c.what == Fate::returned && recall.drill == 0;
        if (c.lot != lot.id || c.partner != partner || c.what == Fate::found || in_moves) continue;
        out.said_pieces += c.pieces.value_or(0);
        out.said_mg += c.mass_mg.value_or(0);
    }
    return out;
}

record::Part part_of(const Shipped& from, std::int64_t pieces, std::int64_t mg) {
    record::Part part{from.lot.code, pieces, {}};
    if (mg > 0) part.mass = measure_of(mg, Unit::kg);
    return part;
}

// Spread over the lots; `typed` is the mass when one was stated.
// With `every`, also the lots that none falls to: what was found before on them is gone.
std::vector<record::Part> spread(const std::vector<Shipped>& lots, std::int64_t pieces, const std::optional<Measure>& typed, bool every) {
    std::vector<record::Part> parts;
    std::int64_t left_pieces = pieces, left_mg = typed ? typed->value : 0;
    for (std::size_t i = 0; i < lots.size(); ++i) {
        const Shipped& from = lots[i];
        const bool last = i + 1 == lots.size();
        const std::int64_t there = std::max<std::int64_t>(0, from.pieces - from.said_pieces);
        const std::int64_t mg_there = std::max<std::int64_t>(0, from.mg - from.said_mg);
        const std::int64_t take = last ? left_pieces : std::min(left_pieces, there);
        std::int64_t mg = from.mass_of(take);
        if (typed) mg = last ? left_mg : std::min(left_mg, pieces == 0 ? mg_there : mg);
        left_pieces -= take;
        left_mg -= typed ? mg : 0;
        if (take > 0 || mg > 0 || every || lots.size() == 1) parts.push_back(part_of(from, take, mg));
    }
    return parts;
}

}  // namespace

Result<Admitted> count_by_lot(const Request& r, const book::Recall& recall, record::RecallCounted s) {
    auto lots = covered_lots(r, recall, s.code);
    if (!lots) return lots.refusal();
    std::vector<Shipped> shipped;
    std::int64_t went = 0, said = 0;
    for (const auto& lot : *lots) {
        shipped.push_back(shipped_of(r, recall, lot, s.partner));
        went += shipped.back().pieces;
        said += shipped.back().said_pieces;
    }
    if (shipped.size() > 1) {  // lots that never went there come in only when none did
        std::vector<Shipped> there;
        std::copy_if(shipped.begin(), shipped.end(), std::back_inserter(there),
                     [](const auto& one) { return one.pieces > 0 || one.mg > 0; });
        if (!there.empty()) shipped = std::move(there);
    }
    s.parts = spread(shipped, s.pieces, s.mass, s.what == word(Fate::found));
    Admitted out{{}, {}, {}};
    if (s.pieces > 0 && s.pieces > went - said) {
        out.notes.push_back("that is more than the records say: " + std::to_string(went) + " pieces of " + s.code + " went to " +
                            (s.partner.empty() ? "no partner" : s.partner) + ", " + std::to_string(said) +
                            " are spoken of already. Is a shipment not recorded?");
    }
    if (s.what == word(Fate::returned) && recall.drill == 0) {
        for (const auto& part : s.parts)
            out.before.push_back(record::Returned{part.lot, s.partner, part.pieces, part.mass, {}, recall.code});
        out.notes.push_back("recorded as a return too: held and kept apart, it is not stock");
    }
    out.says = std::move(s);
    return out;
}

}  // namespace peelbook::site
