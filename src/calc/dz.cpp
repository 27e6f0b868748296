#include "calc/dz.h"

#include <cmath>

#include "calc/number_text.h"

namespace peelbook::calc {

double DzFit::d_at(double temperature) const { return std::pow(10.0, line.at(temperature)); }

std::optional<Interval> DzFit::d_limits(double temperature, double confidence) const {
    const auto limits = line.mean_limits(temperature, confidence);
    if (!limits) return std::nullopt;
    return Interval{std::pow(10.0, limits->lower), std::pow(10.0, limits->upper)};
}

Result<DzFit> fit_dz(const std::vector<DValue>& table, double confidence) {
    std::vector<Point> points;
    for (const DValue& d : table) {
        if (!(d.minutes > 0)) {
            return Refusal{"a D-value of " + number_text(d.minutes) + " min at " + number_text(d.temperature),
                           "D-values above 0",
                           "correct or leave out that row",
                           {}};
        }
        points.push_back({d.temperature, std::log10(d.minutes)});
    }
    auto line = fit_line(points);
    if (!line) return line.refusal();
    if (line->slope >= 0) {
        return Refusal{"D-values that do not fall as the temperature rises",
                       "heat that kills faster when hotter",
                       "check the columns: temperature first, then minutes",
                       {}};
    }
    DzFit fit;
    fit.line = *line;
    fit.z = -1 / line->slope;
    fit.studied_from = line->x_min;
    fit.studied_to = line->x_max;
    if (const auto slope = line->slope_limits(confidence)) {
        fit.z_lower = -1 / slope->lower;
        if (slope->upper < 0) fit.z_upper = -1 / slope->upper;
    }
    return fit;
}

}  // namespace peelbook::calc
