#pragma once
// Does a food need time or temperature control for safety, from pH and water activity alone?
// Source: FDA Food Code 2022, 1-201.10, definition of TCS food, Tables A and B.
//   Table A  heat-treated to destroy vegetative cells and then packaged
//            aw <= 0.92         never
//            aw to 0.95         from pH above 5.6
//            aw above 0.95      from pH above 4.6
//   Table B  not heat-treated, or heat-treated and not packaged
//            aw < 0.88          never
//            aw 0.88 to 0.90    from pH above 5.0
//            aw to 0.92         from pH above 4.6
//            aw above 0.92      from pH 4.2
// Mind the edges: A has aw <= 0.92, B has aw < 0.88; pH 4.2 itself already belongs to the higher class of B.
// "Assessment": a product assessment is required; until there is one, treat the food as needing control.
#include <cstdint>

#include "base/result.h"

namespace peelbook::calc {

enum class ClassTable { heat_treated_and_packaged, not_heat_treated_or_not_packaged };  // A, B
enum class ProductClass { no_control_needed, assessment };

// pH in thousandths (0 to 14'000), water activity in millionths (0 to 1'000'000). Refused outside.
Result<ProductClass> classify(ClassTable table, std::int64_t ph_milli, std::int64_t aw_micro);

}  // namespace peelbook::calc
