#include "calc/chart.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "calc/summary.h"

namespace peelbook::calc {
namespace {

constexpr int smallest_subgroup = 2, largest_subgroup = 10;
constexpr ControlConstants printed_table[] = {
    {1.128, 0.853, 1.880, 0, 3.267},     {1.693, 0.888, 1.023, 0, 2.574},     {2.059, 0.880, 0.729, 0, 2.282},
    {2.326, 0.864, 0.577, 0, 2.114},     {2.534, 0.848, 0.483, 0, 2.004},     {2.704, 0.833, 0.419, 0.076, 1.924},
    {2.847, 0.820, 0.373, 0.136, 1.864}, {2.970, 0.808, 0.337, 0.184, 1.816}, {3.078, 0.797, 0.308, 0.223, 1.777},
};

Check check_numbers(const std::vector<double>& values) {
    for (double v : values) {
        if (!std::isfinite(v)) {
            return Refusal{"a value that is not a number", "finite numbers", "correct or leave out that row", {}};
        }
    }
    return {};
}

ControlChart with_limits(std::vector<double> values, std::vector<double> ranges, const ControlConstants& k, double value_factor) {
    ControlChart chart;
    const double centre = summarise(values).mean;
    const double range = summarise(ranges).mean;
    chart.value_limits = {centre - value_factor * range, centre, centre + value_factor * range};
    chart.range_limits = {k.lower_range * range, range, k.upper_range * range};
    chart.sigma = range / k.d2;
    chart.value_sigma = value_factor * range / 3;
    chart.values = std::move(values);
    chart.ranges = std::move(ranges);
    return chart;
}

}  // namespace

Result<ControlConstants> control_constants(int subgroup_size) {
    if (subgroup_size < smallest_subgroup || subgroup_size > largest_subgroup) {
        return Refusal{"subgroups of " + std::to_string(subgroup_size),
                       "subgroups of 2 to 10",
                       subgroup_size < smallest_subgroup ? "use the individuals chart" : "take smaller subgroups",
                       {}};
    }
    return printed_table[subgroup_size - smallest_subgroup];
}

Result<ControlChart> individuals_chart(const std::vector<double>& values) {
    if (values.size() < 2) {
        return Refusal{
            std::to_string(values.size()) + " value(s)", "two or more; twenty make a chart worth reading", "add measurements", {}};
    }
    if (auto checked = check_numbers(values); !checked) return checked.refusal();
    std::vector<double> ranges;
    for (std::size_t i = 1; i < values.size(); ++i) ranges.push_back(std::fabs(values[i] - values[i - 1]));
    const ControlConstants& pair = printed_table[0];
    return with_limits(values, std::move(ranges), pair, 3 / pair.d2);
}

Result<ControlChart> xbar_chart(const std::vector<std::vector<double>>& subgroups) {
    if (subgroups.size() < 2) {
        return Refusal{std::to_string(subgroups.size()) + " subgroup(s)", "two or more", "add subgroups", {}};
    }
    const auto constants = control_constants(static_cast<int>(subgroups.front().size()));
    if (!constants) return constants.refusal();
    std::vector<double> means, ranges;
    for (std::size_t i = 0; i < subgroups.size(); ++i) {
        const auto& group = subgroups[i];
        if (group.size() != subgroups.front().size()) {
            return Refusal{"subgroup " + std::to_string(i + 1) + " with " + std::to_string(group.size()) + " values",
                           std::to_string(subgroups.front().size()) + " values in every subgroup",
                           "leave that subgroup out, or use the individuals chart",
                           {}};
        }
        if (auto checked = check_numbers(group); !checked) return checked.refusal();
        const Summary summary = summarise(group);
        means.push_back(summary.mean);
        ranges.push_back(summary.largest - summary.smallest);
    }
    return with_limits(std::move(means), std::move(ranges), *constants, constants->a2);
}

}  // namespace peelbook::calc
