#include "calc/curve_fit.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

namespace peelbook::calc {
namespace {

using Numbers = std::vector<double>;

// Solves a x = b for a small matrix, row by row, with partial pivoting. Absent: singular.
std::optional<Numbers> solve(Numbers a, Numbers b) {
    const std::size_t p = b.size();
    for (std::size_t col = 0; col < p; ++col) {
        std::size_t pivot = col;
        for (std::size_t row = col + 1; row < p; ++row) {
            if (std::fabs(a[row * p + col]) > std::fabs(a[pivot * p + col])) pivot = row;
        }
        if (!(std::fabs(a[pivot * p + col]) > 0)) return std::nullopt;
        std::swap(b[col], b[pivot]);
        for (std::size_t k = 0; k < p; ++k) std::swap(a[col * p + k], a[pivot * p + k]);
        for (std::size_t row = col + 1; row < p; ++row) {
            const double factor = a[row * p + col] / a[col * p + col];
            for (std::size_t k = col; k < p; ++k) a[row * p + k] -= factor * a[col * p + k];
            b[row] -= factor * b[col];
        }
    }
    for (std::size_t row = p; row-- > 0;) {
        for (std::size_t k = row + 1; k < p; ++k) b[row] -= a[row * p + k] * b[k];
        b[row] /= a[row * p + row];
    }
    return b;
}

struct Normal {
    Numbers jtj, jtr;
    double squares = 0;
};

Normal normal_equations(const std::vector<Point>& points, const Numbers& parameters, const Curve& curve) {
    const std::size_t p = parameters.size();
    Normal out{Numbers(p * p), Numbers(p), 0};
    Numbers gradient(p);
    for (const Point& point : points) {
        const double residual = point.y - curve(parameters, point.x, gradient);
        out.squares += residual * residual;
        for (std::size_t i = 0; i < p; ++i) {
            out.jtr[i] += gradient[i] * residual;
            for (std::size_t k = 0; k < p; ++k) out.jtj[i * p + k] += gradient[i] * gradient[k];
        }
    }
    return out;
}

Numbers column_lengths(const Normal& normal) {
    const std::size_t p = normal.jtr.size();
    Numbers lengths(p);
    for (std::size_t i = 0; i < p; ++i) lengths[i] = std::sqrt(normal.jtj[i * p + i]);
    return lengths;
}

// Solves (J'J + damping D^2) x = right in units in which D is one, so that parameters of any size fare alike.
std::optional<Numbers> scaled_solve(const Numbers& jtj, const Numbers& right, const Numbers& d, double damping) {
    const std::size_t p = right.size();
    Numbers a(p * p), b(p);
    for (std::size_t i = 0; i < p; ++i) {
        if (!(d[i] > 0)) return std::nullopt;
        b[i] = right[i] / d[i];
        for (std::size_t k = 0; k < p; ++k) a[i * p + k] = jtj[i * p + k] / d[i] / d[k];
        a[i * p + i] += damping;
    }
    auto x = solve(std::move(a), std::move(b));
    if (!x) return std::nullopt;
    for (std::size_t i = 0; i < p; ++i) (*x)[i] /= d[i];
    return x;
}

// The longest step in units of its parameter.
double relative_length(const Numbers& parameters, const Numbers& step) {
    double longest = 0;
    for (std::size_t i = 0; i < step.size(); ++i) {
        longest = std::max(longest, std::fabs(step[i]) / std::max(std::fabs(parameters[i]), 1e-30));
    }
    return longest;
}

Numbers sum(Numbers a, const Numbers& b) {
    for (std::size_t i = 0; i < a.size(); ++i) a[i] += b[i];
    return a;
}

// By how much the straightened curve says that the step lowers the sum of squares.
double promised_gain(const Normal& here, const Numbers& step, const Numbers& d, double damping) {
    double gain = 0;
    for (std::size_t i = 0; i < step.size(); ++i) {
        gain += step[i] * (here.jtr[i] + damping * d[i] * d[i] * step[i]);
    }
    return gain;
}

// Walks downhill. The damping follows the ratio of the gain to the promised one (Nielsen 1999). Each
// parameter's step is held by the longest column it ever had (More 1978), or one that has ceased to matter
// would run away. False: no usable gradient.
bool descend(const std::vector<Point>& points, const Curve& curve, Numbers& parameters, Normal& here) {
    Numbers longest = column_lengths(here);
    double damping = 1, raise = 2;
    for (int round = 0; round < 1000 && damping < 1e12; ++round) {
        const auto step = scaled_solve(here.jtj, here.jtr, longest, damping);
        if (!step) return false;
        Numbers next = sum(parameters, *step);
        Normal there = normal_equations(points, next, curve);
        const double gain = (here.squares - there.squares) / promised_gain(here, *step, longest, damping);
        if (std::isfinite(there.squares) && gain > 0) {
            parameters = std::move(next);
            here = std::move(there);
            const Numbers lengths = column_lengths(here);
            for (std::size_t i = 0; i < lengths.size(); ++i) longest[i] = std::max(longest[i], lengths[i]);
            damping *= std::max(1.0 / 3, 1 - std::pow(2 * gain - 1, 3));
            raise = 2;
        } else {
            damping *= raise;
            raise *= 2;
        }
        if (relative_length(parameters, *step) < 1e-13) break;
    }
    return true;
}

// Last digits: undamped steps for as long as they get shorter. Rounding in the sum of squares hides them from
// descend().
void polish(const std::vector<Point>& points, const Curve& curve, Numbers& parameters, Normal& here) {
    double before = 1e-4;
    for (int round = 0; round < 20; ++round) {
        const auto step = scaled_solve(here.jtj, here.jtr, column_lengths(here), 0);
        if (!step || !(relative_length(parameters, *step) < before)) return;
        before = relative_length(parameters, *step);
        parameters = sum(parameters, *step);
        here = normal_equations(points, parameters, curve);
    }
}

void add_errors(CurveFit& fit, const Normal& normal) {
    const std::size_t p = fit.parameters.size();
    fit.residual_sd = std::sqrt(fit.residual_squares / fit.degrees_of_freedom);
    for (std::size_t i = 0; i < p; ++i) {
        Numbers unit(p);
        unit[i] = 1;
        const auto column = scaled_solve(normal.jtj, unit, column_lengths(normal), 0);
        if (!column) return;
        for (std::size_t k = 0; k < p; ++k) {
            fit.covariance[k * p + i] = (*column)[k] * fit.residual_sd * fit.residual_sd;
        }
        fit.standard_errors[i] = std::sqrt(fit.covariance[i * p + i]);
    }
}

}  // namespace

double CurveFit::curve_se(std::span<const double> gradient) const {
    const std::size_t p = parameters.size();
    double variance = 0;
    for (std::size_t i = 0; i < p; ++i) {
        for (std::size_t k = 0; k < p; ++k) variance += gradient[i] * covariance[i * p + k] * gradient[k];
    }
    return std::sqrt(std::max(variance, 0.0));
}

Result<CurveFit> fit_curve(const std::vector<Point>& points, std::vector<double> start, const Curve& curve) {
    const std::size_t p = start.size();
    if (points.size() < p) {
        return Refusal{std::to_string(points.size()) + " point(s) for a curve of " + std::to_string(p) + " parameters",
                       "at least as many points as parameters",
                       "add measurements",
                       {}};
    }
    CurveFit fit;
    fit.parameters = std::move(start);
    Normal normal = normal_equations(points, fit.parameters, curve);
    if (!std::isfinite(normal.squares) || !descend(points, curve, fit.parameters, normal)) {
        return Refusal{"points that the curve cannot be fitted to",
                       "points that follow the curve",
                       "check the readings for a wrong time or a wrong value",
                       {}};
    }
    polish(points, curve, fit.parameters, normal);
    fit.residual_squares = normal.squares;
    fit.degrees_of_freedom = static_cast<int>(points.size() - p);
    fit.standard_errors.assign(p, 0);
    fit.covariance.assign(p * p, 0);
    if (fit.degrees_of_freedom > 0) add_errors(fit, normal);
    return fit;
}

}  // namespace peelbook::calc
