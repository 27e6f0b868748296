#include "calc/chart.h"

#include "base/text.h"
#include "calc/run_rules.h"
#include "cli/calculation/text.h"
#include "cli/calculation/values.h"

namespace peelbook::cli {
namespace {

struct CalcChartGiven {
    std::string kind, file, rules = "western-electric";
    bool json = false;
};

void set_up(Options& options, CalcChartGiven& given) {
    options
        .one_of(given.kind, "KIND", {"individuals", "xbar"}, "individuals: one value a line; xbar: a line a subgroup of 2 to 10 values",
                Need::wanted)
        .word(given.file, "FILE", "the values, in the order in which they were measured")
        .one_of(given.rules, "--rules", {"western-electric", "nelson"}, "which signals are looked for, else western-electric");
    add_json(options, given.json);
}

struct Charted {
    bool xbar = false;
    std::size_t subgroup = 2;
    calc::ControlChart chart;
    std::vector<calc::RunSignal> signals;
    std::vector<std::size_t> wide;  // points whose range lies outside its limits
};

Result<Charted> chart_of(const Context& context, const CalcChartGiven& given) {
    Charted charted;
    charted.xbar = given.kind == "xbar";
    Result<calc::ControlChart> chart = Refusal{};
    if (charted.xbar) {
        const auto subgroups = read_subgroups(context, given.file);
        if (!subgroups) return subgroups.refusal();
        charted.subgroup = subgroups->front().size();
        chart = calc::xbar_chart(*subgroups);
    } else {
        const auto values = read_values(context, given.file);
        if (!values) return values.refusal();
        chart = calc::individuals_chart(*values);
    }
    if (!chart) return chart.refusal();
    charted.chart = *chart;
    const auto rules = given.rules == "nelson" ? calc::RuleSet::nelson : calc::RuleSet::western_electric;
    charted.signals = calc::run_signals(chart->values, chart->value_limits.centre, chart->value_sigma, rules);
    for (std::size_t i = 0; i < chart->ranges.size(); ++i) {
        const double range = chart->ranges[i];
        if (range > chart->range_limits.upper || range < chart->range_limits.lower) charted.wide.push_back(charted.xbar ? i + 1 : i + 2);
    }
    return charted;
}

std::string signal_text(const calc::RunSignal& signal) {
    const std::string last = std::to_string(signal.last + 1);
    return (signal.first == signal.last ? "point " + last : "points " + std::to_string(signal.first + 1) + " to " + last) + ": " +
           std::string(calc::rule_text(signal.rule));
}

std::string answer_text(const Charted& charted) {
    const calc::ControlLimits& limits = charted.chart.value_limits;
    const std::size_t signals = charted.signals.size() + charted.wide.size();
    return "mean " + number(limits.centre, 4) + ", control limits " + number(limits.lower, 4) + " to " + number(limits.upper, 4) + ", " +
           (signals == 0 ? "no signal" : std::to_string(signals) + (signals == 1 ? " signal" : " signals"));
}

std::string formula_text(const Charted& charted) {
    const calc::ControlLimits& values = charted.chart.value_limits;
    const calc::ControlLimits& ranges = charted.chart.range_limits;
    const auto constants = calc::control_constants(static_cast<int>(charted.subgroup));
    const std::string mean_range = number(ranges.centre, 4);
    const std::string a_range = charted.xbar ? "mean range" : "mean moving range";
    const std::string width = charted.xbar ? "A2 x " + a_range + " = " + number(constants ? constants->a2 : 0, 3) + " x " + mean_range
                                           : "3 / d2 x " + a_range + " = 3 / 1.128 x " + mean_range;
    return a_range + " " + mean_range + "; limits = mean +- " + width + " = " + number(values.centre, 4) + " +- " +
           number(values.upper - values.centre, 4) + "\n" + "limits of the range " + number(ranges.lower, 4) + " to " +
           number(ranges.upper, 4) + "; sigma of one measurement " + number(charted.chart.sigma, 4) + "\n\n";
}

std::string points_text(const Charted& charted) {
    Table table{{"point", charted.xbar ? "mean" : "value", charted.xbar ? "range" : "moving range"}, {}};
    for (std::size_t i = 0; i < charted.chart.values.size(); ++i) {
        std::string range;
        if (charted.xbar) range = number(charted.chart.ranges[i], 4);
        if (!charted.xbar && i > 0) range = number(charted.chart.ranges[i - 1], 4);
        table.rows.push_back({static_cast<std::int64_t>(i + 1), number(charted.chart.values[i], 4), range});
    }
    return working_table(table);
}

std::vector<std::string> mind_of(const Charted& charted) {
    std::vector<std::string> mind;
    for (const calc::RunSignal& signal : charted.signals) mind.push_back(signal_text(signal));
    for (const std::size_t point : charted.wide)
        mind.push_back("point " + std::to_string(point) + ": its range lies outside the limits of the range");
    mind.push_back("Control limits describe the process; a critical limit is never judged by them.");
    return mind;
}

output::Json json_of(const Charted& charted) {
    const calc::ControlChart& chart = charted.chart;
    auto signals = output::Json::array();
    for (const calc::RunSignal& signal : charted.signals)
        signals.add(output::Json::object()
                        .set("first_point", signal.first + 1)
                        .set("last_point", signal.last + 1)
                        .set("rule", calc::rule_text(signal.rule)));
    auto json = output::Json::object();
    json.set("mean", chart.value_limits.centre)
        .set("lower", chart.value_limits.lower)
        .set("upper", chart.value_limits.upper)
        .set("range_mean", chart.range_limits.centre)
        .set("range_lower", chart.range_limits.lower)
        .set("range_upper", chart.range_limits.upper)
        .set("sigma", chart.sigma)
        .set("points", chart.values.size())
        .set("signals", std::move(signals))
        .set("ranges_outside", output::Json(charted.wide));
    return json;
}

Result<Exit> act(Context& context, const CalcChartGiven& given) {
    const auto charted = chart_of(context, given);
    if (!charted) return charted.refusal();
    CalcAnswer answer;
    answer.answer = answer_text(*charted);
    answer.mind = mind_of(*charted);
    answer.working = formula_text(*charted) + points_text(*charted);
    answer.source = {
        "Control charts with the printed constants d2, A2, D3, D4 (ISO 7870-2, from memory; read in a public "
        "statistics text).",
        given.rules == "nelson" ? "Signals: Nelson's eight rules, 1984 (read in public documentation)."
                                : "Signals: the four Western Electric rules (read in public documentation)."};
    answer.json = json_of(*charted);
    print(context, answer, given.json);
    return Exit::done;
}

}  // namespace

extern const Command calc_chart_command;
const Command calc_chart_command{.name = "calc chart",
                                 .group = Group::calculation,
                                 .about = "Control limits and signals of a series of values.",
                                 .more =
                                     "individuals reads one value a line, alone or behind a label and a ';' or tab.\n"
                                     "xbar reads a subgroup a line, values parted by ';', tab, ',' or blanks.",
                                 .examples =
                                     "peelbook calc chart individuals loaf-weights.csv\n"
                                     "peelbook calc chart xbar hourly-weights.csv --rules nelson",
                                 .takes_at = false,
                                 .body = body<CalcChartGiven, set_up, act>()};

}  // namespace peelbook::cli
