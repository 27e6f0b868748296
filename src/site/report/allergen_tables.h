#pragma once
// The temporary tables that a report with needs = ["allergens"] reads: a week's allergen matrix as rows (site/ask/ask_allergens.h).
#include <string>
#include <utility>
#include <vector>

#include "base/table.h"
#include "site/ask/ask_allergens.h"

namespace peelbook::site {

//   allergen_cell  ord, product, name, sold, label, market, lots, allergen, level, declared, lot, source, reason, protein_mg_per_kg
//                  declared: "declared" "may contain" "not declared" "not listed" (by the label's market) "no label"
//                  level: as of AllergenReason; "declared only" for what a label declares and nothing brings
//   loose_goods    ord, product, name, sold, lots, gluten, crustaceans, egg, fish, peanut, soy, milk, nuts, celery, mustard,
//                  sesame, sulphites, lupin, molluscs: what is contained, by name, under the groups of Annex II; may_contain: the rest
std::vector<std::pair<std::string, Table>> allergen_report_tables(const AllergenMatrix& matrix);
// "declared" "may contain" "not declared" "not listed" "no label"
std::string declared_word(const ProductAllergens& product, const std::string& allergen);

}  // namespace peelbook::site
