#include "calc/cooldown.h"

#include <cmath>

#include "base/text.h"
#include "cli/calculation/series.h"
#include "cli/calculation/text.h"

namespace peelbook::cli {
namespace {

struct CalcCooldownGiven {
    std::optional<Measure> room, start, to;
    std::vector<std::string> readings;
    std::string file, values_in;
    bool json = false;
};

void set_up(Options& options, CalcCooldownGiven& given) {
    options.temperature(given.room, "--room", "of the room; without it, it is fitted from three readings or more")
        .temperature(given.start, "--start", "what was read at minute 0")
        .each(given.readings, "--reading", "TIME=TEMPERATURE", "a later reading, as 10min=200F; may be given again")
        .text(given.file, "--series", "FILE", "instead of --start and --reading: a time and a temperature a line")
        .text(given.values_in, "--unit-of-values", "UNIT", "C or F in that file; else the heading's, else that of --to");
    add_temperature(options, given.to, "--to", "the temperature that is waited for");
    add_json(options, given.json);
}

Result<SeriesPoint> reading_of(const std::string& typed) {
    const auto equals = typed.find('=');
    const auto after = parse_duration(typed.substr(0, equals));
    const auto value =
        equals == std::string::npos ? Result<Measure>(Refusal{}) : parse_measure(typed.substr(equals + 1), Dimension::temperature);
    if (!after || !value)
        return Refusal{"--reading '" + shown(typed) + "'", "a time after the start and a temperature", "type it like 10min=200F", {}};
    return SeriesPoint{Instant{after->ms}, *value};
}

Result<Series> readings_of(const Context& context, const CalcCooldownGiven& given) {
    if (!given.file.empty()) {
        if (given.start || !given.readings.empty())
            return Refusal{"--series with --start or --reading", "the readings from one place", "leave --start and --reading out", {}};
        return read_series_file(context, given.file, given.values_in, given.to->unit);
    }
    Series series;
    series.unit = given.to->unit;
    if (given.start) series.points.push_back({Instant{}, *given.start});
    for (const std::string& typed : given.readings) {
        const auto point = reading_of(typed);
        if (!point) return point.refusal();
        series.points.push_back(*point);
    }
    if (series.points.empty())
        return Refusal{"no readings", "--start and --reading, or --series", "add --start 300F --reading 10min=200F", {}};
    return series;
}

struct Told {
    Series series;
    Unit unit = Unit::celsius;
    double target = 0;
    calc::Cooldown fit;
    calc::Arrival arrival;

    Instant at(double minute) const { return series.points.front().at + Duration{std::llround(minute * ms_a_minute)}; }
    // "51.44 min", or the clock to the minute.
    std::string when(double minute) const {
        if (series.time == SeriesTime::minutes)
            return minutes_text(static_cast<double>(series.points.front().at.ms) / ms_a_minute + minute);
        const Instant t = at(minute);
        return series.time_text(Instant{t.ms - t.ms % 60'000});
    }
};

std::string answer_text(const Told& told) {
    std::string text = degrees(told.target, told.unit) + " at " + told.when(told.arrival.minute);
    const auto& [minute, earliest, latest] = told.arrival;
    if (earliest || latest)
        text +=
            " (95%: " + (earliest ? told.when(*earliest) : "any time") + " to " + (latest ? told.when(*latest) : "never for certain") + ")";
    return text;
}

std::string working_text(const Told& told) {
    const calc::Cooldown& fit = told.fit;
    const std::string room = number(fit.room, 2);
    const std::string k = number(fit.rate_per_min, 6);
    std::string text = "T = room + (start - room) x e^(-k t), t in minutes after the first reading\nroom " + degrees(fit.room, told.unit) +
                       (fit.room_fitted ? " (fitted)" : "") + ", start " + degrees(fit.start, told.unit) + ", k " + k + " a minute";
    const auto readings = told.series.readings(told.unit);
    if (readings.size() == 2)
        text += " = ln((" + number(readings[0].temperature, 2) + " - " + room + ") / (" + number(readings[1].temperature, 2) + " - " +
                room + ")) / " + number(readings[1].minute, 2);
    else
        text += ", by least squares over " + std::to_string(readings.size()) + " readings";
    text += "\nt = ln((" + number(fit.start, 2) + " - " + room + ") / (" + number(told.target, 2) + " - " + room + ")) / " + k + " = " +
            minutes_text(told.arrival.minute) + "\n\n";
    Table table{{"time", "read", "by the curve"}, {}};
    for (std::size_t i = 0; i < readings.size(); ++i)
        table.rows.push_back({told.series.time_text(told.series.points[i].at), degrees(readings[i].temperature, told.unit),
                              degrees(fit.at(readings[i].minute), told.unit)});
    return text + working_table(table);
}

CalcAnswer answer_of(const Told& told) {
    CalcAnswer answer;
    answer.answer = answer_text(told);
    answer.mind = {"A prediction, for acting in time; it judges nothing. It holds while the room stays the same."};
    if (told.series.unit_from.starts_with("not"))
        answer.mind.push_back("The unit of the values is " + told.series.unit_from + ": " + std::string(symbol(told.series.unit)) +
                              " is assumed.");
    if (!told.arrival.earliest && !told.arrival.latest)
        answer.mind.push_back("Too few readings for a margin: three with the room known, four without, are the least.");
    answer.working = working_text(told);
    answer.source = {"Newton's law of cooling (from memory)."};
    answer.judges_safety = true;
    const double first = static_cast<double>(told.series.points.front().at.ms) / ms_a_minute;
    const bool minutes = told.series.time == SeriesTime::minutes;
    const double offset = minutes ? first : 0;
    const auto shifted = [&](const std::optional<double>& minute) { return minute ? output::Json(offset + *minute) : output::Json(); };
    answer.json.set("target_at_min", offset + told.arrival.minute)
        .set("earliest_min", shifted(told.arrival.earliest))
        .set("latest_min", shifted(told.arrival.latest))
        .set("target_at", told.when(told.arrival.minute))
        .set("k_per_min", told.fit.rate_per_min)
        .set("room_c", to_celsius(told.fit.room, told.unit))
        .set("room_fitted", told.fit.room_fitted)
        .set("start_c", to_celsius(told.fit.start, told.unit));
    return answer;
}

Result<Exit> act(Context& context, const CalcCooldownGiven& given) {
    const auto series = readings_of(context, given);
    if (!series) return series.refusal();
    Told told;
    told.series = *series;
    told.unit = given.to->unit;
    told.target = in(*given.to, told.unit);
    const auto room = given.room ? std::optional<double>(in(*given.room, told.unit)) : std::nullopt;
    const auto fit = calc::fit_cooldown(told.series.readings(told.unit), room);
    if (!fit) return fit.refusal();
    told.fit = *fit;
    const auto arrival = calc::predict_arrival(told.fit, told.target);
    if (!arrival) return arrival.refusal();
    told.arrival = *arrival;
    print(context, answer_of(told), given.json);
    return Exit::done;
}

}  // namespace

extern const Command calc_cooldown_command;
const Command calc_cooldown_command{.name = "calc cooldown",
                                    .group = Group::calculation,
                                    .about = "Say when a product will have cooled to a temperature, from its readings so far.",
                                    .more = {},
                                    .examples =
                                        "peelbook calc cooldown --room 60F --start 300F --reading 10min=200F --to 75F\n"
                                        "peelbook calc cooldown --room 22C --series loaf.csv --to 35C",
                                    .takes_at = false,
                                    .body = body<CalcCooldownGiven, set_up, act>()};

}  // namespace peelbook::cli
