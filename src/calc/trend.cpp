#include "calc/trend.h"

#include <algorithm>
#include <cmath>

namespace peelbook::calc {
namespace {

constexpr double spans_ahead = 3;

// The first time from `from` to `to` at which the prediction limit on the limit's side meets it.
std::optional<double> first_touch(const LineFit& line, double limit, double from, double to, double confidence) {
    const bool rising = line.slope > 0;
    const auto touches = [&](double x) {
        const auto band = line.prediction_limits(x, confidence);
        return rising ? band->upper >= limit : band->lower <= limit;
    };
    if (touches(from)) return from;
    if (!touches(to)) return std::nullopt;
    for (int i = 0; i < 100; ++i) {
        const double middle = (from + to) / 2;
        (touches(middle) ? to : from) = middle;
    }
    return to;
}

}  // namespace

Result<Trend> trend_towards(const std::vector<Point>& values, std::optional<double> lower, std::optional<double> upper, double confidence) {
    const auto line = fit_line(values);
    if (!line) return line.refusal();
    Trend trend;
    trend.line = *line;
    trend.slope_limits = line->slope_limits(confidence);
    trend.real = trend.slope_limits && (trend.slope_limits->lower > 0 || trend.slope_limits->upper < 0);
    if (!trend.real) return trend;
    trend.limit = line->slope > 0 ? upper : lower;
    if (!trend.limit) return trend;
    const double horizon = line->x_max + spans_ahead * (line->x_max - line->x_min);
    const double meets = (*trend.limit - line->intercept) / line->slope;
    if (meets <= horizon) trend.reaches_at = meets;
    trend.early_at = first_touch(*line, *trend.limit, line->x_max, horizon, confidence);
    return trend;
}

}  // namespace peelbook::calc
