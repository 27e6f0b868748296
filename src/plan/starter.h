#pragma once
#include <string>
#include <vector>

#include "plan/reader.h"

namespace peelbook::plan {

// The commented plan that `new` writes for a small bakery: it passes read_plan without a fault or warning, and every limit in it
// says that it is a starting point to be validated. `site_name` and `zone` are written into site.toml. The files: site.toml,
// people.toml, equipment.toml, materials.toml, products.toml, points.toml. Together their comments name every key of a plan.
std::vector<Text> starter_plan(const std::string& site_name, const std::string& zone);

// The texts, one file of source each; site.toml has the marks @NAME@ and @ZONE@.
extern const char* const starter_site;
extern const char* const starter_people;
extern const char* const starter_equipment;
extern const char* const starter_materials;
extern const char* const starter_products;
extern const char* const starter_points;

}  // namespace peelbook::plan
