// Control charts as temporary tables for reports.
#include "site/report/chart_tables.h"

#include "base/told_table.h"
#include "fold/ledger.h"
#include "site/ask/control_chart.h"

namespace peelbook::site {
namespace {

// What a row tells of that stands for none.
const ChartAnswer empty_answer{};
const ChartGroup empty_group = [] {
    ChartGroup group;
    group.chart.emplace();
    return group;
}();
const ChartValue empty_value{};

struct GroupRow {
    const ChartAnswer* answer = &empty_answer;
    const ChartGroup* group = &empty_group;
};

struct ValueRow : GroupRow {
    std::int64_t number = 0;  // within its point
    const ChartValue* value = &empty_value;
};

struct NoteRow {
    std::string point, group, note;
};

void tell_group(TableRow& row, const GroupRow& one) {
    const ChartAnswer& of = *one.answer;
    const ChartGroup& group = *one.group;
    const auto& limits = group.chart->value_limits;
    row("point", of.point)("grp", group.name)("what", of.what)("unit", of.unit)("n", group.values.size());
    row("centre", limits.centre)("lower", limits.lower)("upper", limits.upper)("sigma", group.chart->sigma);
    row("mean", group.mean)("sd", group.sd)("least", of.least)("most", of.most);
    const auto of_capability = [&](const auto& value) { return group.capability ? cell_of(value(*group.capability)) : Cell{}; };
    row("cp", of_capability([](const auto& c) { return c.cp; }))("cpk", of_capability([](const auto& c) { return c.cpk; }));
    const auto within = group.capability ? group.capability->cpk_limits : std::nullopt;
    row("cpk_lower", within ? cell_of(within->lower) : Cell{})("cpk_upper", within ? cell_of(within->upper) : Cell{});
}

void tell_value(TableRow& row, const ValueRow& one) {
    const ChartAnswer& of = *one.answer;
    const ChartValue& value = *one.value;
    const auto& [lower, centre, upper] = one.group->chart->value_limits;
    const auto& spread = one.group->chart->range_limits;
    row("point", of.point)("what", of.what)("grp", one.group->name)("n", one.number)("label", value.label)("taken", value.at);
    row("value", value.value)("unit", of.unit)("centre", centre)("lower", lower)("upper", upper);
    row("spread", value.range)("spread_centre", spread.centre)("spread_upper", spread.upper)("signal", value.signal);
}

void tell_note(TableRow& row, const NoteRow& one) { row("point", one.point)("grp", one.group)("note", one.note); }

}  // namespace

std::vector<std::pair<std::string, Table>> chart_tables(fold::Ledger& ledger, Instant from, Instant until) {
    std::vector<ChartAnswer> answers;
    const auto governing = ledger.plan_at(until - Duration{1});
    for (const auto& point : governing.plan->points) {
        if (!point.chart) continue;
        auto answer = control_chart(ledger, {point.id, "", {ChartBy::unit}, from, until, false, calc::RuleSet::western_electric});
        if (answer) answers.push_back(*std::move(answer));
    }
    std::vector<ValueRow> values;
    std::vector<GroupRow> groups;
    std::vector<NoteRow> notes;
    for (const auto& answer : answers) {
        std::int64_t number = 0;
        if (answer.judged_otherwise > 0) notes.push_back({answer.point, "", left_out_text(answer)});
        for (const auto& group : answer.groups) {
            if (!group.chart) continue;
            groups.push_back({&answer, &group});
            for (const auto& value : group.values) values.push_back({{&answer, &group}, ++number, &value});
            for (const auto& note : group.notes) notes.push_back({answer.point, group.name, note});
        }
    }
    return {{"chart_value", table_of(values, tell_value)},
            {"chart_group", table_of(groups, tell_group)},
            {"chart_note", table_of(notes, tell_note)}};
}

}  // namespace peelbook::site
