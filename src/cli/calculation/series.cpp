#include "cli/calculation/series.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>

#include "base/text.h"
#include "base/zone.h"
#include "cli/calculation/file.h"
#include "cli/calculation/text.h"

namespace peelbook::cli {
namespace {

constexpr double longest_minutes = 1e7;  // 19 years: beyond it a column is no time
constexpr std::string_view wanted_row = "a time (minutes or a clock) and a temperature, as 12.5;93.4 or 05:40;93.4";

struct Time {
    SeriesTime kind = SeriesTime::minutes;
    Instant at;
};

std::optional<int> whole(std::string_view digits, int most) {
    int n = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), n);
    if (error != std::errc() || end != digits.data() + digits.size() || n < 0 || n > most) return std::nullopt;
    return n;
}

std::optional<Time> clock_time(std::string_view text) {
    const auto parts = split(text, ':');
    if (parts.size() < 2 || parts.size() > 3) return std::nullopt;
    const auto hour = whole(parts[0], 23);
    const auto minute = whole(parts[1], 59);
    const auto second = parts.size() == 3 ? whole(parts[2], 59) : std::optional<int>(0);
    if (!hour || !minute || !second) return std::nullopt;
    return Time{SeriesTime::clock, Instant{} + hours(*hour) + minutes(*minute) + seconds(*second)};
}

// "...Z", "...+01:00", "...-05:00"
bool has_offset(const std::string& text) {
    const auto clock = text.find(':');
    return text.ends_with('Z') || text.find('+') != std::string::npos || text.find('-', clock) != std::string::npos;
}

std::optional<Time> time_of(const std::string& text, char separator, Unit unsaid) {
    if (text.find(':') != std::string::npos) {
        if (const auto clock = clock_time(text)) return clock;
        if (text.find('-') == std::string::npos) return std::nullopt;
        const auto dated = parse_when(text, Zone::utc(), Instant{std::numeric_limits<std::int64_t>::max() / 2});
        if (!dated) return std::nullopt;
        return Time{has_offset(text) ? SeriesTime::with_offset : SeriesTime::dated, *dated};
    }
    if (const auto bare = number_of(text, separator); bare && unsaid == Unit::minute) {
        if (std::abs(*bare) > longest_minutes) return std::nullopt;
        return Time{SeriesTime::minutes, Instant{std::llround(*bare * ms_a_minute)}};
    }
    const auto measure = measure_of_cell(text, separator, unsaid);
    return measure ? std::optional<Time>(Time{SeriesTime::minutes, Instant{measure->value}}) : std::nullopt;
}

// Two values; parted by blanks, a date and its clock are one.
std::optional<std::pair<std::string, std::string>> pair_of(std::vector<std::string> cells, char separator) {
    if (separator == ' ' && cells.size() == 3) cells = {cells[0] + " " + cells[1], cells[2]};
    if (cells.size() != 2) return std::nullopt;
    return std::pair(cells[0], cells[1]);
}

bool is_series_row(const std::vector<std::string>& cells, char separator) {
    const auto pair = pair_of(cells, separator);
    return pair && time_of(pair->first, separator, Unit::minute) && measure_of_cell(pair->second, separator, Unit::celsius);
}

struct Units {
    Unit time = Unit::minute;
    Unit value = Unit::celsius;
    std::string value_from;
};

Result<Units> units_of(const FileTable& table, const std::string& typed, Unit otherwise) {
    Units units{Unit::minute, otherwise, "not named in the file, so taken as that of the question"};
    if (table.header.size() == 2) {
        if (const auto unit = unit_in_heading(table.header[0], Dimension::duration)) units.time = *unit;
        if (const auto unit = unit_in_heading(table.header[1], Dimension::temperature)) {
            units.value = *unit;
            units.value_from = "as the file's heading says";
        }
    }
    if (typed.empty()) return units;
    const auto unit = unit_from_symbol(typed);
    if (!unit || dimension_of(*unit) != Dimension::temperature)
        return Refusal{"--unit-of-values '" + shown(typed) + "'", "C or F", "type one of these", {}};
    units.value = *unit;
    units.value_from = "as --unit-of-values says";
    return units;
}

// A clock that falls by more than half a day has passed midnight.
Instant after_midnight(Instant at, Instant before) {
    while (before - at > hours(12)) at = at + days(1);
    return at;
}

}  // namespace

std::string Series::time_text(Instant at) const {
    if (time == SeriesTime::minutes) return minutes_text(static_cast<double>(at.ms) / ms_a_minute);
    const bool with_seconds = at.ms % 60'000 != 0;
    const std::string text = to_text(Zone::utc(), at, with_seconds);
    if (time == SeriesTime::dated) return text;
    if (time == SeriesTime::with_offset) return text + " UTC";
    return text.substr(text.find(' ') + 1);
}

std::vector<calc::CoreReading> Series::readings(Unit as) const {
    std::vector<calc::CoreReading> list;
    for (const SeriesPoint& point : points)
        list.push_back({static_cast<double>((point.at - points.front().at).ms) / ms_a_minute, in(point.value, as)});
    return list;
}

Result<Series> read_series_file(const Context& context, const std::string& file, const std::string& unit, Unit otherwise) {
    const auto table = read_table(context, file, is_series_row, std::string(wanted_row));
    if (!table) return table.refusal();
    const auto units = units_of(*table, unit, otherwise);
    if (!units) return units.refusal();
    Series series;
    series.unit = units->value;
    series.unit_from = units->value_from;
    for (const FileRow& row : table->rows) {
        const auto pair = *pair_of(row.cells, table->separator);
        const auto bad = [&](std::string wanted) { return bad_line(file, row.line, pair.first + " " + pair.second, std::move(wanted)); };
        auto time = time_of(pair.first, table->separator, units->time);
        const auto value = measure_of_cell(pair.second, table->separator, units->value);
        if (!time || !value) return bad(std::string(wanted_row));
        if (series.points.empty()) series.time = time->kind;
        if (time->kind != series.time) return bad("a time of the same kind as in the lines before it");
        if (!series.points.empty()) {
            const Instant before = series.points.back().at;
            if (time->kind == SeriesTime::clock) time->at = after_midnight(time->at, before);
            if (time->at <= before) return bad("a time after that of the line before it, " + series.time_text(before));
        }
        series.points.push_back({time->at, *value});
    }
    return series;
}

}  // namespace peelbook::cli
