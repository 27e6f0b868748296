#pragma once
// Nonlinear least squares for a curve of one to four parameters: Levenberg-Marquardt on the scaled normal
// equations.
//   step: (J'J + lambda diag(J'J)) d = J'r; covariance = s^2 (J'J)^-1 at the solution, s^2 = RSS / (n - p).
// Source: Marquardt, SIAM J. Appl. Math. 11 (1963) 431-441 (from memory); checked against NIST StRD "Misra1a"
// and "BoxBOD".
#include <functional>
#include <span>
#include <vector>

#include "base/result.h"
#include "calc/line_fit.h"

namespace peelbook::calc {

// The curve's value at x, and its derivative by each parameter written into `gradient`.
using Curve = std::function<double(std::span<const double> parameters, double x, std::span<double> gradient)>;

struct CurveFit {
    std::vector<double> parameters;
    std::vector<double> standard_errors;  // all 0 without degrees of freedom
    std::vector<double> covariance;       // row by row; all 0 without degrees of freedom
    double residual_squares = 0;
    double residual_sd = 0;  // 0 without degrees of freedom
    int degrees_of_freedom = 0;

    // Standard error of the curve itself where its gradient is `gradient`.
    double curve_se(std::span<const double> gradient) const;
};

// Refuses: fewer points than parameters, and a start from which no minimum is found.
Result<CurveFit> fit_curve(const std::vector<Point>& points, std::vector<double> start, const Curve& curve);

}  // namespace peelbook::calc
