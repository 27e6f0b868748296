#pragma once
// Control charts: individuals with moving range, and subgroup means with ranges.
//   individuals: centre +- 3 MRbar / d2(2) = +- 2.66 MRbar;  moving range: upper D4(2) MRbar = 3.267 MRbar
//   X-bar and R: centre +- A2 Rbar;  range: D3 Rbar to D4 Rbar;  sigma = Rbar / d2
// A control limit describes the process. A critical limit is absolute and is never judged by a control limit.
// Constants: the printed three-decimal table (ISO 7870-2, from memory; read in the imathas.libretexts.org
// table), so that results agree with hand work; printed tables differ by 0.001 from exact values (checked in
// tests/calc/chart_test.cpp).
#include <vector>

#include "base/result.h"

namespace peelbook::calc {

struct ControlConstants {
    double d2 = 0, d3 = 0, a2 = 0, lower_range = 0, upper_range = 0;  // the last two are D3 and D4
};

// For subgroups of 2 to 10; refused outside.
Result<ControlConstants> control_constants(int subgroup_size);

struct ControlLimits {
    double lower = 0, centre = 0, upper = 0;
};

struct ControlChart {
    std::vector<double> values;  // individuals, or means of the subgroups
    std::vector<double> ranges;  // moving ranges, or ranges of the subgroups
    ControlLimits value_limits, range_limits;
    double sigma = 0;        // of a single measurement, from the ranges
    double value_sigma = 0;  // of a plotted value: a third of the way from the centre to a limit
};

// Refuses fewer than 2 values, and what is not a number.
Result<ControlChart> individuals_chart(const std::vector<double>& values);
// Refuses fewer than 2 subgroups, subgroups of unequal size or outside 2 to 10, and what is not a number.
Result<ControlChart> xbar_chart(const std::vector<std::vector<double>>& subgroups);

}  // namespace peelbook::calc
