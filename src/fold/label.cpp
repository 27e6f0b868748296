#include "fold/label.h"

#include <algorithm>
#include <set>

#include "fold/standing.h"
#include "judge/judge.h"
#include "plan/allergens.h"

namespace peelbook::fold {
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
void add_formula(const plan::Plan& plan, const std::string& product, std::set<std::string>& seen, std::map<std::string, Present>& all) {
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

// True when every lot behind these that met residue of the allergen has a signed disposition for its changeover.
bool decided_on_residue(Ledger& ledger, const std::vector<book::LotId>& lots, const std::string& allergen) {
    auto& rows = ledger.rows();
    const auto behind = rows.back(lots).lots;
    return std::all_of(behind.begin(), behind.end(), [&](const book::Lot& lot) {
        const auto met = rows.carry_over(lot.id);
        const bool here = std::any_of(met.begin(), met.end(), [&](const auto& one) { return one.allergen == allergen; });
        if (!here) return true;
        const auto finding = rows.finding(lot.id, std::string(judge::changeover_point), 0);
        return finding && is_settled(*finding);
    });
}

void product_uses(const plan::Plan& plan, const std::string& item, std::set<std::string>& seen, std::vector<const plan::Label*>& labels) {
    if (!seen.insert(item).second) return;
    for (const auto& product : plan.products) {
        const bool goes_in = std::any_of(product.formula.begin(), product.formula.end(), [&](const auto& f) { return f.item == item; });
        if (!goes_in) continue;
        if (const auto* label = plan.label(product.label)) labels.push_back(label);
        product_uses(plan, product.id, seen, labels);
    }
}

}  // namespace

std::vector<const plan::Label*> labels_for(const plan::Plan& plan, const book::Lot& lot) {
    if (lot.kind == LotKind::pack) {
        const auto* own = plan.label(lot.label);
        return own ? std::vector{own} : std::vector<const plan::Label*>{};
    }
    const auto* product = plan.product(lot.item);
    const auto* usual = product ? plan.label(product->label) : nullptr;
    std::vector<const plan::Label*> labels;
    if (usual) labels.push_back(usual);
    std::set<std::string> seen;
    if (!usual) product_uses(plan, lot.item, seen, labels);
    return labels;
}

std::vector<const plan::Label*> labels_of_product(const plan::Plan& plan, const book::Lot& lot) {
    auto labels = labels_for(plan, lot);
    for (const auto& label : plan.labels) {
        if (label.product == lot.item && std::find(labels.begin(), labels.end(), &label) == labels.end()) labels.push_back(&label);
    }
    return labels;
}

bool declared_by_all(const std::vector<const plan::Label*>& labels, const std::string& allergen) {
    const auto* known = plan::allergen(allergen);
    return !labels.empty() && std::all_of(labels.begin(), labels.end(), [&](const plan::Label* label) {
        const auto market = plan::market_from(label->market).value_or(plan::Market::eu);
        return (known && !plan::listed(*known, market)) || covered(label->declares, allergen) || covered(label->may_contain, allergen);
    });
}

bool decided_without_declaration(Ledger& ledger, const std::vector<book::LotId>& lots) {
    auto& rows = ledger.rows();
    const auto behind = rows.back(lots).lots;
    return std::all_of(behind.begin(), behind.end(), [&](const book::Lot& lot) {
        const auto finding = rows.finding(lot.id, std::string(judge::declaration_point), 0);
        return !finding || finding->measured != "not stated" || is_settled(*finding);
    });
}

LabelGaps label_gaps(Ledger& ledger, const plan::Plan& plan, const plan::Label& label, const std::string& product,
                     const std::vector<book::LotId>& lots) {
    LabelGaps gaps;
    std::map<std::string, Present> all;
    for (book::LotId id : lots) {
        const auto lot = ledger.rows().lot(id);
        for (const auto& a : ledger.rows().allergens(id)) {
            if (a.level == book::AllergenLevel::not_stated) {
                gaps.unknown = true;
            } else if (a.level != book::AllergenLevel::carry_over || !decided_on_residue(ledger, lots, a.allergen)) {
                add(all, a.allergen, a.level == book::AllergenLevel::contains, lot ? lot->code : "");
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
    for (const auto& declared : label.declares) {
        if (!all.contains(declared)) gaps.surplus.push_back(declared);
    }
    return gaps;
}

}  // namespace peelbook::fold
