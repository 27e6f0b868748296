#include <algorithm>
#include <cmath>
#include <ostream>

#include "base/text.h"
#include "cli/calculation/text.h"
#include "cli/frame/command.h"
#include "output/text_table.h"
#include "site/ask/control_chart.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Json;

struct ChartGiven {
    std::string point, product, week, kind = "individuals", rules = "western-electric";
    std::optional<Date> from, until;
    std::vector<std::string> by;
    Asking asking;
};

void set_up(Options& options, ChartGiven& given) {
    options.word(given.point, "POINT", "the control point, as the plan names it")
        .text(given.product, "--product", "ITEM", "only this product or material; else each for itself")
        .list(given.by, "--by", "what is told apart besides: unit (oven, deck, rack), instrument, person")
        .text(given.week, "--week", "WEEK", "the week: 2026-W47")
        .date(given.from, "--from", "the first day; else four weeks before --until")
        .date(given.until, "--until", "the last day; else today")
        .one_of(given.kind, "--as", {"individuals", "xbar"},
                "each reading for itself, or the readings of a lot as a subgroup; else individuals")
        .one_of(given.rules, "--rules", {"western-electric", "nelson"}, "which signals are looked for, else western-electric");
    add_asking(options, given.asking);
}

struct Period {
    Instant from, until;
};

Result<Period> period_of(const Context& context, const site::Site& site, const ChartGiven& given) {
    const Zone& zone = site.zone();
    constexpr int usual_days = 28;
    if (!given.week.empty()) {
        if (given.from || given.until)
            return Refusal{"--week with --from or --until", "one way to say which time", "leave one of them out", {}};
        const auto week = parse_iso_week(given.week);
        if (!week) return week.refusal();
        const auto [from, until] = site.span_of_week(*week);
        return Period{from, until};
    }
    const Date last = given.until.value_or(zone.to_local(context.clock.now()).date);
    const Date first = given.from.value_or(add_days(last, 1 - usual_days));
    if (last < first)
        return Refusal{"from " + to_text(first) + " to " + to_text(last), "a first day not after the last one", "exchange them", {}};
    return Period{zone.day_start(first, 0, 0), zone.day_start(add_days(last, 1), 0, 0)};
}

Result<std::vector<site::ChartBy>> told_apart(const std::vector<std::string>& words) {
    std::vector<site::ChartBy> by;
    const std::vector<std::string> known{"unit", "oven", "instrument", "person"};
    for (const std::string& word : words) {
        if (word == "product") continue;  // always told apart
        if (word == "unit" || word == "oven")
            by.push_back(site::ChartBy::unit);
        else if (word == "instrument")
            by.push_back(site::ChartBy::instrument);
        else if (word == "person")
            by.push_back(site::ChartBy::person);
        else
            return Refusal{"--by: '" + shown(word) + "'", "unit, instrument or person", "choose one or more, with ',' between",
                           nearest(word, known)};
    }
    return by;
}

std::string interval_text(const std::optional<calc::Interval>& limits) {
    return limits ? " (95 %: " + number(limits->lower, 2) + " to " + number(limits->upper, 2) + ")" : "";
}

std::string lines_text(const site::ChartGroup& group, const std::string& unit, bool xbar) {
    if (!group.chart) return "  fewer than two values: no chart\n";
    const auto& values = group.chart->value_limits;
    const auto& ranges = group.chart->range_limits;
    std::string text = "  centre " + number(values.centre, 3) + unit + ", control lines " + number(values.lower, 3) + " to " +
                       number(values.upper, 3) + unit + "; " + (xbar ? "mean range " : "mean moving range ") + number(ranges.centre, 3) +
                       ", its upper line " + number(ranges.upper, 3) + "\n";
    if (xbar) text += "  subgroups of " + std::to_string(group.subgroup) + " readings of a lot";
    if (xbar && group.left_out > 0) text += "; " + std::to_string(group.left_out) + " lots with another number left out";
    return xbar ? text + "\n" : text;
}

std::string capability_text(const site::ChartGroup& group) {
    if (!group.capability) return "";
    std::string text = "  ";
    if (group.capability->cp) text += "Cp " + number(*group.capability->cp, 2) + interval_text(group.capability->cp_limits) + ", ";
    return text + "Cpk " + number(group.capability->cpk, 2) + interval_text(group.capability->cpk_limits) + ", mean " +
           number(group.mean, 3) + ", sd " + number(group.sd, 3) + "\n";
}

void print_text(std::ostream& out, const site::ChartAnswer& answer, const Zone& zone, const Period& period, bool xbar) {
    out << answer.point_name << ", " << to_text(zone.to_local(period.from).date) << " to "
        << to_text(zone.to_local(period.until - Duration{1}).date) << ", limit " << answer.limit_text << '\n';
    out << "charted: " << answer.what << '\n';
    if (answer.judged_otherwise > 0) out << site::left_out_text(answer) << '\n';
    if (answer.groups.empty()) out << "nothing to chart in this time\n";
    for (const auto& group : answer.groups) {
        out << '\n'
            << (group.name.empty() ? answer.point : group.name) << ": " << group.values.size() << " values\n"
            << lines_text(group, answer.unit, xbar) << capability_text(group);
        for (const auto& note : group.notes) out << "  note: " << note << '\n';
        Table table{{"lot or time", xbar ? "mean" : "value", xbar ? "range" : "moving range", "signal"}, {}};
        for (const auto& value : group.values) {
            table.rows.push_back(
                {value.label, number(value.value, 3), value.range ? number(*value.range, 3) : std::string(), value.signal});
        }
        if (group.chart) out << working_table(table);
    }
    out << '\n' << site::chart_caution << '\n' << caution << '\n';
}

