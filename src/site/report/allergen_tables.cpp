#include "site/report/allergen_tables.h"

#include <algorithm>

#include "base/text.h"
#include "base/words.h"
#include "plan/allergens.h"

namespace peelbook::site {
namespace {

using Int = std::int64_t;
using Level = book::AllergenLevel;

Table cells_of(const AllergenMatrix& matrix) {
    Table table{{"ord", "product", "name", "sold", "label", "market", "lots", "allergen", "level", "declared",
                 "lot", "source", "reason", "protein_mg_per_kg"},
                {}};
    Int ord = 0;
    for (const auto& p : matrix.products) {
        for (const auto& a : p.allergens) {
            table.rows.push_back({ord++, p.product, p.name, p.sold, p.label, p.market, p.lots, a.allergen,
                                  in_words(a.level), declared_word(p, a.allergen), a.lot, a.source, a.reason,
                                  a.protein_mg_per_kg ? Cell{*a.protein_mg_per_kg} : Cell{}});
        }
        for (const auto& allergen : p.surplus) {
            table.rows.push_back(
                {ord++, p.product, p.name, p.sold, p.label, p.market, p.lots, allergen,
                 std::string("declared only"), std::string("declared"), std::string(), std::string(),
                 std::string("nothing that was used and nothing in the formula brings it"), Cell{}});
        }
    }
    return table;
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

Table loose_goods(const AllergenMatrix& matrix) {
    Table table{{"ord", "product", "name", "sold", "lots"}, {}};
    for (const auto& [column, group] : groups) table.columns.emplace_back(column);
    table.columns.emplace_back("may_contain");
    Int ord = 0;
    for (const auto& p : matrix.products) {
        if (p.sold == "packed") continue;
        std::vector<Cell> row{ord++, p.product, p.name, p.sold, p.lots};
        std::vector<std::string> perhaps;
        for (const auto& [column, group] : groups) {
            std::vector<std::string> names;
            for (const auto& a : p.allergens) {
                const auto* known = plan::allergen(a.allergen);
                if (!known || !known->eu || known->group != group) continue;
                if (a.level == Level::contains || a.level == Level::formula) names.push_back(a.allergen);
            }
            row.emplace_back(joined(names, ", "));
        }
        for (const auto& a : p.allergens) {
            if (a.level == Level::may_contain || a.level == Level::carry_over) perhaps.push_back(a.allergen);
            if (a.level == Level::not_stated)
                perhaps.push_back("not known: " + a.source + " came without a declaration");
        }
        row.emplace_back(joined(perhaps, ", "));
        table.rows.push_back(std::move(row));
    }
    return table;
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
