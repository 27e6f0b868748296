#pragma once
// What a control chart draws of a point, in which unit, against which bounds.
//
//   readings   each single reading, in the unit that the limit is stated in
//   figures    where no reading is what is judged (plan::figure_dimension): the number that the judge measured of
//              each batch. A time between two events is in hours when the smaller bound is 2 h or more, else in
//              minutes; a loss is in percent
#include <optional>
#include <string>

#include "base/units.h"
#include "plan/plan.h"

namespace peelbook::site {

struct ChartSubject {
    Unit unit = Unit::celsius;
    std::optional<double> least, most;  // the plan's limit, of the unit
    std::string what;                   // "minutes from the end of mix to the end of proof, each batch"
};

// False for what gives no single number: a cooling curve, a yes and no, pH and water activity together, a label.
bool has_control_chart(const plan::Point& point);

// Needs a point that has one.
ChartSubject chart_subject(const plan::Point& point);

}  // namespace peelbook::site
