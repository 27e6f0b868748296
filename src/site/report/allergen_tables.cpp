#include "site/report/allergen_tables.h"

#include <algorithm>

#include "base/text.h"
#include "base/told_table.h"
#include "base/words.h"
#include "plan/allergens.h"

namespace peelbook::site {
namespace {

using Level = book::AllergenLevel;

struct CellRow {
    ProductAllergens product;
    AllergenReason reason;
    std::string level, declared;
};

std::vector<CellRow> cell_rows(const AllergenMatrix& matrix) {
    std::vector<CellRow> rows;
    for (const auto& p : matrix.products) {
        for (const auto& a : p.allergens) rows.push_back({p, a, in_words(a.level), declared_word(p, a.allergen)});
        for (const auto& allergen : p.surplus) {
            AllergenReason none;
            none.allergen = allergen;
            none.reason = "nothing that was used and nothing in the formula brings it";
            rows.push_back({p, none, "declared only", "declared"});
        }
    }
    return rows;
}

Table cells_of(const AllergenMatrix& matrix) {
    return numbered_table_of(cell_rows(matrix), [](TableRow& row, const CellRow& one) {
        const auto& [p, a, level, declared] = one;
        row("product", p.product)("name", p.name)("sold", p.sold)("label", p.label)("market", p.market)("lots", p.lots);
        row("allergen", a.allergen)("level", level)("declared", declared)("lot", a.lot)("source", a.source);
        row("reason", a.reason)("protein_mg_per_kg", a.protein_mg_per_kg);
    });
}

// The groups of Annex II, each as a column.
constexpr std::pair<const char*, const char*> groups[] = {{"gluten", "gluten-cereals"},
                                                          {"crustaceans", "crustaceans"},
                                                          {"egg", "egg"},
                                                          {"fish", "fish"},
                                                          {"peanut", "peanut"},
                                                          {"soy", "soy"},
                                                          {"milk", "milk"},
                                                          {"nuts", "nuts"},
                                                          {"celery", "celery"},
                                                          {"mustard", "mustard"},
                                                          {"sesame", "sesame"},
                                                          {"sulphites", "sulphites"},
                                                          {"lupin", "lupin"},
                                                          {"molluscs", "molluscs"}};

std::string contained(const ProductAllergens& p, std::string_view group) {
    std::vector<std::string> names;
    for (const auto& a : p.allergens) {
        const auto* known = plan::allergen(a.allergen);
        if (!known || !known->eu || known->group != group) continue;
        if (a.level == Level::contains || a.level == Level::formula) names.push_back(a.allergen);
    }
    return joined(names, ", ");
}

std::string perhaps_contained(const ProductAllergens& p) {
    std::vector<std::string> names;
    for (const auto& a : p.allergens) {
        if (a.level == Level::may_contain || a.level == Level::carry_over) names.push_back(a.allergen);
        if (a.level == Level::not_stated) names.push_back("not known: " + a.source + " came without a declaration");
    }
    return joined(names, ", ");
}

Table loose_goods(const AllergenMatrix& matrix) {
    std::vector<ProductAllergens> loose;
    for (const auto& p : matrix.products)
        if (p.sold != "packed") loose.push_back(p);
    return numbered_table_of(loose, [](TableRow& row, const ProductAllergens& p) {
        row("product", p.product)("name", p.name)("sold", p.sold)("lots", p.lots);
        for (const auto& [column, group] : groups) row(column, contained(p, group));
        row("may_contain", perhaps_contained(p));
    });
}

}  // namespace

std::string declared_word(const ProductAllergens& product, const std::string& allergen) {
    if (product.label.empty()) return "no label";
    if (among(product.declares, allergen)) return "declared";
    if (among(product.may_contain, allergen)) return "may contain";
    const auto* known = plan::allergen(allergen);
    const auto market = plan::market_from(product.market);
    return known && market && !plan::listed(*known, *market) ? "not listed" : "not declared";
}

std::vector<std::pair<std::string, Table>> allergen_report_tables(const AllergenMatrix& matrix) {
    return {{"allergen_cell", cells_of(matrix)}, {"loose_goods", loose_goods(matrix)}};
}

}  // namespace peelbook::site
