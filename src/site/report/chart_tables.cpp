// Control charts as temporary tables for reports.
#include "site/ask/control_chart.h"

namespace peelbook::site {
namespace {

Cell maybe(const std::optional<double>& number) {
    return number ? Cell{*number} : Cell{};
}

struct Tables {
    Table values{{"point", "what", "grp", "n", "label", "taken", "value", "unit", "centre", "lower", "upper",
                  "spread", "spread_centre", "spread_upper", "signal"},
                 {}};
    Table groups{{"point", "grp", "what", "unit", "n", "centre", "lower", "upper", "sigma", "mean", "sd", "least",
                  "most", "cp", "cpk", "cpk_lower", "cpk_upper"},
                 {}};
    Table notes{{"point", "grp", "note"}, {}};

    void add(const ChartAnswer& answer);
};

void Tables::add(const ChartAnswer& answer) {
    std::int64_t number = 0;
    if (answer.judged_otherwise > 0) notes.rows.push_back({answer.point, "", left_out_text(answer)});
    for (const auto& group : answer.groups) {
        if (!group.chart) continue;
        const auto& chart = *group.chart;
        for (const auto& value : group.values) {
            values.rows.push_back({answer.point, answer.what, group.name, ++number, value.label, value.at.ms, value.value,
                                   answer.unit, chart.value_limits.centre, chart.value_limits.lower,
                                   chart.value_limits.upper, maybe(value.range), chart.range_limits.centre,
                                   chart.range_limits.upper, value.signal});
        }
        std::optional<double> cp, cpk, cpk_lower, cpk_upper;
        if (group.capability) {
            cp = group.capability->cp;
            cpk = group.capability->cpk;
            if (group.capability->cpk_limits) {
                cpk_lower = group.capability->cpk_limits->lower;
                cpk_upper = group.capability->cpk_limits->upper;
            }
        }
        groups.rows.push_back({answer.point, group.name, answer.what, answer.unit,
                               static_cast<std::int64_t>(group.values.size()), chart.value_limits.centre,
                               chart.value_limits.lower, chart.value_limits.upper, chart.sigma, group.mean,
                               group.sd, maybe(answer.least), maybe(answer.most), maybe(cp), maybe(cpk),
                               maybe(cpk_lower), maybe(cpk_upper)});
        for (const auto& note : group.notes) notes.rows.push_back({answer.point, group.name, note});
    }
}

}  // namespace

std::vector<std::pair<std::string, Table>> chart_tables(fold::Ledger& ledger, Instant from, Instant until) {
    Tables tables;
    const auto governing = ledger.plan_at(until - Duration{1});
    for (const auto& point : governing.plan->points) {
        if (!point.chart) continue;
        const auto answer = control_chart(
            ledger, {point.id, "", {ChartBy::unit}, from, until, false, calc::RuleSet::western_electric});
        if (answer) tables.add(*answer);
    }
    return {{"chart_value", std::move(tables.values)},
            {"chart_group", std::move(tables.groups)},
            {"chart_note", std::move(tables.notes)}};
}

}  // namespace peelbook::site
