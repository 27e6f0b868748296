#pragma once
// Quantiles of the distributions that confidence limits need. Own code, so that the program depends on no
// numeric library:
//   Student t and F   through the regularised incomplete beta function (continued fraction, modified Lentz)
//   chi-square        through the regularised incomplete gamma function (series below a + 1, continued
//                     fraction above)
//   normal            through the complementary error function of the standard library
// Quantiles invert these by bisection. Checked against SciPy to nine digits in tests/calc/reference.txt.
// Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.5.8 and 6.5.29 to 6.5.31 (from
// memory).

namespace peelbook::calc {

struct Interval {
    double lower = 0;
    double upper = 0;
};

// Share of the distribution at or below the value. `df`: degrees of freedom, above 0.
double normal_share(double z);
double student_t_share(double t, double df);
double chi_square_share(double x, double df);

// The value that `share` of the distribution lies at or below; 0 < share < 1.
double normal_quantile(double share);
double student_t_quantile(double share, double df);
double chi_square_quantile(double share, double df);

// Half-width factor of a two-sided interval: student_t_two_sided(0.95, 10) = 2.228.
double student_t_two_sided(double confidence, double df);

}  // namespace peelbook::calc
