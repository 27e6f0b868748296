#include "site/record/holds.h"

#include <algorithm>
#include <map>
#include <set>

#include "base/text.h"
#include "base/words.h"
#include "fold/findings.h"
#include "fold/standing.h"
#include "site/record/at_place.h"

namespace peelbook::site {
namespace {

std::string amount_text(const book::Move& move) {
    if (move.pieces) return std::to_string(*move.pieces) + " pieces";
    return move.mass_mg ? mass_text(*move.mass_mg) : "an unknown part";
}

// Of what lay in a room: it may have been used up since.
void keep_what_is_here(fold::Ledger& ledger, std::vector<std::string>& codes) {
    std::erase_if(codes, [&](const auto& code) {
        const auto lot = ledger.rows().lot(code);
        return !lot || !fold::is_here(ledger.rows(), *lot);
    });
}

// A signature covers what its signer saw: what got worse since is held again (rule 51).
bool holds_already(book::Derived& rows, const book::Finding& f) {
    if (!f.lot) return rows.has_hold_for(f.anchor, f.point, f.ord);
    return rows.is_held_for(*f.lot, f.anchor, f.point, f.ord) || fold::is_settled(f);
}

}  // namespace

HoldReach hold_reach(fold::Ledger& ledger, const std::vector<book::LotId>& lots) {
    HoldReach out;
    std::set<book::LotId> reached(lots.begin(), lots.end());
    for (const auto& lot : ledger.rows().forward(lots).lots) reached.insert(lot.id);
    const std::set<book::LotId> named(lots.begin(), lots.end());
    for (book::LotId id : reached) {
        const auto lot = ledger.rows().lot(id);
        if (!lot) continue;
        if (named.contains(id) || fold::is_here(ledger.rows(), *lot)) out.on_hand.push_back(lot->code);
        for (const auto& move : ledger.rows().moves(id)) {
            if (!fold::left_the_house(move)) continue;
            const std::string who = move.partner.empty() ? in_words(move.way) : move.partner;
            out.customers.push_back(who + ": " + amount_text(move) + " of " + lot->code +
                                    (lot->printed_code.empty() ? "" : ", printed code " + lot->printed_code));
        }
    }
    return out;
}

std::vector<HoldToWrite> holds_for(fold::Ledger& ledger, const std::vector<book::Finding>& changed) {
    std::vector<HoldToWrite> out;
    std::set<record::FindingKey> seen;
    for (const auto& f : changed) {
        const record::FindingKey key{f.anchor, f.point, f.ord};
        if (f.grade != Grade::critical || !fold::is_open(f)) continue;
        const bool device = is_of_device(ledger, f);
        if (f.verdict != Verdict::deviation && !device) continue;  // no check of a device, or one that proves nothing, is no good one
        if (!seen.insert(key).second || holds_already(ledger.rows(), f)) continue;
        const auto lots = f.lot ? std::vector{*f.lot} : device ? passed_device(ledger, f) : stored_there(ledger, f);
        if (lots.empty()) continue;
        auto reach = hold_reach(ledger, lots);
        if (!f.lot && !device) keep_what_is_here(ledger, reach.on_hand);
        if (reach.on_hand.empty()) continue;
        HoldToWrite hold;
        hold.says.lots = std::move(reach.on_hand);
        hold.says.why = "critical " + std::string(f.verdict == Verdict::deviation ? "deviation" : "point " + in_words(f.verdict)) + ": " +
                        f.point + (f.unit.empty() ? "" : " " + f.unit) + ", " + f.measured + "; limit: " + f.limit_text;
        if (hold.says.why.size() > longest_note) hold.says.why.resize(longest_note);
        hold.says.cause = key;
        hold.customers = std::move(reach.customers);
        out.push_back(std::move(hold));
    }
    return out;
}

std::vector<HoldToWrite> holds_carried(fold::Ledger& ledger, const std::set<book::LotId>& restocked,
                                       const std::set<std::pair<book::LotId, book::LotId>>& taken) {
    auto& rows = ledger.rows();
    std::map<book::LotId, std::string> kept;  // by why
    for (const auto id : restocked) {
        for (const auto& behind : rows.back({id}).lots) {
            if (rows.is_held(behind.id)) kept[id] = "there is some of it again, and " + behind.code + ", which is in it, is on hold";
        }
    }
    for (const auto& [into, from] : taken) {
        const auto lot = rows.is_held(from) ? rows.lot(from) : std::nullopt;
        if (lot) kept[into] = lot->code + ", which is in it or may be, is on hold";
    }
    std::vector<HoldToWrite> out;
    for (auto& [id, why] : kept) {
        const auto lot = rows.lot(id);
        if (!lot || rows.is_held(id)) continue;
        HoldToWrite hold;
        auto reach = hold_reach(ledger, {id});
        hold.says.lots = std::move(reach.on_hand);
        hold.says.why = std::move(why);
        hold.customers = std::move(reach.customers);
        out.push_back(std::move(hold));
    }
    return out;
}

}  // namespace peelbook::site
