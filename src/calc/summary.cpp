#include "calc/summary.h"

#include <algorithm>
#include <cmath>

namespace peelbook::calc {

Summary summarise(const std::vector<double>& values) {
    Summary s;
    s.n = values.size();
    if (values.empty()) return s;
    const double n = static_cast<double>(s.n);
    // The mean of the differences from the first value keeps digits that a plain sum of large values would
    // lose.
    double shift = 0;
    for (double v : values) shift += (v - values.front()) / n;
    s.mean = values.front() + shift;
    s.smallest = *std::min_element(values.begin(), values.end());
    s.largest = *std::max_element(values.begin(), values.end());
    if (s.n < 2) return s;
    double squares = 0;
    for (double v : values) {
        const double off = (v - values.front()) - shift;
        squares += off * off;
    }
    s.sd = std::sqrt(squares / (n - 1));
    return s;
}

}  // namespace peelbook::calc
