#include "cli/frame/height.h"

#include "base/measure.h"
#include "base/text.h"
#include "cli/calculation/text.h"

namespace peelbook::cli {
namespace {

constexpr double metres_a_foot = 0.3048;

}  // namespace

Result<double> height_metres(const std::string& option, const std::string& typed) {
    const std::string text = lowered(trimmed(typed));
    const bool below = text.starts_with('-');
    std::string rest = below ? text.substr(1) : text;
    const bool feet = rest.ends_with("ft");
    if (feet) rest = rest.substr(0, rest.size() - 2) + "m";
    const auto length = parse_measure(rest, Dimension::length);
    if (!length) return Refusal{option + ": '" + shown(typed) + "'", "a height with its unit, ft or m", "type it like 5000ft or 1600m", {}};
    const double metres = in(*length, Unit::metre) * (feet ? metres_a_foot : 1);
    return below ? -metres : metres;
}

}  // namespace peelbook::cli
