#pragma once
// Action level for unintended cross-contact: the protein of an allergenic food, in mg per kg of the food, at
// which a portion carries the reference dose.
//   action level = reference dose (mg) / portion (kg)
// A decision aid that a qualified person validates; never for an ingredient, which is declared at any share.
// Sources of reference doses: FAO/WHO expert consultation on allergens, part 2 (2022); checks in
// tests/calc/reference.txt.
#include "base/result.h"

namespace peelbook::calc {

// mg protein per kg food. Refuses a dose or a portion not above 0.
Result<double> action_level(double reference_dose_mg, double portion_g);

}  // namespace peelbook::calc
