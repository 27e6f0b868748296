#pragma once
// A plan version in words, as rows that reports may join.
#include <vector>

#include "book/rows.h"
#include "plan/plan.h"

namespace peelbook::fold {

std::vector<book::PlanPoint> point_rows(Seq version, const plan::Plan& plan);
std::vector<book::PlanItem> item_rows(Seq version, const plan::Plan& plan);

}  // namespace peelbook::fold
