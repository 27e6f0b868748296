#pragma once
// z and D from a table of D-values: least squares of log10 D on temperature, z = -1 / slope, with confidence
// limits.
// The limits of z are those of the slope turned over; when the slope's limits include zero, z has no upper
// limit (absent).
// Three D-values leave one degree of freedom: the limits are then very wide, and that is the truth.
// Units: any one temperature unit, minutes. Valid inside the measured temperatures only; use them as the
// studied range.
// Source: Bigelow's model; the method of the D-value papers cited in tests/calc/reference.txt.
#include <optional>
#include <vector>

#include "base/result.h"
#include "calc/line_fit.h"

namespace peelbook::calc {

struct DValue {
    double temperature = 0;
    double minutes = 0;  // for one log, above 0
};

struct DzFit {
    double z = 0;
    std::optional<double> z_lower, z_upper;  // absent with two D-values, or when unbounded
    double studied_from = 0, studied_to = 0;
    LineFit line;  // log10(D in minutes) against temperature

    double d_at(double temperature) const;
    // Limits of the line; absent with two D-values.
    std::optional<Interval> d_limits(double temperature, double confidence) const;
};

// Refuses: fewer than two D-values, a D not above 0, one temperature only, D that does not fall with
// temperature.
Result<DzFit> fit_dz(const std::vector<DValue>& table, double confidence = 0.95);

}  // namespace peelbook::calc
