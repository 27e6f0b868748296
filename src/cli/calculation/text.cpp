#include "cli/calculation/text.h"

#include <charconv>
#include <cmath>
#include <ostream>

#include "base/text.h"
#include "judge/compare.h"
#include "output/text_table.h"

namespace peelbook::cli {
namespace {

constexpr double fahrenheit_a_celsius = 1.8;
constexpr double freezing_fahrenheit = 32;
constexpr std::size_t line_width = 110;

std::optional<double> plain_number(const std::string& text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
    return value;
}

void print_block(std::ostream& out, std::string_view heading, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    out << heading << '\n';
    for (const std::string& text : lines)
        for (const std::string& line : output::wrapped(text, line_width)) out << "  " << line << '\n';
}

void add_needed(Options& options, std::optional<Measure>& to, std::string name, std::string value, std::string about, Dimension dimension) {
    const auto take = [&to, name, dimension](const std::vector<std::string>& typed) -> Check {
        auto measure = parse_measure(typed.front(), dimension);
        if (!measure) {
            Refusal refusal = measure.refusal();
            refusal.given = name + ": " + refusal.given;
            return refusal;
        }
        to = *measure;
        return {};
    };
    options.row({name, std::move(value), std::move(about), true, false, take});
}

}  // namespace

void print(Context& context, const CalcAnswer& answer, bool json) {
    if (json) {
        output::Json told = answer.json;
        if (!answer.mind.empty()) told.set("mind", output::Json(answer.mind));
        told.set("source", output::Json(answer.source));
        if (answer.judges_safety) told.set("caution", caution);
        context.out << told.text() << '\n';
        return;
    }
    context.out << answer.answer << '\n';
    print_block(context.out, "mind", answer.mind);
    context.out << "\nworking\n";
    for (const std::string& line : split(trimmed(answer.working), '\n')) context.out << (line.empty() ? "" : "  ") << line << '\n';
    print_block(context.out, "source", answer.source);
    if (answer.judges_safety) context.out << caution << '\n';
}

void add_json(Options& options, bool& json) { options.common_from_here().flag(json, "--json", "answer in JSON"); }

void add_number(Options& options, std::optional<double>& to, std::string name, std::string about, Need need) {
    const auto take = [&to, name](const std::vector<std::string>& typed) -> Check {
        to = plain_number(typed.front());
        if (to) return {};
        return Refusal{
            name + ": '" + shown(typed.front()) + "'", "a number with a decimal point and without a unit", "type it like 12.5", {}};
    };
    options.row({name, "NUMBER", std::move(about), need == Need::wanted, false, take});
}

void add_temperature(Options& options, std::optional<Measure>& to, std::string name, std::string about) {
    add_needed(options, to, std::move(name), "TEMPERATURE", std::move(about), Dimension::temperature);
}

void add_mass(Options& options, std::optional<Measure>& to, std::string name, std::string about) {
    add_needed(options, to, std::move(name), "MASS", std::move(about), Dimension::mass);
}

void add_percent(Options& options, std::optional<Measure>& to, std::string name, std::string about) {
    add_needed(options, to, std::move(name), "PERCENT", std::move(about), Dimension::percent);
}

std::string number(double value, int decimals) {
    char buffer[64];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, decimals).ptr;
    std::string text(buffer, end);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

std::string degrees(double value, Unit unit, int decimals) { return number(value, decimals) + std::string(symbol(unit)); }

std::string minutes_text(double minutes, int decimals) { return number(minutes, decimals) + " min"; }

double in(const Measure& measure, Unit unit) {
    if (measure.unit == unit) return static_cast<double>(measure.typed_micro) / micro;
    return in_unit(measure.value, unit);
}

double difference(const Measure& measure, Unit unit) { return static_cast<double>(difference_in(measure, unit)) / micro; }

double to_celsius(double value, Unit unit) {
    return unit == Unit::fahrenheit ? (value - freezing_fahrenheit) / fahrenheit_a_celsius : value;
}

double from_celsius(double celsius, Unit unit) {
    return unit == Unit::fahrenheit ? celsius * fahrenheit_a_celsius + freezing_fahrenheit : celsius;
}

double difference_celsius(double value, Unit unit) { return unit == Unit::fahrenheit ? value / fahrenheit_a_celsius : value; }

std::string working_table(const Table& table, std::size_t most_rows) {
    if (table.rows.size() <= most_rows) return output::text_table(table);
    Table shown_rows{table.columns, {}};
    const std::size_t last = 5;
    const std::size_t first = most_rows - last;
    const auto from = [&](std::size_t row) { return table.rows.begin() + static_cast<std::ptrdiff_t>(row); };
    shown_rows.rows.assign(from(0), from(first));
    shown_rows.rows.insert(shown_rows.rows.end(), from(table.rows.size() - last), table.rows.end());
    return output::text_table(shown_rows) + "(" + std::to_string(table.rows.size() - most_rows) +
           " rows between the last five and those above them are left out)\n";
}

}  // namespace peelbook::cli
