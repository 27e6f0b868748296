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

// Each parameter in units of its own column length, so that the matrix has ones on its diagonal.
std::optional<Numbers> scaled_solve(const Numbers& jtj, const Numbers& right, double damping) {
    const std::size_t p = right.size();
    Numbers scale(p), a(p * p), b(p);
    for (std::size_t i = 0; i < p; ++i) {
        if (!(jtj[i * p + i] > 0)) return std::nullopt;
        scale[i] = 1 / std::sqrt(jtj[i * p + i]);
    }
    for (std::size_t i = 0; i < p; ++i) {
        b[i] = right[i] * scale[i];
        for (std::size_t k = 0; k < p; ++k) a[i * p + k] = jtj[i * p + k] * scale[i] * scale[k];
        a[i * p + i] += damping;
    }
    auto x = solve(std::move(a), std::move(b));
    if (!x) return std::nullopt;
    for (std::size_t i = 0; i < p; ++i) (*x)[i] *= scale[i];
    return x;
}

bool settled(const Numbers& parameters, const Numbers& step) {
    for (std::size_t i = 0; i < step.size(); ++i) {
        if (std::fabs(step[i]) > 1e-13 * std::max(std::fabs(parameters[i]), 1e-30)) return false;
    }
    return true;
}

// Walks downhill until no step improves the fit. False: the curve gave no usable gradient.
bool descend(const std::vector<Point>& points, const Curve& curve, Numbers& parameters, Normal& here) {
    double damping = 1e-3;
    for (int round = 0; round < 500; ++round) {
        const auto step = scaled_solve(here.jtj, here.jtr, damping);
        if (!step) return false;
        Numbers next = parameters;
        for (std::size_t i = 0; i < next.size(); ++i) next[i] += (*step)[i];
        Normal there = normal_equations(points, next, curve);
        const bool better = std::isfinite(there.squares) && there.squares <= here.squares;
        if (better) {
            parameters = std::move(next);
            here = std::move(there);
            damping = std::max(damping / 10, 1e-20);
        }
        if (settled(parameters, *step)) return true;
        if (!better) damping *= 10;
        if (damping > 1e12) return true;
    }
    return true;
}

void add_errors(CurveFit& fit, const Normal& normal) {
    const std::size_t p = fit.parameters.size();
    fit.residual_sd = std::sqrt(fit.residual_squares / fit.degrees_of_freedom);
    for (std::size_t i = 0; i < p; ++i) {
        Numbers unit(p);
        unit[i] = 1;
        const auto column = scaled_solve(normal.jtj, unit, 0);
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
                       "at least as many points as parameters", "add measurements", {}};
    }
    CurveFit fit;
    fit.parameters = std::move(start);
    Normal normal = normal_equations(points, fit.parameters, curve);
    if (!std::isfinite(normal.squares) || !descend(points, curve, fit.parameters, normal)) {
        return Refusal{"points that the curve cannot be fitted to", "points that follow the curve",
                       "check the readings for a wrong time or a wrong value", {}};
    }
    fit.residual_squares = normal.squares;
    fit.degrees_of_freedom = static_cast<int>(points.size() - p);
    fit.standard_errors.assign(p, 0);
    fit.covariance.assign(p * p, 0);
    if (fit.degrees_of_freedom > 0) add_errors(fit, normal);
    return fit;
}

}  // namespace peelbook::calc
