#include "site/label.h"

#include <algorithm>
#include <set>

#include "plan/allergens.h"

namespace peelbook::site {
namespace {

struct Present {
    bool contains = false;  // else may contain
    std::string from;
};

void add(std::map<std::string, Present>& all, const std::string& allergen, bool contains, const std::string& from) {
    auto [at, fresh] = all.try_emplace(allergen, Present{contains, from});
    if (!fresh && contains && !at->second.contains) at->second = {true, from};
}

// Through products that are items of the formula; a leaven that is fed from itself is looked at once.
void add_formula(const plan::Plan& plan, const std::string& product, std::set<std::string>& seen,
                 std::map<std::string, Present>& all) {
    const auto* made = plan.product(product);
    if (!made || !seen.insert(product).second) return;
    for (const auto& item : made->formula) {
        if (item.optional) continue;
        add_formula(plan, item.item, seen, all);
        const auto* material = plan.material(item.item);
        if (!material) continue;
        for (const auto& a : material->allergens) add(all, a, true, "formula of " + product);
        for (const auto& a : material->may_contain) add(all, a, false, "formula of " + product);
    }
}

bool covered(const std::vector<std::string>& declared, const std::string& present) {
    return std::any_of(declared.begin(), declared.end(), [&](const auto& word) { return plan::covers(word, present); });
}

}  // namespace

LabelGaps label_gaps(Ledger& ledger, const plan::Plan& plan, const plan::Label& label, const std::string& product,
                     const std::vector<book::LotId>& lots) {
    LabelGaps gaps;
    std::map<std::string, Present> all;
    for (book::LotId id : lots) {
        const auto lot = ledger.rows().lot(id);
        for (const auto& a : ledger.rows().allergens(id)) {
            if (a.level == "not-stated") {
                gaps.unknown = true;
            } else {
                add(all, a.allergen, a.level == "contains", lot ? lot->code : "");
            }
        }
    }
    std::set<std::string> seen;
    add_formula(plan, product, seen, all);
    const auto market = plan::market_from(label.market).value_or(plan::Market::eu);
    for (const auto& [allergen, present] : all) {
        const auto* known = plan::allergen(allergen);
        if (known && !plan::listed(*known, market)) continue;
        if (covered(label.declares, allergen) || (!present.contains && covered(label.may_contain, allergen))) continue;
        gaps.undeclared[allergen] = present.from;
    }
    return gaps;
}

}  // namespace peelbook::site
