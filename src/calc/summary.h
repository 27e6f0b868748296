#pragma once
// Mean and spread of repeated measurements: mixer friction learned from logged batches, yields, weights.
//   sd = sqrt(sum (x - mean)^2 / (n - 1))
// Assumes independent values of one process. Source: any statistics text (from memory); two passes, so that
// large values with a small spread lose nothing (NIST StRD "NumAcc3").
#include <cstddef>
#include <optional>
#include <vector>

namespace peelbook::calc {

struct Summary {
    std::size_t n = 0;
    double mean = 0;           // 0 when n is 0
    std::optional<double> sd;  // absent below two values
    double smallest = 0, largest = 0;
};

Summary summarise(const std::vector<double>& values);

}  // namespace peelbook::calc
