#pragma once
// Bake loss and proof-to-bake loss: water and gas that leave between two weighings.
//   loss % = (before - after) / before x 100;   before = after / (1 - loss)
// Valid: masses above 0 in one unit, loss from 0 to below 100 %. Typical bake loss 10 to 13 % of the dough
// (Gisslen, Professional Baking, section on scaling). A negative loss means a weighing error and is refused.
#include "base/result.h"

namespace peelbook::calc {

Result<double> loss_percent(double before, double after);           // refuses after > before and masses not above 0
Result<double> dough_for_baked(double baked, double loss_percent);  // refuses a loss outside 0 to below 100
Result<double> baked_from_dough(double dough, double loss_percent);

}  // namespace peelbook::calc