void set(Json& json, std::string_view key, const std::optional<double>& value) {
    if (value) json.set(std::string(key), *value);
}

Json group_json(const site::ChartGroup& group, const Zone& zone) {
    auto json = Json::object();
    json.set("group", group.name)
        .set("product", group.product)
        .set("unit", group.unit)
        .set("instrument", group.instrument)
        .set("person", group.person);
    json.set("values", group.values.size()).set("left_out", group.left_out).set("subgroup", group.subgroup);
    if (group.chart) {
        const auto& chart = *group.chart;
        json.set("mean", chart.value_limits.centre).set("lower", chart.value_limits.lower).set("upper", chart.value_limits.upper);
        json.set("range_mean", chart.range_limits.centre)
            .set("range_lower", chart.range_limits.lower)
            .set("range_upper", chart.range_limits.upper);
        json.set("sigma", chart.sigma).set("sd", group.sd);
    }
    if (group.capability) {
        set(json, "cp", group.capability->cp);
        json.set("cpk", group.capability->cpk);
        if (group.capability->cp_limits)
            json.set("cp_lower", group.capability->cp_limits->lower).set("cp_upper", group.capability->cp_limits->upper);
        if (group.capability->cpk_limits)
            json.set("cpk_lower", group.capability->cpk_limits->lower).set("cpk_upper", group.capability->cpk_limits->upper);
    }
    if (group.trend) {
        json.set("slope_per_day", group.trend->line.slope).set("trend_real", group.trend->real);
        set(json, "reaches_limit_after_days", group.trend->reaches_at);
    }
    auto signals = Json::array();
    for (const auto& signal : group.signals)
        signals.add(Json::object()
                        .set("first", group.values[signal.first].label)
                        .set("last", group.values[signal.last].label)
                        .set("rule", calc::rule_text(signal.rule)));
    auto points = Json::array();
    for (const auto& value : group.values) {
        auto point = Json::object();
        point.set("label", value.label).set("at", to_iso(zone, value.at)).set("value", value.value);
        set(point, "range", value.range);
        points.add(std::move(point));
    }
    return json.set("signals", std::move(signals)).set("notes", group.notes).set("points", std::move(points));
}

Json answer_json(const site::ChartAnswer& answer, const Zone& zone, const Period& period) {
    auto groups = Json::array();
    for (const auto& group : answer.groups) groups.add(group_json(group, zone));
    auto json = Json::object();
    json.set("point", answer.point)
        .set("charted", answer.what)
        .set("values_in", answer.unit)
        .set("judged_otherwise", answer.judged_otherwise)
        .set("limit", answer.limit_text)
        .set("critical", answer.critical);
    set(json, "least", answer.least);
    set(json, "most", answer.most);
    json.set("from", to_iso(zone, period.from)).set("until", to_iso(zone, period.until)).set("groups", std::move(groups));
    return json.set("mind", std::string(site::chart_caution)).set("caution", caution);
}

Result<Exit> act(Context& context, const ChartGiven& given) {
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const auto period = period_of(context, **site, given);
    if (!period) return period.refusal();
    const auto by = told_apart(given.by);
    if (!by) return by.refusal();
    const bool xbar = given.kind == "xbar";
    const auto rules = given.rules == "nelson" ? calc::RuleSet::nelson : calc::RuleSet::western_electric;
    const auto answer = (*site)->chart({given.point, given.product, *by, period->from, period->until, xbar, rules});
    if (!answer) return answer.refusal();
    if (given.asking.json)
        context.out << answer_json(*answer, (*site)->zone(), *period).text() << '\n';
    else
        print_text(context.out, *answer, (*site)->zone(), *period, xbar);
    return Exit::done;
}

}  // namespace

extern const Command chart_command;
const Command chart_command{.name = "chart",
                            .group = Group::quality,
                            .about = "Control charts of a point: centre, control lines, signals, capability, trend.",
                            .more =
                                "Each product has a chart of its own; --by tells ovens, instruments or people apart too.\n"
                                "A time between two events and a loss have one too: of each batch the figure that was judged.\n"
                                "A signal is a note for quality, never a verdict.",
                            .examples =
                                "peelbook chart bake-core --week 2026-W47 --by unit\n"
                                "peelbook chart dough-temperature --product pan-loaf --from 2026-11-01 --until 2026-11-30 --rules "
                                "nelson\n"
                                "peelbook chart proof-time --week 2026-W47",
                            .takes_at = false,
                            .body = body<ChartGiven, set_up, act>()};

}  // namespace peelbook::cli
