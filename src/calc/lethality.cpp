#include "calc/lethality.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "calc/number_text.h"

namespace peelbook::calc {
namespace {

Check check_food(const HeatResistance& food) {
    if (!(food.z > 0) || !std::isfinite(food.z)) {
        return Refusal{"z of " + number_text(food.z), "a z-value above 0", "take z from the study of the food", {}};
    }
    if (!(food.d_ref_min > 0) || !std::isfinite(food.d_ref_min)) {
        return Refusal{"D of " + number_text(food.d_ref_min) + " min",
                       "a D-value above 0",
                       "take D at the reference temperature from the study of the food",
                       {}};
    }
    if (food.cap_log && !(*food.cap_log > 0)) {
        return Refusal{"a cap of " + number_text(*food.cap_log) + " log", "a cap above 0", "give the log reduction that was validated", {}};
    }
    if (food.studied_from && food.studied_to && *food.studied_from > *food.studied_to) {
        return Refusal{"a studied range from " + number_text(*food.studied_from) + " to " + number_text(*food.studied_to),
                       "a range from the lower to the higher temperature",
                       "swap the two",
                       {}};
    }
    return {};
}

Check check_readings(const std::vector<CoreReading>& readings) {
    if (readings.size() < 2) {
        return Refusal{std::to_string(readings.size()) + " core reading(s)", "two or more: lethality needs a time", "add readings", {}};
    }
    for (std::size_t i = 0; i < readings.size(); ++i) {
        if (!std::isfinite(readings[i].minute) || !std::isfinite(readings[i].temperature)) {
            return Refusal{
                "core reading " + std::to_string(i + 1) + " that is not a number", "finite numbers", "correct or leave out that row", {}};
        }
        if (i > 0 && readings[i].minute <= readings[i - 1].minute) {
            return Refusal{"core reading " + std::to_string(i + 1) + " at minute " + number_text(readings[i].minute),
                           "times in ascending order (the one before is at " + number_text(readings[i - 1].minute) + ")",
                           "put the readings in order of time",
                           {}};
        }
    }
    return {};
}

double verdict_rate(const HeatResistance& food, double temperature) {
    if (food.studied_from && temperature < *food.studied_from) return 0;
    const double used = food.studied_to ? std::min(temperature, *food.studied_to) : temperature;
    return lethal_rate(used, food.t_ref, food.z);
}

}  // namespace

double lethal_rate(double temperature, double t_ref, double z) { return std::pow(10.0, (temperature - t_ref) / z); }

Result<Lethality> lethality(const HeatResistance& food, const std::vector<CoreReading>& readings) {
    if (auto checked = check_food(food); !checked) return checked.refusal();
    if (auto checked = check_readings(readings); !checked) return checked.refusal();
    Lethality sum;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const double here = readings[i].temperature;
        sum.below_studied = sum.below_studied || (food.studied_from && here < *food.studied_from);
        sum.above_studied = sum.above_studied || (food.studied_to && here > *food.studied_to);
        if (i == 0) continue;
        const double before = readings[i - 1].temperature;
        const double minutes = readings[i].minute - readings[i - 1].minute;
        if (food.longest_gap_min && minutes > *food.longest_gap_min) {
            ++sum.gaps;
            sum.gaps_min += minutes;
            sum.f_upper_min = std::numeric_limits<double>::infinity();
            continue;
        }
        sum.f_trapezoid_min += minutes * (lethal_rate(before, food.t_ref, food.z) + lethal_rate(here, food.t_ref, food.z)) / 2;
        sum.f_lower_min += minutes * verdict_rate(food, std::min(before, here));
        sum.f_upper_min += minutes * lethal_rate(std::max(before, here), food.t_ref, food.z);
    }
    sum.log_trapezoid = sum.f_trapezoid_min / food.d_ref_min;
    sum.log_lower = sum.f_lower_min / food.d_ref_min;
    sum.log_upper = sum.f_upper_min / food.d_ref_min;
    sum.capped = food.cap_log && sum.log_lower >= *food.cap_log;
    sum.log_reduction = sum.capped ? *food.cap_log : sum.log_lower;
    return sum;
}

}  // namespace peelbook::calc
