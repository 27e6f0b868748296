#include "calc/distribution.h"

#include <cassert>
#include <cmath>
#include <functional>

namespace peelbook::calc {
namespace {

constexpr int most_terms = 10'000;
constexpr double enough = 1e-16;
constexpr double tiny = 1e-300;

double not_zero(double v) { return std::fabs(v) < tiny ? tiny : v; }

double beta_fraction(double a, double b, double x) {
    double c = 1;
    double d = 1 / not_zero(1 - (a + b) * x / (a + 1));
    double value = d;
    for (int m = 1; m <= most_terms; ++m) {
        const double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
        d = 1 / not_zero(1 + even * d);
        c = not_zero(1 + even / c);
        value *= d * c;
        const double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
        d = 1 / not_zero(1 + odd * d);
        c = not_zero(1 + odd / c);
        value *= d * c;
        if (std::fabs(d * c - 1) < enough) break;
    }
    return value;
}

// Regularised incomplete beta function I_x(a, b).
double incomplete_beta(double a, double b, double x) {
    if (x <= 0) return 0;
    if (x >= 1) return 1;
    const double front = std::exp(std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b) + a * std::log(x) + b * std::log1p(-x));
    if (x < (a + 1) / (a + b + 2)) return front * beta_fraction(a, b, x) / a;
    return 1 - front * beta_fraction(b, a, 1 - x) / b;
}

// Regularised lower incomplete gamma function P(a, x).
double incomplete_gamma(double a, double x) {
    if (x <= 0) return 0;
    const double front = std::exp(a * std::log(x) - x - std::lgamma(a));
    if (x < a + 1) {
        double term = 1 / a, sum = term;
        for (int n = 1; n <= most_terms && std::fabs(term) > std::fabs(sum) * enough; ++n) {
            term *= x / (a + n);
            sum += term;
        }
        return front * sum;
    }
    double b = x + 1 - a, c = 1 / tiny, d = 1 / not_zero(b), value = d;
    for (int n = 1; n <= most_terms; ++n) {
        const double step = -n * (n - a);
        b += 2;
        d = 1 / not_zero(step * d + b);
        c = not_zero(b + step / c);
        value *= d * c;
        if (std::fabs(d * c - 1) < enough) break;
    }
    return 1 - front * value;
}

// The x between low and high at which a rising function reaches `share`; high is doubled until it is beyond.
double invert(const std::function<double(double)>& rising, double share, double low, double high) {
    while (rising(high) < share) high *= 2;
    for (int i = 0; i < 200 && high - low > 1e-15 * std::fabs(high); ++i) {
        const double middle = low + (high - low) / 2;
        (rising(middle) < share ? low : high) = middle;
    }
    return low + (high - low) / 2;
}

}  // namespace

double normal_share(double z) { return std::erfc(-z / std::sqrt(2.0)) / 2; }

double student_t_share(double t, double df) {
    assert(df > 0);
    const double tail = incomplete_beta(df / 2, 0.5, df / (df + t * t)) / 2;
    return t > 0 ? 1 - tail : tail;
}

double chi_square_share(double x, double df) {
    assert(df > 0);
    return incomplete_gamma(df / 2, x / 2);
}

double normal_quantile(double share) {
    assert(share > 0 && share < 1);
    if (share < 0.5) return -normal_quantile(1 - share);
    return invert(normal_share, share, 0, 1);
}

double student_t_quantile(double share, double df) {
    assert(share > 0 && share < 1);
    if (share < 0.5) return -student_t_quantile(1 - share, df);
    return invert([df](double t) { return student_t_share(t, df); }, share, 0, 1);
}

double chi_square_quantile(double share, double df) {
    assert(share > 0 && share < 1);
    return invert([df](double x) { return chi_square_share(x, df); }, share, 0, df);
}

double student_t_two_sided(double confidence, double df) { return student_t_quantile(0.5 + confidence / 2, df); }

}  // namespace peelbook::calc
