// Questions about allergens: of a lot, of a period, of a line.
#include "site/ask/ask_allergens.h"

#include <algorithm>
#include <limits>
#include <set>

#include "base/text.h"
#include "base/words.h"
#include "fold/label.h"
#include "plan/allergens.h"
#include "site/ask/allergen_reasons.h"
#include "site/impl.h"
#include "site/record/admit.h"

namespace peelbook::site {
namespace {

using Level = book::AllergenLevel;
std::vector<book::Lot> made_in(fold::Ledger& ledger, const std::string& product, Instant from, Instant until) {
    auto lots = ledger.rows().lots_of_item(product);
    std::erase_if(lots, [&](const book::Lot& lot) {
        return (lot.kind != LotKind::batch && lot.kind != LotKind::pack) || lot.happened < from.ms || lot.happened >= until.ms;
    });
    return lots;
}

// The material of the formula, through products in it, that is specified with the allergen.
std::string bringing_material(const plan::Plan& plan, const std::string& product, const std::string& allergen,
                              std::set<std::string>& seen) {
    const auto* made = plan.product(product);
    if (!made || !seen.insert(product).second) return {};
    for (const auto& item : made->formula) {
        if (const auto* material = plan.material(item.item)) {
            if (among(material->allergens, allergen) || among(material->may_contain, allergen)) return material->id;
        }
        auto deeper = bringing_material(plan, item.item, allergen, seen);
        if (!deeper.empty()) return deeper;
    }
    return {};
}

class Matrix {
  public:
    Matrix(fold::Ledger& ledger, const plan::Plan& plan, Instant from, Instant until)
        : ledger_(ledger), plan_(plan), from_(from), until_(until) {}

    ProductAllergens of(const plan::Product& product);

  private:
    void add_lots(ProductAllergens& out);
    void add_formula(ProductAllergens& out);

