#include "calc/allergen_dose.h"

#include <cmath>

#include "calc/number_text.h"

namespace peelbook::calc {

Result<double> action_level(double reference_dose_mg, double portion_g) {
    if (!(reference_dose_mg > 0) || !std::isfinite(reference_dose_mg)) {
        return Refusal{
            "a reference dose of " + number_text(reference_dose_mg) + " mg", "a dose above 0", "take it from the published list", {}};
    }
    if (!(portion_g > 0) || !std::isfinite(portion_g)) {
        return Refusal{"a portion of " + number_text(portion_g) + " g", "a portion above 0", "give what one person eats at once", {}};
    }
    return reference_dose_mg * 1000 / portion_g;
}

}  // namespace peelbook::calc
