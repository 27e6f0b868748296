#include "calc/lethality.h"

#include <algorithm>

#include "base/text.h"
#include "cli/calculation/series.h"
#include "cli/calculation/text.h"

namespace peelbook::cli {
namespace {

struct CalcLethalityGiven {
    std::string file, values_in, studied;
    std::optional<Measure> t_ref, z;
    Duration d;
    std::optional<double> cap;
    bool json = false;
};

void set_up(Options& options, CalcLethalityGiven& given) {
    options.text(given.file, "--series", "FILE", "core temperatures: a time and a temperature a line", Need::wanted);
    add_temperature(options, given.t_ref, "--tref", "the temperature that D holds for");
    add_temperature(options, given.z, "--z", "z, a temperature difference: 5.56C is 10F, whichever scale the rest is in");
    const auto take_d = [&given](const std::vector<std::string>& typed) -> Check {
        const auto d = parse_duration(typed.front());
        if (!d) return d.refusal();
        given.d = *d;
        return {};
    };
    options.row({"--d", "TIME", "at --tref for one log, as 1.85min", true, false, take_d});
    add_number(options, given.cap, "--cap", "the log reduction that was validated: above it, at least so many");
    options.text(given.studied, "--studied", "FROM:TO", "the temperatures that D and z were measured at, as 55C:61C")
        .text(given.values_in, "--unit-of-values", "UNIT", "C or F; else the heading's, else that of --tref");
    add_json(options, given.json);
}

Check take_studied(const std::string& typed, Unit unit, calc::HeatResistance& food) {
    if (typed.empty()) return {};
    const auto ends = split(typed, ':');
    const Refusal refusal{"--studied: '" + shown(typed) + "'", "two temperatures with a ':' between", "type it like 55C:61C", {}};
    if (ends.size() != 2) return refusal;
    const auto from = parse_measure(ends[0], Dimension::temperature);
    const auto to = parse_measure(ends[1], Dimension::temperature);
    if (!from || !to) return refusal;
    food.studied_from = in(*from, unit);
    food.studied_to = in(*to, unit);
    return {};
}

struct Question {
    calc::HeatResistance food;
    Unit unit = Unit::celsius;
    Series series;
};

Result<Question> question_of(const Context& context, const CalcLethalityGiven& given) {
    Question question;
    question.unit = given.t_ref->unit;
    question.food.t_ref = in(*given.t_ref, question.unit);
    question.food.z = difference(*given.z, question.unit);
    question.food.d_ref_min = static_cast<double>(given.d.ms) / 60'000;
    question.food.cap_log = given.cap;
    if (auto checked = take_studied(given.studied, question.unit, question.food); !checked) return checked.refusal();
    const auto series = read_series_file(context, given.file, given.values_in, question.unit);
    if (!series) return series.refusal();
    question.series = *series;
    return question;
}

std::string answer_text(const Question& q, const calc::Lethality& sum) {
    const std::string at = " min at " + degrees(q.food.t_ref, q.unit);
    return "log reduction " + std::string(sum.capped ? "at least " : "") + number(sum.log_reduction, 3) + ", from F " +
           number(sum.f_lower_min, 3) + at + " (lower end of each interval; by trapezoid F " + number(sum.f_trapezoid_min, 3) +
           " min, log " + number(sum.log_trapezoid, 3) + ")";
}

std::string working_text(const Question& q, const std::vector<calc::CoreReading>& readings, const calc::Lethality& sum) {
    const calc::HeatResistance& food = q.food;
    std::string text = "rate = 10^((T - " + number(food.t_ref, 3) + ") / " + number(food.z, 3) + "), T in " + std::string(symbol(q.unit)) +
                       "\nF = sum of minutes x rate\n" + "log reduction = F / D = " + number(sum.f_lower_min, 3) + " / " +
                       number(food.d_ref_min, 4) + " = " + number(sum.log_lower, 3) + "\n\n";
    Table table{{"time", "core", "rate", "minutes x lower rate", "minutes x mean rate"}, {}};
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const double rate = calc::lethal_rate(readings[i].temperature, food.t_ref, food.z);
        table.rows.push_back(
            {q.series.time_text(q.series.points[i].at), degrees(readings[i].temperature, q.unit, 3), number(rate, 5), "", ""});
        if (i == 0) continue;
        const auto pair = calc::lethality(food, {readings[i - 1], readings[i]});
        if (!pair) continue;
        table.rows.back()[3] = number(pair->f_lower_min, 4);
        table.rows.back()[4] = number(pair->f_trapezoid_min, 4);
    }
    return text + working_table(table);
}

std::vector<std::string> mind_of(const Question& q, const calc::Lethality& sum) {
    std::vector<std::string> mind;
    const auto end = [&](const std::optional<double>& t) { return degrees(t.value_or(0), q.unit); };
    if (!q.food.studied_from) mind.push_back("No --studied range: whether D and z were measured at these temperatures is not known.");
    if (sum.below_studied) mind.push_back("Readings below " + end(q.food.studied_from) + ", where D was not studied, count nothing.");
    if (sum.above_studied)
        mind.push_back("Readings above " + end(q.food.studied_to) + ", where D was not studied, count with the rate at " +
                       end(q.food.studied_to) + ".");
    if (sum.capped)
        mind.push_back("The sum is " + number(sum.log_lower, 3) + " log, above the cap of " + number(*q.food.cap_log, 3) +
                       ": say \"at least\".");
    if (q.series.unit_from.starts_with("not"))
        mind.push_back("The unit of the values is " + q.series.unit_from + ": " + std::string(symbol(q.series.unit)) + ".");
    mind.push_back("D and z hold for the food and the germ that they were measured in.");
    return mind;
}

Result<Exit> act(Context& context, const CalcLethalityGiven& given) {
    const auto question = question_of(context, given);
    if (!question) return question.refusal();
    const auto readings = question->series.readings(question->unit);
    const auto sum = calc::lethality(question->food, readings);
    if (!sum) return sum.refusal();
    CalcAnswer answer;
    answer.answer = answer_text(*question, *sum);
    answer.mind = mind_of(*question, *sum);
    answer.working = working_text(*question, readings, *sum);
    answer.source = {
        "Bigelow's model and the General Method (from memory). Rates between two readings: the lower "
        "of the two counts, since the trapezoid overstates where the rate bends upwards."};
    answer.judges_safety = true;
    answer.json.set("log_reduction", sum->log_reduction)
        .set("at_least", sum->capped)
        .set("log_lower", sum->log_lower)
        .set("log_trapezoid", sum->log_trapezoid)
        .set("f_min", sum->f_trapezoid_min)
        .set("f_lower_min", sum->f_lower_min)
        .set("d_min", question->food.d_ref_min)
        .set("z_c", difference_celsius(question->food.z, question->unit))
        .set("tref_c", to_celsius(question->food.t_ref, question->unit))
        .set("below_studied", sum->below_studied)
        .set("above_studied", sum->above_studied)
        .set("readings", readings.size());
    print(context, answer, given.json);
    return Exit::done;
}

}  // namespace

extern const Command calc_lethality_command;
const Command calc_lethality_command{.name = "calc lethality",
                                     .group = Group::calculation,
                                     .about = "Add up the heat that a core has had, as a log reduction.",
                                     .more =
                                         "A line of the file is a time (minutes or a clock) and a temperature: 12.5;93.4 or 05:40;93.4.\n"
                                         "Without a unit of its own or in the heading, a temperature is in the unit of --tref.\n"
                                         "z is a difference of temperatures, no point on a scale: 5.56C and 10F are the same z.",
                                     .examples =
                                         "peelbook calc lethality --series core.csv --tref 60C --z 5.56C --d 1.85min --cap 7\n"
                                         "peelbook calc lethality --series core.csv --tref 61C --z 10.4C --d 16.5min --studied 55C:61C",
                                     .takes_at = false,
                                     .body = body<CalcLethalityGiven, set_up, act>()};

}  // namespace peelbook::cli
