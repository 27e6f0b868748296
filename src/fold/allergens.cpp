// Allergens follow the lots really used, through every depth. A possible use makes "contains" a "may contain"; a draw from a vessel
// that may be of several lots contains what all of them do. A lot whose supplier declared nothing counts as its material's
// specification and leaves the mark "not-stated".
#include <algorithm>
#include <deque>
#include <map>

#include "fold/lot_facts.h"

namespace peelbook::fold {
namespace {

using Level = book::AllergenLevel;
using Levels = std::map<std::string, Level>;

void raise(Levels& levels, const std::string& allergen, Level level) {
    auto& kept = levels.try_emplace(allergen, level).first->second;
    kept = std::max(kept, level);
}

void declare(Ledger& ledger, const book::Lot& lot, Levels& levels) {
    const auto made = ledger.effective(lot.id);
    const auto* received = std::get_if<record::Received>(&made.says);
    if (!received) return;
    const auto* material = ledger.plan_version(lot.plan_seq).plan->material(lot.item);
    if (received->allergens.stated) {
        for (const auto& a : received->allergens.contains) raise(levels, a, Level::contains);
        for (const auto& a : received->allergens.may_contain) raise(levels, a, Level::may_contain);
        return;
    }
    if (!material || material->supply || material->packaging) return;
    for (const auto& a : material->allergens) raise(levels, a, Level::contains);
    for (const auto& a : material->may_contain) raise(levels, a, Level::may_contain);
    raise(levels, "not-stated", Level::not_stated);
}

// What every lot that a draw may be of contains, by the entry that draws. A draw that was itself stated as possible is left out.
std::map<Seq, std::map<std::string, int>> in_all_of(Ledger& ledger, const std::vector<book::Use>& uses) {
    std::map<Seq, std::vector<book::LotId>> open;
    for (const auto& use : uses) {
        if (use.sure == 0) open[use.seq].push_back(use.from_lot);
    }
    std::map<Seq, std::map<std::string, int>> out;
    for (const auto& [seq, lots] : open) {
        const auto drawn = ledger.effective(seq);
        const auto* used = std::get_if<record::Used>(&drawn.says);
        const auto parts = std::count_if(uses.begin(), uses.end(), [&, draw = seq](const auto& u) { return u.seq == draw; });
        if (lots.size() < 2 || !used || used->possible || parts != static_cast<std::ptrdiff_t>(lots.size())) continue;
        std::map<std::string, int> times;
        for (const auto lot : lots) {
            for (const auto& a : ledger.rows().allergens(lot)) times[a.allergen] += a.level == Level::contains ? 1 : 0;
        }
        std::erase_if(times, [&](const auto& one) { return one.second < static_cast<int>(lots.size()); });
        out[seq] = std::move(times);
    }
    return out;
}

// What a possible use makes of a level.
Level passed_on(Level level, bool sure) { return sure ? level : std::min(level, Level::may_contain); }

bool brings_the_same(const std::vector<book::LotAllergen>& a, const std::vector<book::LotAllergen>& b) {
    const auto only_brought = [](std::vector<book::LotAllergen> rows) {
        std::erase_if(rows, [](const auto& row) { return !book::is_brought(row.level); });
        return rows;
    };
    return only_brought(a) == only_brought(b);
}

// True when the rows changed.
bool derive(Derivation& d, const book::Lot& lot) {
    auto& rows = d.ledger.rows();
    Levels levels;
    if (is_from_outside(lot.kind)) declare(d.ledger, lot, levels);
    const auto uses = rows.uses_into(lot.id);
    const auto certain = in_all_of(d.ledger, uses);
    for (const auto& use : uses) {
        for (const auto& a : rows.allergens(use.from_lot)) {
            const auto all = certain.find(use.seq);
            const bool sure = use.sure != 0 || (all != certain.end() && all->second.contains(a.allergen));
            raise(levels, a.allergen, passed_on(a.level, sure));
        }
    }
    for (const auto& met : rows.carry_over(lot.id)) raise(levels, met.allergen, Level::carry_over);
    std::vector<book::LotAllergen> now;
    for (const auto& [allergen, level] : levels) now.push_back({lot.id, allergen, level});
    const auto before = rows.allergens(lot.id);
    if (now == before) return false;
    rows.set_allergens(lot.id, now);
    if (brings_the_same(before, now)) return true;
    for (const auto& run : rows.runs(lot.id)) fold_equipment(d, run.equipment, {run.at}, lot.id);
    return derive(d, lot), true;  // what it meets and does not bring may have changed with it
}

}  // namespace

void refresh_allergens(Derivation& d, book::LotId start) {
    std::deque<book::LotId> waiting{start};
    while (!waiting.empty()) {
        const book::LotId id = waiting.front();
        waiting.pop_front();
        const auto lot = d.ledger.rows().lot(id);
        if (!lot || !derive(d, *lot)) continue;
        for (const auto& use : d.ledger.rows().uses_from(id)) waiting.push_back(use.into_lot);
        // Its label and its changeovers are judged again.
        if (id != start && (lot->kind == LotKind::pack || !d.ledger.rows().carry_over(id).empty())) fold_lot(d, id);
    }
}

}  // namespace peelbook::fold
