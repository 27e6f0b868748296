// Allergens follow the lots really used, through every depth. A possible use makes "contains" a "may contain"; a draw from a vessel
// that may be of several lots contains what all of them do. A lot whose supplier declared nothing counts as its material's
// specification and leaves the mark "not-stated".
#include <algorithm>
#include <map>

#include "fold/fold.h"
#include "fold/ratchet/waiting.h"

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
    if (!std::holds_alternative<record::Received>(made.says)) return;
    const auto declared = declared_of(ledger, made);
    const auto* material = ledger.plan_version(lot.plan_seq).plan->material(lot.item);
    if (declared.stated) {
        for (const auto& a : declared.contains) raise(levels, a, Level::contains);
        for (const auto& a : declared.may_contain) raise(levels, a, Level::may_contain);
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

enum class Of { brought, carried };

// What the lot brings of itself and of what it was made from; carried: with what they and it met on equipment.
Levels levels_of(Ledger& ledger, const book::Lot& lot, Of of) {
    auto& rows = ledger.rows();
    Levels levels;
    if (is_from_outside(lot.kind)) declare(ledger, lot, levels);
    const auto uses = rows.uses_into(lot.id);
    const auto certain = in_all_of(ledger, uses);
    for (const auto& use : uses) {
        for (const auto& a : rows.allergens(use.from_lot)) {
            if (of == Of::brought && a.level == Level::carry_over) continue;
            const auto all = certain.find(use.seq);
            const bool sure = use.sure != 0 || (all != certain.end() && all->second.contains(a.allergen));
            raise(levels, a.allergen, passed_on(a.level, sure));
        }
    }
    if (of == Of::carried) {
        for (const auto& met : rows.carry_over(lot.id)) raise(levels, met.allergen, Level::carry_over);
    }
    return levels;
}

std::vector<book::LotAllergen> rows_of(book::LotId lot, const Levels& levels) {
    std::vector<book::LotAllergen> out;
    for (const auto& [allergen, level] : levels) out.push_back({lot, allergen, level});
    return out;
}

// What was made from the lot, and the lot itself where its label or its changeovers are judged by its allergens.
Subjects passed_to(book::Derived& rows, const book::Lot& lot, Rank rank) {
    Subjects out;
    for (const auto& use : rows.uses_from(lot.id)) out.push_back(Subject::of_lot(rank, use.into_lot));
    if (lot.kind == LotKind::pack || !rows.carry_over(lot.id).empty()) out.push_back(Subject::of_lot(Rank::findings, lot.id));
    return out;
}

}  // namespace

Subjects fold_brought(Derivation& d, book::LotId id) {
    auto& rows = d.ledger.rows();
    const auto lot = rows.lot(id);
    if (!lot) return {};
    auto levels = levels_of(d.ledger, *lot, Of::brought);
    const auto before = rows.allergens(id);
    for (const auto& was : before) {
        if (was.level == Level::carry_over) raise(levels, was.allergen, was.level);
    }
    const auto now = rows_of(id, levels);
    const auto carried = Subject::of_lot(Rank::carried, id);  // of other inputs, or of what it does not bring any more
    if (now == before) return {carried};
    rows.set_allergens(id, now);
    auto dirtied = passed_to(rows, *lot, Rank::brought);
    for (const auto& run : rows.runs(id)) dirtied.push_back(Subject::since(Rank::equipment, run.equipment, {run.at}));
    dirtied.push_back(carried);
    return dirtied;
}

Subjects fold_carried(Derivation& d, book::LotId id) {
    auto& rows = d.ledger.rows();
    const auto lot = rows.lot(id);
    if (!lot) return {};
    const auto now = rows_of(id, levels_of(d.ledger, *lot, Of::carried));
    if (now == rows.allergens(id)) return {};
    rows.set_allergens(id, now);
    return passed_to(rows, *lot, Rank::carried);
}

}  // namespace peelbook::fold
