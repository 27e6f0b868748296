#include "calc/capability.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "calc/number_text.h"

namespace peelbook::calc {
namespace {

Check check_question(const CapabilityQuestion& q) {
    if (!q.lower && !q.upper) {
        return Refusal{"no specification limit", "a lower or an upper limit", "give at least one", {}};
    }
    if (q.lower && q.upper && !(*q.lower < *q.upper)) {
        return Refusal{"limits of " + number_text(*q.lower) + " to " + number_text(*q.upper),
                       "a lower limit below the upper",
                       "swap or correct them",
                       {}};
    }
    if (!(q.sd > 0) || !std::isfinite(q.sd) || !std::isfinite(q.mean)) {
        return Refusal{"a mean of " + number_text(q.mean) + " with a standard deviation of " + number_text(q.sd),
                       "a spread above 0",
                       "add measurements, or read the instrument to more digits",
                       {}};
    }
    if (!(q.confidence > 0 && q.confidence < 1)) {
        return Refusal{"a confidence of " + number_text(q.confidence), "between 0 and 1, such as 0.95", "correct it", {}};
    }
    return {};
}

}  // namespace

Result<Capability> capability(const CapabilityQuestion& q) {
    if (auto checked = check_question(q); !checked) return checked.refusal();
    Capability out;
    out.cpk = std::numeric_limits<double>::infinity();
    if (q.upper) out.cpk = std::min(out.cpk, (*q.upper - q.mean) / (3 * q.sd));
    if (q.lower) out.cpk = std::min(out.cpk, (q.mean - *q.lower) / (3 * q.sd));
    if (q.lower && q.upper) out.cp = (*q.upper - *q.lower) / (6 * q.sd);
    if (!q.n || *q.n < 2) return out;

    const double n = static_cast<double>(*q.n);
    const double tail = (1 - q.confidence) / 2;
    if (out.cp) {
        out.cp_limits = Interval{*out.cp * std::sqrt(chi_square_quantile(tail, n - 1) / (n - 1)),
                                 *out.cp * std::sqrt(chi_square_quantile(1 - tail, n - 1) / (n - 1))};
    }
    const double half = normal_quantile(1 - tail) * std::sqrt(1 / (9 * n) + out.cpk * out.cpk / (2 * (n - 1)));
    out.cpk_limits = Interval{out.cpk - half, out.cpk + half};
    return out;
}

}  // namespace peelbook::calc
