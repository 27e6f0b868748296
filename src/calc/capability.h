#pragma once
// Process capability against specification limits, with confidence limits.
//   Cp = (USL - LSL) / 6 s;   Cpk = min(USL - mean, mean - LSL) / 3 s
//   limits of Cp:  Cp sqrt(chi2(a/2, n-1) / (n-1)) to Cp sqrt(chi2(1-a/2, n-1) / (n-1))
//   limits of Cpk: Cpk +- z sqrt(1 / (9 n) + Cpk^2 / (2 (n - 1)))   (normal approximation)
// Assumes a stable, normally distributed process: look at the chart first. A capability is no verdict on a
// critical limit.
// Source: NIST/SEMATECH e-Handbook 7.1.6 (from memory). Any one unit.
#include <cstddef>
#include <optional>

#include "base/result.h"
#include "calc/distribution.h"

namespace peelbook::calc {

struct CapabilityQuestion {
    double mean = 0;
    double sd = 0;                       // above 0
    std::optional<std::size_t> n;        // absent or below 2: no confidence limits
    std::optional<double> lower, upper;  // specification limits; at least one
    double confidence = 0.95;
};

struct Capability {
    std::optional<double> cp;  // absent with one limit only
    double cpk = 0;            // negative when the mean lies outside
    std::optional<Interval> cp_limits, cpk_limits;
};

// Refuses: no limit, lower not below upper, sd not above 0, confidence outside 0 to 1.
Result<Capability> capability(const CapabilityQuestion& question);

}  // namespace peelbook::calc
