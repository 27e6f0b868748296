#pragma once
// Straight line by ordinary least squares, y = intercept + slope x, with confidence and prediction limits.
//   slope = Sxy / Sxx, residual sd s = sqrt(sum of squared residuals / (n - 2)), se(slope) = s / sqrt(Sxx),
//   limits = estimate +- t(n - 2) x standard error; a prediction adds the scatter of one more point.
// Assumes: independent residuals of one spread. With two points the line is exact and there are no limits
// (absent).
// Source: Draper and Smith, Applied Regression Analysis, chapter 1 (from memory); checked against NIST StRD
// "Norris".
#include <cstddef>
#include <optional>
#include <vector>

#include "base/result.h"
#include "calc/distribution.h"

namespace peelbook::calc {

struct Point {
    double x = 0;
    double y = 0;
};

struct LineFit {
    std::size_t n = 0;
    double intercept = 0, slope = 0;
    double intercept_se = 0, slope_se = 0;  // 0 with two points
    double residual_sd = 0;                 // 0 with two points
    double r_squared = 0;                   // 1 when y does not vary
    double x_mean = 0, sxx = 0;
    double x_min = 0, x_max = 0;

    double at(double x) const { return intercept + slope * x; }
    std::optional<Interval> slope_limits(double confidence) const;
    std::optional<Interval> mean_limits(double x, double confidence) const;        // of the line itself
    std::optional<Interval> prediction_limits(double x, double confidence) const;  // of one more point
};

// Refuses: fewer than two points, a number that is not finite, all x the same.
Result<LineFit> fit_line(const std::vector<Point>& points);

}  // namespace peelbook::calc
