#pragma once
// Is a measured value moving towards a limit, and when would it get there? A straight line through the values
// over time (calc/line_fit.h). It warns; it never judges a limit.
//   real       the slope's confidence limits exclude zero
//   reaches_at the time at which the line meets the limit it moves towards
//   early_at   the time at which a single value may already do so: where the prediction limit meets the limit
// Valid for a steady drift only, and not far beyond the data: times later than three spans of the data are
// left out.
// Units: any one unit; time in days, or any one unit of time.
#include <optional>
#include <vector>

#include "base/result.h"
#include "calc/line_fit.h"

namespace peelbook::calc {

struct Trend {
    LineFit line;
    std::optional<Interval> slope_limits;  // absent with two values
    bool real = false;
    std::optional<double> limit;       // the one it moves towards, when there is one and the trend is real
    std::optional<double> reaches_at;  // absent: not within three spans of the data
    std::optional<double> early_at;    // not before the last value's time
};

// Refuses what fit_line refuses.
Result<Trend> trend_towards(const std::vector<Point>& values, std::optional<double> lower, std::optional<double> upper,
                            double confidence = 0.95);

}  // namespace peelbook::calc
