#include <cmath>
#include <stdexcept>

#include "calc/capability.h"
#include "calc/chart.h"
#include "calc/cooldown.h"
#include "calc/curve_fit.h"
#include "calc/distribution.h"
#include "calc/line_fit.h"
#include "calc/reference_operations.h"
#include "calc/run_rules.h"
#include "calc/summary.h"
#include "calc/trend.h"

using namespace peelbook;
using namespace peelbook::calc;

namespace reference {
namespace {

std::optional<double> if_given(const Inputs& in, const std::string& name) {
    if (!in.has(name)) return std::nullopt;
    return in.number(name);
}

std::vector<Point> points_of(const Inputs& in) {
    std::vector<Point> points;
    for (const auto& [x, y] : in.number_pairs("points")) points.push_back({x, y});
    return points;
}

Answers cooldown(const Inputs& in) {
    std::vector<CoreReading> readings;
    for (const auto& [minute, temperature] : in.number_pairs("readings")) readings.push_back({minute, temperature});
    const auto fit = fit_cooldown(readings, if_given(in, "room"));
    if (!fit) return refused(fit.refusal().given);
    const auto arrival = predict_arrival(*fit, in.number("target"));
    if (!arrival) return refused(arrival.refusal().given);
    Answers out{{"k", fit->rate_per_min},    {"fitted_room", fit->room},   {"start", fit->start},
                {"minute", arrival->minute}, {"sd", fit->fit.residual_sd}, {"k_se", fit->fit.standard_errors[1]}};
    out["earliest"] = arrival->earliest ? Answer(*arrival->earliest) : Answer("none");
    out["latest"] = arrival->latest ? Answer(*arrival->latest) : Answer("none");
    return out;
}

Answers chart_answers(const Result<ControlChart>& chart) {
    if (!chart) return refused(chart.refusal().given);
    return {{"mean", chart->value_limits.centre},
            {"lower", chart->value_limits.lower},
            {"upper", chart->value_limits.upper},
            {"range_mean", chart->range_limits.centre},
            {"range_lower", chart->range_limits.lower},
            {"range_upper", chart->range_limits.upper},
            {"sigma", chart->sigma}};
}

Answers individuals(const Inputs& in) { return chart_answers(individuals_chart(in.numbers("values"))); }

Answers xbar(const Inputs& in) {
    const auto size = static_cast<std::size_t>(in.number("subgroup"));
    std::vector<std::vector<double>> groups;
    const auto values = in.numbers("values");
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (i % size == 0) groups.emplace_back();
        groups.back().push_back(values[i]);
    }
    return chart_answers(xbar_chart(groups));
}

Answers rules(const Inputs& in) {
    const auto set = in.text("rules") == "nelson" ? RuleSet::nelson : RuleSet::western_electric;
    const auto signals = run_signals(in.numbers("values"), in.number("centre"), in.number("sigma"), set);
    Answers out{{"signals", static_cast<double>(signals.size())}};
    out["alarm"] = signals.empty() ? "none" : std::string(rule_text(signals.front().rule));
    if (!signals.empty()) out["at_point"] = static_cast<double>(signals.front().last + 1);
    return out;
}

Answers capable(const Inputs& in) {
    CapabilityQuestion question;
    question.mean = in.number("mean");
    question.sd = in.number("sd");
    question.lower = if_given(in, "lower");
    question.upper = if_given(in, "upper");
    if (in.has("n")) question.n = static_cast<std::size_t>(in.number("n"));
    const auto found = capability(question);
    if (!found) return refused(found.refusal().given);
    Answers out{{"cpk", found->cpk}};
    out["cp"] = found->cp ? Answer(*found->cp) : Answer("none");
    if (found->cp_limits) out["cp_lower"] = found->cp_limits->lower, out["cp_upper"] = found->cp_limits->upper;
    if (found->cpk_limits) out["cpk_lower"] = found->cpk_limits->lower, out["cpk_upper"] = found->cpk_limits->upper;
    return out;
}

Answers line(const Inputs& in) {
    const auto fit = fit_line(points_of(in));
    if (!fit) return refused(fit.refusal().given);
    Answers out{{"intercept", fit->intercept},       {"slope", fit->slope},
                {"intercept_se", fit->intercept_se}, {"slope_se", fit->slope_se},
                {"residual_sd", fit->residual_sd},   {"r_squared", fit->r_squared}};
    if (in.has("at")) {
        const auto limits = fit->prediction_limits(in.number("at"), 0.95);
        if (limits) out["prediction_lower"] = limits->lower, out["prediction_upper"] = limits->upper;
    }
    return out;
}

// y = b1 (1 - exp(-b2 x))
Answers saturating_curve(const Inputs& in) {
    const Curve curve = [](std::span<const double> p, double x, std::span<double> gradient) {
        const double left = std::exp(-p[1] * x);
        gradient[0] = 1 - left;
        gradient[1] = p[0] * x * left;
        return p[0] * (1 - left);
    };
    const auto fit = fit_curve(points_of(in), in.numbers("start"), curve);
    if (!fit) return refused(fit.refusal().given);
    return {{"b1", fit->parameters[0]},         {"b2", fit->parameters[1]},        {"b1_se", fit->standard_errors[0]},
            {"b2_se", fit->standard_errors[1]}, {"residual_sd", fit->residual_sd}, {"residual_squares", fit->residual_squares}};
}

Answers trending(const Inputs& in) {
    const auto trend = trend_towards(points_of(in), if_given(in, "lower"), if_given(in, "upper"));
    if (!trend) return refused(trend.refusal().given);
    Answers out{{"slope", trend->line.slope}, {"real", trend->real ? "yes" : "no"}};
    if (trend->slope_limits) {
        out["slope_lower"] = trend->slope_limits->lower;
        out["slope_upper"] = trend->slope_limits->upper;
    }
    out["reaches_at"] = trend->reaches_at ? Answer(*trend->reaches_at) : Answer("none");
    out["early_at"] = trend->early_at ? Answer(*trend->early_at) : Answer("none");
    return out;
}

Answers mean_and_spread(const Inputs& in) {
    const Summary s = summarise(in.numbers("values"));
    Answers out{{"mean", s.mean}};
    if (s.sd) out["sd"] = *s.sd;
    return out;
}

Answers quantile(const Inputs& in) {
    const std::string of = in.text("of");
    const double share = in.number("share");
    if (of == "normal") return {{"value", normal_quantile(share)}};
    if (of == "t") return {{"value", student_t_quantile(share, in.number("df"))}};
    if (of == "chi_square") return {{"value", chi_square_quantile(share, in.number("df"))}};
    throw std::runtime_error("'" + of + "' is none of normal, t, chi_square");
}

}  // namespace

const std::map<std::string, Operation>& statistics_operations() {
    static const std::map<std::string, Operation> operations = {
        {"cooldown", cooldown},
        {"individuals", individuals},
        {"xbar", xbar},
        {"rules", rules},
        {"capability", capable},
        {"line", line},
        {"curve", saturating_curve},
        {"trend", trending},
        {"summary", mean_and_spread},
        {"quantile", quantile},
    };
    return operations;
}

}  // namespace reference
