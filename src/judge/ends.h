#pragma once
// Two recorded ends of one step, with no further work between them (rule 53): nobody knows which is right until a second person has one
// struck, so a point is judged with the earlier and with the later, and the harder counts.
#include <functional>
#include <vector>

#include "judge/facts.h"
#include "plan/plan.h"

namespace peelbook::judge {

// The facts as they may be: for each step on which this point rests and that was ended twice, with its earliest and with its latest
// end; Facts::ends says which. The facts themselves where no such step was.
std::vector<Facts> choices_of_ends(const plan::Point& point, const Facts& facts);
// The same one by one, without a copy where there is no choice.
void over_choices_of_ends(const plan::Point& point, const Facts& facts, const std::function<void(const Facts&)>& judge);

}  // namespace peelbook::judge
