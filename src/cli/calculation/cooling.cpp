#include "calc/cooling.h"

#include "base/text.h"
#include "cli/calculation/rule.h"
#include "cli/calculation/series.h"
#include "cli/calculation/text.h"
#include "judge/cooling_scale.h"
#include "judge/cooling_words.h"
#include "judge/verdict.h"

namespace peelbook::cli {
namespace {

using calc::StageVerdict;

struct CalcCoolingGiven {
    std::string file, rule, values_in;
    std::optional<Measure> tolerance;
    bool ended = false, json = false;
};

void set_up(Options& options, CalcCoolingGiven& given) {
    options.text(given.file, "--series", "FILE", "core temperatures: a time and a temperature a line", Need::wanted)
        .text(given.rule, "--rule", "RULE", joined(cooling_rule_names(), ", ") + ", or your own as 57C:21C/2h,5C/6h", Need::wanted)
        .temperature(given.tolerance, "--tolerance", "of the thermometer, a difference (0.5C): a rise within it is none")
        .flag(given.ended, "--ended", "no reading is to come: what is open cannot be shown any more")
        .text(given.values_in, "--unit-of-values", "UNIT", "C or F; else the heading's, else that of the rule");
    add_json(options, given.json);
}

std::string verdict_word(StageVerdict verdict) {
    switch (verdict) {
        case StageVerdict::within:
            return std::string(judge::word(judge::Verdict::within));
        case StageVerdict::unproven:
            return std::string(judge::word(judge::Verdict::unproven));
        case StageVerdict::deviation:
            return std::string(judge::word(judge::Verdict::deviation));
        case StageVerdict::open:
            break;
    }
    return "open";
}

struct Cooling {
    CoolingRuleSource rule;
    Series series;
    std::vector<judge::ReadingFact> facts;
    std::vector<const judge::ReadingFact*> readings;  // of `facts`
    calc::CoolingResult result;
};

Check judge_series(Cooling& cooling, const CalcCoolingGiven& given) {
    for (const SeriesPoint& point : cooling.series.points) {
        judge::ReadingFact fact;
        fact.at = point.at;
        fact.value = point.value;
        fact.tolerance = given.tolerance;
        cooling.facts.push_back(fact);
    }
    for (const judge::ReadingFact& fact : cooling.facts) cooling.readings.push_back(&fact);
    judge::ScaledCooling scaled = judge::scaled(cooling.rule.limit, cooling.readings);
    if (auto checked = calc::check(scaled.rule); !checked) return checked;
    calc::CoolingInput input;
    input.readings = std::move(scaled.readings);
    input.tolerance = scaled.tolerance;
    input.scatter = scaled.scatter;
    if (!cooling.rule.limit.starts_at.empty()) input.started = cooling.facts.front().at;
    if (given.ended) input.ended = cooling.facts.back().at;
    cooling.result = calc::judge_cooling(scaled.rule, input);
    return {};
}

std::string bounds_text(const calc::StageResult& stage) {
    if (!stage.start.by) return "not started";
    const std::string least = "at least " + to_text(stage.shortest);
    if (!stage.end.by) return least + ", not reached";
    return least + (stage.longest ? ", at most " + to_text(*stage.longest) : ", no upper bound");
}

std::string crossing_text(const Series& series, const calc::Crossing& crossing) {
    if (!crossing.after && !crossing.by) return "not on record";
    if (!crossing.by) return "after " + series.time_text(*crossing.after);
    if (!crossing.after) return "before " + series.time_text(*crossing.by);
    if (*crossing.after == *crossing.by) return series.time_text(*crossing.by);
    return series.time_text(*crossing.after) + " to " + series.time_text(*crossing.by);
}

std::string working_text(const Cooling& cooling) {
    const plan::CoolingLimit& limit = cooling.rule.limit;
    Table table{{"stage", "limit", "clock starts", "target crossed", "took", "verdict"}, {}};
    for (std::size_t i = 0; i < limit.stages.size(); ++i) {
        const calc::StageResult& stage = cooling.result.stages[i];
        const bool previous = limit.each_from_previous && i > 0;
        const std::string from = previous                  ? plan::to_text(limit.stages[i - 1].to)
                                 : limit.starts_at.empty() ? plan::to_text(limit.from)
                                                           : limit.starts_at;
        table.rows.push_back({from + " to " + plan::to_text(limit.stages[i].to), to_text(limit.stages[i].within),
                              crossing_text(cooling.series, stage.start), crossing_text(cooling.series, stage.end), bounds_text(stage),
                              verdict_word(stage.verdict)});
    }
    std::string text = working_table(table) + "\n" + std::string(judge::cooling_assumption) +
                       " A threshold is crossed after the last reading above it\nand not later than the first at or "
                       "below it; the longest time that allows must be within the limit.\n\n";
    Table readings{{"time", "core"}, {}};
    for (const SeriesPoint& point : cooling.series.points)
        readings.rows.push_back({cooling.series.time_text(point.at), to_text(point.value)});
    return text + working_table(readings);
}

output::Json stages_json(const Cooling& cooling) {
    const auto minutes_of = [](Duration d) { return static_cast<double>(d.ms) / 60'000; };
    auto list = output::Json::array();
    for (std::size_t i = 0; i < cooling.result.stages.size(); ++i) {
        const calc::StageResult& stage = cooling.result.stages[i];
        const auto& limit = cooling.rule.limit.stages[i];
        auto json = output::Json::object();
        json.set("to_c", in(limit.to.first, Unit::celsius))
            .set("within_min", minutes_of(limit.within))
            .set("verdict", verdict_word(stage.verdict))
            .set("shortest_min", minutes_of(stage.shortest))
            .set("longest_min", stage.longest ? output::Json(minutes_of(*stage.longest)) : output::Json())
            .set("prove_by", stage.prove_by ? output::Json(cooling.series.time_text(*stage.prove_by)) : output::Json());
        list.add(std::move(json));
    }
    return list;
}

Result<Exit> act(Context& context, const CalcCoolingGiven& given) {
    if (given.tolerance && given.tolerance->typed_micro < 0)
        return Refusal{"--tolerance " + to_text(*given.tolerance), "a difference of 0 or more", "leave the sign out", {}};
    const auto rule = cooling_rule(given.rule);
    if (!rule) return rule.refusal();
    const auto series = read_series_file(context, given.file, given.values_in, rule->limit.stages.front().to.first.unit);
    if (!series) return series.refusal();
    Cooling cooling{*rule, *series, {}, {}, {}};
    if (auto checked = judge_series(cooling, given); !checked) return checked.refusal();
    const judge::CoolingStory story{cooling.rule.limit, cooling.readings, cooling.result};
    const bool contradicts = !cooling.result.shown() && cooling.result.worst() == StageVerdict::within;
    const StageVerdict worst = contradicts ? StageVerdict::unproven : cooling.result.worst();
    CalcAnswer answer;
    answer.answer = verdict_word(worst) + ": " + story.measured();
    if (!story.contradiction().empty()) answer.mind.push_back(story.contradiction() + ".");
    if (!story.next().empty()) answer.mind.push_back("To show it: " + story.next() + ".");
    if (series->unit_from.starts_with("not"))
        answer.mind.push_back("The unit of the values is " + series->unit_from + ": " + std::string(symbol(series->unit)) + ".");
    answer.working = working_text(cooling);
    answer.source = {rule->source};
    answer.judges_safety = true;
    answer.json.set("verdict", verdict_word(worst)).set("stages", stages_json(cooling));
    answer.json.set("readings", series->points.size());
    print(context, answer, given.json);
    const bool bad = worst == StageVerdict::deviation || worst == StageVerdict::unproven;
    return bad ? Exit::not_within : Exit::done;
}

}  // namespace

extern const Command calc_cooling_command;
const Command calc_cooling_command{
    .name = "calc cooling",
    .group = Group::calculation,
    .about = "Judge a cooling by a staged rule, from the readings alone.",
    .more =
        "A line of the file is a time (minutes or a clock) and a temperature: 12.5;93.4 or 05:40;93.4.\n"
        "Own rules: FROM:TO/TIME,TO/TIME. Each time counts from the start; with '+', from the stage before.\n"
        "Exit code 1: a deviation, or the readings do not prove it.",
    .examples =
        "peelbook calc cooling --series tray-1.csv --rule us-two-stage\n"
        "peelbook calc cooling --series tray-1.csv --rule 60C:21C/2h,5C/+4h --ended",
    .takes_at = false,
    .body = body<CalcCoolingGiven, set_up, act>()};

}  // namespace peelbook::cli
