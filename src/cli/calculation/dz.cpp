#include "calc/dz.h"

#include <cmath>

#include "base/text.h"
#include "cli/calculation/file.h"
#include "cli/calculation/text.h"

namespace peelbook::cli {
namespace {

constexpr double confidence = 0.95;

struct CalcDzGiven {
    std::string file, values_in;
    bool json = false;
};

void set_up(Options& options, CalcDzGiven& given) {
    options.word(given.file, "FILE", "D-values: a temperature and the minutes for one log a line")
        .text(given.values_in, "--unit-of-values", "UNIT", "C or F, of the temperatures; else the heading's, else C");
    add_json(options, given.json);
}

bool is_dz_row(const std::vector<std::string>& cells, char separator) {
    return cells.size() == 2 && measure_of_cell(cells[0], separator, Unit::celsius) && measure_of_cell(cells[1], separator, Unit::minute);
}

struct DTable {
    Unit unit = Unit::celsius;
    std::string unit_from = "assumed: the file names none", time_from = "assumed: the file names none";
    Unit time = Unit::minute;
    std::vector<calc::DValue> values;
};

Result<DTable> read_d_values(const Context& context, const CalcDzGiven& given) {
    const auto file = read_table(context, given.file, is_dz_row, "a temperature and a D-value in minutes, as 55;62.2");
    if (!file) return file.refusal();
    DTable table;
    Unit time = Unit::minute;
    if (file->header.size() == 2) {
        if (const auto unit = unit_in_heading(file->header[0], Dimension::temperature)) {
            table.unit = *unit;
            table.unit_from = "from the file's heading";
        }
        if (const auto unit = unit_in_heading(file->header[1], Dimension::duration)) {
            time = *unit;
            table.time_from = "from the file's heading";
        }
    }
    if (!given.values_in.empty()) {
        const auto unit = unit_from_symbol(given.values_in);
        if (!unit || dimension_of(*unit) != Dimension::temperature)
            return Refusal{"--unit-of-values '" + shown(given.values_in) + "'", "C or F", "type one of these", {}};
        table.unit = *unit;
        table.unit_from = "as typed";
    }
    table.time = time;
    for (const FileRow& row : file->rows) {
        const auto temperature = measure_of_cell(row.cells[0], file->separator, table.unit);
        const auto minutes = measure_of_cell(row.cells[1], file->separator, time);
        if (!temperature || !minutes) return bad_line(given.file, row.line, joined(row.cells, " "), "a temperature and a D-value");
        table.values.push_back({in(*temperature, table.unit), in(*minutes, Unit::minute)});
    }
    return table;
}

std::string limits_text(const calc::DzFit& fit, Unit unit) {
    if (!fit.z_lower) return "no confidence limits from two D-values";
    return "95% limits " + degrees(*fit.z_lower, unit) + " to " + (fit.z_upper ? degrees(*fit.z_upper, unit) : "no upper limit");
}

std::string working_text(const DTable& table, const calc::DzFit& fit) {
    const calc::LineFit& line = fit.line;
    std::string text =
        "log10 D = " + number(line.intercept, 4) + (line.slope < 0 ? " - " : " + ") + number(line.slope < 0 ? -line.slope : line.slope, 6) +
        " x T by least squares; z = -1 / slope = " + degrees(fit.z, table.unit) + "; R squared " + number(line.r_squared, 4) + "\n\n";
    Table rows{{"temperature", "D (min)", "log10 D", "D by the line", "95% limits of the line (min)"}, {}};
    for (const calc::DValue& d : table.values) {
        const auto limits = fit.d_limits(d.temperature, confidence);
        rows.rows.push_back({degrees(d.temperature, table.unit), number(d.minutes, 4), number(std::log10(d.minutes), 4),
                             number(fit.d_at(d.temperature), 4),
                             limits ? number(limits->lower, 3) + " to " + number(limits->upper, 3) : "none"});
    }
    return text + working_table(rows);
}

output::Json json_of(const DTable& table, const calc::DzFit& fit) {
    const auto as_celsius = [&](const std::optional<double>& z) {
        return z ? output::Json(difference_celsius(*z, table.unit)) : output::Json();
    };
    auto json = output::Json::object();
    json.set("z_c", difference_celsius(fit.z, table.unit))
        .set("z_f", difference_celsius(fit.z, table.unit) * 1.8)
        .set("z_lower_c", as_celsius(fit.z_lower))
        .set("z_upper_c", as_celsius(fit.z_upper))
        .set("studied_from_c", to_celsius(fit.studied_from, table.unit))
        .set("studied_to_c", to_celsius(fit.studied_to, table.unit))
        .set("r_squared", fit.line.r_squared)
        .set("unit", symbol(table.unit))
        .set("unit_from", table.unit_from)
        .set("time_unit", symbol(table.time))
        .set("time_unit_from", table.time_from);
    auto rows = output::Json::array();
    for (const calc::DValue& d : table.values)
        rows.add(output::Json::object()
                     .set("temperature_c", to_celsius(d.temperature, table.unit))
                     .set("d_min", d.minutes)
                     .set("d_fitted_min", fit.d_at(d.temperature)));
    json.set("d_values", std::move(rows));
    return json;
}

Result<Exit> act(Context& context, const CalcDzGiven& given) {
    const auto table = read_d_values(context, given);
    if (!table) return table.refusal();
    const auto fit = calc::fit_dz(table->values, confidence);
    if (!fit) return fit.refusal();
    CalcAnswer answer;
    answer.answer = "z " + degrees(fit->z, table->unit) + " (" + limits_text(*fit, table->unit) + "), from " +
                    std::to_string(table->values.size()) + " D-values at " + degrees(fit->studied_from, table->unit) + " to " +
                    degrees(fit->studied_to, table->unit);
    answer.mind = {"z and D hold between these temperatures, for this food and this germ; z is a difference.",
                   "A bare temperature is read in " + std::string(symbol(table->unit)) + " (" + table->unit_from + "), a bare D in " +
                       std::string(symbol(table->time)) + " (" + table->time_from + ")."};
    answer.working = working_text(*table, *fit);
    answer.source = {"Bigelow's model: log10 D falls in a straight line with temperature (from memory)."};
    answer.judges_safety = true;
    answer.json = json_of(*table, *fit);
    print(context, answer, given.json);
    return Exit::done;
}

}  // namespace

extern const Command calc_dz_command;
const Command calc_dz_command{.name = "calc dz",
                              .group = Group::calculation,
                              .about = "Fit z to a table of D-values, with confidence limits.",
                              .more = "A line of the file is a temperature and D in minutes: 55;62.2.",
                              .examples = "peelbook calc dz muffin-d-values.csv",
                              .takes_at = false,
                              .body = body<CalcDzGiven, set_up, act>()};

}  // namespace peelbook::cli
