// Allergens follow the lots really used, through every depth. A possible use makes "contains" a "may contain"; a lot whose
// supplier declared nothing counts as its material's specification and leaves the mark "not-stated".
#include <deque>
#include <map>

#include "site/lot_facts.h"

namespace peelbook::site {
namespace {

constexpr int level_rank(std::string_view level) { return level == "contains" ? 2 : level == "may-contain" ? 1 : 0; }

using Levels = std::map<std::string, std::string>;

void raise(Levels& levels, const std::string& allergen, const std::string& level) {
    auto& kept = levels[allergen];
    if (kept.empty() || level_rank(kept) < level_rank(level)) kept = level;
}

void declare(Ledger& ledger, const book::Lot& lot, Levels& levels) {
    const auto made = ledger.effective(lot.id);
    const auto* received = std::get_if<record::Received>(&made.says);
    if (!received) return;
    const auto* material = ledger.plan_version(lot.plan_seq).plan->material(lot.item);
    if (received->allergens.stated) {
        for (const auto& a : received->allergens.contains) raise(levels, a, "contains");
        for (const auto& a : received->allergens.may_contain) raise(levels, a, "may-contain");
        return;
    }
    if (!material || material->supply || material->packaging) return;
    for (const auto& a : material->allergens) raise(levels, a, "contains");
    for (const auto& a : material->may_contain) raise(levels, a, "may-contain");
    raise(levels, "not-stated", "not-stated");
}

// True when the rows changed.
bool derive(Derivation& d, const book::Lot& lot) {
    auto& rows = d.ledger.rows();
    Levels levels;
    if (lot.kind == "received" || lot.kind == "supply") declare(d.ledger, lot, levels);
    for (const auto& use : rows.uses_into(lot.id)) {
        for (const auto& a : rows.allergens(use.from_lot)) {
            raise(levels, a.allergen, use.sure != 0 || a.level == "not-stated" ? a.level : "may-contain");
        }
    }
    std::vector<book::LotAllergen> now;
    for (const auto& [allergen, level] : levels) now.push_back({lot.id, allergen, level});
    if (now == rows.allergens(lot.id)) return false;
    rows.set_allergens(lot.id, now);
    return true;
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
        if (id != start && lot->kind == "pack") fold_lot(d, id);  // its label is judged again
    }
}

}  // namespace peelbook::site
