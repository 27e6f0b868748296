#pragma once
// What a batch of a wanted size is weighed from.
#include <vector>

#include "base/result.h"
#include "plan/plan.h"
#include "record/payload.h"

namespace peelbook::fold {

struct Weighing {
    std::string item;
    std::int64_t micro_percent = 0;  // of the flour; 0 for an absolute item
    std::int64_t mass_mg = 0;
    bool optional = false;
};

struct WeighSheet {
    std::vector<Weighing> items;  // in formula order
    std::int64_t dough_mg = 0;    // their sum
    std::int64_t pieces = 0;      // whole pieces of unit_mass in the dough, without one those of the usual batch; 0: not known
};

// Items in baker's percent by calc/formula.h, items in masses scaled from the usual batch. The size is the flour, the dough or the
// pieces wanted; without any, the usual batch. Refused: no size and no usual one; pieces of a product that is not counted so.
Result<WeighSheet> weigh_sheet(const plan::Product& product, const record::Started& size);

}  // namespace peelbook::fold
