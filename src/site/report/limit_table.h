#pragma once
// The temporary table that a report with needs = ["limits"] reads: the plan's limits as numbers. The derived table plan_point
// has them in words only, which is right for reading and wrong for drawing a line.
#include <utility>
#include <vector>

#include "base/table.h"
#include "plan/plan.h"
#include "record/seq.h"

namespace peelbook::site {

// plan_limit, one row a limit, and one a stage of a staged cooling:
//   plan_seq   the version's entry          point   id of the control point
//   kind       "range" "before-packing" "cooling" "souring" "lethality" (least: thousandths of a log) "loss" "market" (most: of
//              the strictest label, which may be too much already)
//   dimension  of the bounds: "temperature", ...; they are canonical integers (base/measure.h), milli-degrees C for temperature
//   stage      1, 2, ... of a cooling or souring; 0 of the others
//   start      cooling: the temperature at which its time begins; else empty
//   least, most   the bounds, inclusive; empty when there is none. Of a cooling stage: most is what must be reached
//   by_ms      cooling, souring: at the latest so long after the start (stages that count from the one before are added up); else empty
// A bound stated in two units stands here in its first.
Table limit_table(const std::vector<std::pair<Seq, const plan::Plan*>>& versions);

}  // namespace peelbook::site
