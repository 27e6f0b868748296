#include "calc/line_fit.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace peelbook::calc {
namespace {

struct Sums {
    double xx = 0, xy = 0, yy = 0;
};

Sums centred_sums(const std::vector<Point>& points, double x_mean, double y_mean) {
    Sums s;
    for (const Point& p : points) {
        s.xx += (p.x - x_mean) * (p.x - x_mean);
        s.xy += (p.x - x_mean) * (p.y - y_mean);
        s.yy += (p.y - y_mean) * (p.y - y_mean);
    }
    return s;
}

std::optional<Interval> around(double centre, double standard_error, std::size_t n, double confidence) {
    if (n < 3) return std::nullopt;
    const double half = student_t_two_sided(confidence, static_cast<double>(n - 2)) * standard_error;
    return Interval{centre - half, centre + half};
}

Check check_points(const std::vector<Point>& points) {
    if (points.size() < 2) {
        return Refusal{std::to_string(points.size()) + " point(s) for a line", "two points or more", "add measurements", {}};
    }
    for (const Point& p : points) {
        if (!std::isfinite(p.x) || !std::isfinite(p.y)) {
            return Refusal{"a point that is not a number", "finite numbers", "correct or leave out that row", {}};
        }
    }
    return {};
}

}  // namespace

Result<LineFit> fit_line(const std::vector<Point>& points) {
    if (auto checked = check_points(points); !checked) return checked.refusal();
    LineFit fit;
    fit.n = points.size();
    const double n = static_cast<double>(fit.n);
    const auto by_x = [](const Point& a, const Point& b) { return a.x < b.x; };
    fit.x_min = std::min_element(points.begin(), points.end(), by_x)->x;
    fit.x_max = std::max_element(points.begin(), points.end(), by_x)->x;
    if (fit.x_min == fit.x_max) {
        return Refusal{"points that all share one x", "at least two different x", "measure at a second temperature or time", {}};
    }
    double y_mean = 0;
    for (const Point& p : points) {
        fit.x_mean += p.x / n;
        y_mean += p.y / n;
    }
    const Sums sums = centred_sums(points, fit.x_mean, y_mean);
    fit.sxx = sums.xx;
    fit.slope = sums.xy / sums.xx;
    fit.intercept = y_mean - fit.slope * fit.x_mean;
    double residual_squares = 0;
    for (const Point& p : points) {
        const double residual = (p.y - y_mean) - fit.slope * (p.x - fit.x_mean);
        residual_squares += residual * residual;
    }
    fit.r_squared = sums.yy > 0 ? 1 - residual_squares / sums.yy : 1;
    if (fit.n > 2) {
        fit.residual_sd = std::sqrt(residual_squares / (n - 2));
        fit.slope_se = fit.residual_sd / std::sqrt(fit.sxx);
        fit.intercept_se = fit.residual_sd * std::sqrt(1 / n + fit.x_mean * fit.x_mean / fit.sxx);
    }
    return fit;
}

std::optional<Interval> LineFit::slope_limits(double confidence) const { return around(slope, slope_se, n, confidence); }

std::optional<Interval> LineFit::mean_limits(double x, double confidence) const {
    const double leverage = 1 / static_cast<double>(n) + (x - x_mean) * (x - x_mean) / sxx;
    return around(at(x), residual_sd * std::sqrt(leverage), n, confidence);
}

std::optional<Interval> LineFit::prediction_limits(double x, double confidence) const {
    const double leverage = 1 / static_cast<double>(n) + (x - x_mean) * (x - x_mean) / sxx;
    return around(at(x), residual_sd * std::sqrt(1 + leverage), n, confidence);
}

}  // namespace peelbook::calc
