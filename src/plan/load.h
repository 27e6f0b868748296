#pragma once
// How much work the checks of a plan are: what `plan check` says of it. A plan that asks for more than people have time for is kept by
// leaving out and making up, which no limit can notice.
//
// Counted over a usual week and told for one of its open days. A point of a product is checked once a batch and unit (Product::a_week),
// a cooling or souring once more than it has stages, heat that is added up five times, a label as often as a run is looked at; one of a
// material once a delivery (Material::a_week); one of a place so often as its hours or the shifts hold its interval. What is worked out
// from other entries (a time between two of them, a loss), what is read only when somebody wants to, and a logger's file ask nothing.
#include <string>
#include <vector>

#include "plan/plan.h"

namespace peelbook::plan {

// Common practice, to be stated by the plan where it is not so (Point::takes).
inline constexpr Duration time_of_reading = minutes(1);
inline constexpr Duration time_of_looking = seconds(30);
inline constexpr Duration most_a_person = minutes(15);  // common practice: beyond it, checks are left out

struct Load {
    struct OfPoint {
        std::string point;
        std::int64_t checks = 0;  // a week
        Duration time{};          // a week
    };
    std::vector<OfPoint> points;  // the most time first
    std::int64_t days = 7;        // open days of the week
    std::int64_t people = 0;      // who share it; 0: not said
};
Load load_of(const Plan& plan);

// A few lines: the whole of a day, what each person has of it, and the points by their time.
std::string to_text(const Load& load);

}  // namespace peelbook::plan