    fold::Ledger& ledger_;
    const plan::Plan& plan_;
    Instant from_, until_;
};

// The lot with the surest level of each allergen gives the reason; the latest of several.
void Matrix::add_lots(ProductAllergens& out) {
    std::map<std::string, std::pair<Level, book::Lot>> surest;
    for (const auto& lot : made_in(ledger_, out.product, from_, until_)) {
        ++out.lots;
        for (const auto& row : ledger_.rows().allergens(lot.id)) {
            auto [known, fresh] = surest.try_emplace(row.allergen, row.level, lot);
            if (!fresh && row.level >= known->second.first) known->second = {row.level, lot};
        }
    }
    std::map<book::LotId, std::vector<AllergenReason>> told;
    for (const auto& [allergen, where] : surest) {
        const auto& lot = where.second;
        auto found = told.find(lot.id);
        if (found == told.end()) found = told.emplace(lot.id, LotBehind(ledger_, lot).reasons()).first;
        for (const auto& reason : found->second) {
            if (reason.allergen == allergen) out.allergens.push_back(reason);
        }
    }
}

void Matrix::add_formula(ProductAllergens& out) {
    for (const auto& [allergen, sure] : brought_by(plan_, out.product)) {
        const bool there = std::any_of(out.allergens.begin(), out.allergens.end(), [&](const auto& a) { return a.allergen == allergen; });
        if (there) continue;
        std::set<std::string> seen;
        out.allergens.push_back({allergen,
                                 sure ? Level::formula : Level::may_contain,
                                 "",
                                 "",
                                 "formula: " + bringing_material(plan_, out.product, allergen, seen),
                                 {},
                                 {},
                                 ""});
    }
}

ProductAllergens Matrix::of(const plan::Product& product) {
    ProductAllergens out;
    out.product = product.id;
    out.name = product.name;
    out.sold = product.sold.empty() ? "packed" : product.sold;
    if (const auto* label = plan_.label(product.label)) {
        out.label = label->id;
        out.market = label->market;
        out.declares = label->declares;
        out.may_contain = label->may_contain;
    }
    add_lots(out);
    add_formula(out);
    for (const auto& declared : out.declares) {
        const bool there = std::any_of(out.allergens.begin(), out.allergens.end(), [&](const auto& a) { return a.allergen == declared; });
        if (!there) out.surplus.push_back(declared);
    }
    return out;
}

bool declares_or_brings(const plan::Plan& plan, const plan::Product& product, const std::string& allergen) {
    const auto* label = plan.label(product.label);
    if (label && (among(label->declares, allergen) || among(label->may_contain, allergen))) return true;
    return brought_by(plan, product.id).contains(allergen);
}

bool goes_to_customers(const plan::Product& product) {
    return !product.label.empty() || product.sold == "loose" || product.sold == "direct";
}

// Runs of the product on pieces where the allergen had lain before: cleared by then, or still there.
void count_changeovers(fold::Ledger& ledger, const std::string& allergen, const book::Lot& lot, NeverProduct& out) {
    for (const auto& run : ledger.rows().runs(lot.id)) {
        for (const auto& residue : ledger.rows().residues_after(run.equipment, std::numeric_limits<book::Int>::min() / 2)) {
            if (residue.allergen != allergen || residue.from_ms >= run.at) continue;
            const bool lay = !residue.until_ms || *residue.until_ms > run.at;
            ++(lay ? out.lying : out.cleared);
        }
    }
}

NeverProduct never(fold::Ledger& ledger, const plan::Product& product, const std::string& allergen, Instant from, Instant until) {
    NeverProduct out;
    out.product = product.id;
    out.name = product.name;
    out.label = product.label;
    for (const auto& lot : made_in(ledger, product.id, from, until)) {
        ++out.lots;
        count_changeovers(ledger, allergen, lot, out);
        bool with = false, not_stated = false;
        for (const auto& row : ledger.rows().allergens(lot.id)) {
            with = with || row.allergen == allergen;
            not_stated = not_stated || row.level == Level::not_stated;
        }
        if (not_stated) ++out.not_stated;
        if (!with) continue;
        ++out.with;
        for (const auto& reason : LotBehind(ledger, lot).reasons()) {
            if (reason.allergen == allergen) out.found.push_back(lot.code + " " + in_words(reason.level) + ": " + reason.reason);
        }
    }
    return out;
}

}  // namespace

Result<LotAllergens> Site::allergens_of(const std::string& lot_code) const {
    const auto found = lot(lot_code);
    if (!found) return found.refusal();
    return LotAllergens{found->code, found->item, LotBehind(impl_->ledger, *found).reasons()};
}

AllergenMatrix Site::allergen_matrix(Instant from, Instant until) const {
    auto& ledger = impl_->ledger;
    const auto governing = ledger.plan_at({until.ms - 1});
    AllergenMatrix out{from, until, {}, {}};
    Matrix matrix(ledger, *governing.plan, from, until);
    std::set<std::string> met;
    for (const auto& product : governing.plan->products) {
        if (!goes_to_customers(product)) continue;
        out.products.push_back(matrix.of(product));
        for (const auto& a : out.products.back().allergens) met.insert(a.allergen);
        met.insert(out.products.back().surplus.begin(), out.products.back().surplus.end());
    }
    for (const auto& id : plan::allergen_ids()) {
        if (met.contains(id)) out.allergens.push_back(id);
    }
    return out;
}

Result<std::vector<NeverProduct>> Site::never_contains(const std::string& allergen, Instant from, Instant until) const {
    if (auto checked = plan::check_allergen(allergen); !checked) return checked.refusal();
    auto& ledger = impl_->ledger;
    const auto governing = ledger.plan_at({until.ms - 1});
    std::vector<NeverProduct> out;
    for (const auto& product : governing.plan->products) {
        if (!goes_to_customers(product) || declares_or_brings(*governing.plan, product, allergen)) continue;
        out.push_back(never(ledger, product, allergen, from, until));
    }
    return out;
}

Result<SequenceProposal> Site::sequence(const std::string& line, const std::vector<SequenceProduct>& products) const {
    auto& ledger = impl_->ledger;
    const Instant now = impl_->clock.now();
    const auto governing = ledger.plan_at(now);
    Lying lying;
    for (const auto& piece : governing.plan->equipment) {
        for (const auto& residue : ledger.rows().residues_after(piece.id, now.ms)) {
            if (!residue.until_ms) lying[piece.id].insert(residue.allergen);
        }
    }
    return propose_sequence(*governing.plan, line, products, lying);
}

}  // namespace peelbook::site
