#include "cli/calculation/file.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "base/csv.h"
#include "base/text.h"

namespace peelbook::cli {
namespace {

constexpr char separators[] = {';', '\t', '|', ',', ' '};

struct Line {
    std::size_t number = 0;
    std::string text;
};

std::vector<Line> lines_of(std::string text) {
    BytesInMemory bytes(std::move(text));
    LineReader reader(bytes);
    std::vector<Line> lines;
    while (const auto line = reader.next()) {
        const std::string_view said = trimmed(*line);
        if (!said.empty() && !said.starts_with('#')) lines.push_back({static_cast<std::size_t>(reader.number()), std::string(said)});
    }
    return lines;
}

// Empty values at the end of a line are a separator too many.
std::vector<std::string> cells_of(std::string_view line, char separator) {
    Fields fields;
    const auto& all = fields.of(line, separator);
    std::vector<std::string> cells(all.begin(), all.end());
    while (cells.size() > 1 && cells.back().empty()) cells.pop_back();
    return cells;
}

// The first sign that makes a row of one of the first two lines. Where none does, the file is refused by
// either line.
char separator_of(const std::vector<Line>& lines, const IsRow& is_row) {
    for (const char separator : separators) {
        for (std::size_t i = 0; i < std::min<std::size_t>(lines.size(), 2); ++i)
            if (is_row(cells_of(lines[i].text, separator), separator)) return separator;
    }
    return separators[0];
}

}  // namespace

Refusal bad_line(const std::string& file, std::size_t line, const std::string& found, std::string wanted) {
    return {"file '" + shown(file) + "', line " + std::to_string(line) + ": '" + shown(found) + "'",
            std::move(wanted),
            "mend that line in a copy of the file",
            {}};
}

Result<FileTable> read_table(const Context& context, const std::string& file, const IsRow& is_row, const std::string& wanted) {
    const auto bytes = context.files.read(context.here / file);
    if (!bytes) return Refusal{"file '" + shown(file) + "'", "a file that can be read", "check the name and the folder", {}};
    const std::vector<Line> lines = lines_of(*bytes);
    FileTable table;
    table.separator = separator_of(lines, is_row);
    for (const Line& line : lines) {
        std::vector<std::string> cells = cells_of(line.text, table.separator);
        if (is_row(cells, table.separator)) {
            table.rows.push_back({line.number, std::move(cells)});
        } else if (&line == &lines.front()) {
            table.header = std::move(cells);
        } else {
            return bad_line(file, line.number, line.text, wanted);
        }
    }
    if (table.rows.empty())
        return Refusal{"file '" + shown(file) + "' without a row", wanted + " in a line", "check the file's columns", {}};
    return table;
}

std::optional<double> number_of(std::string_view cell, char separator) {
    std::string text(trimmed(cell));
    if (separator != ',') std::replace(text.begin(), text.end(), ',', '.');
    const char* begin = text.data() + (text.starts_with('+') ? 1 : 0);
    const char* end = text.data() + text.size();
    double value = 0;
    const auto [stop, error] = std::from_chars(begin, end, value);
    if (error != std::errc() || stop != end || !std::isfinite(value)) return std::nullopt;
    return value;
}

std::optional<Measure> measure_of_cell(std::string_view cell, char separator, Unit unsaid) {
    std::string text(trimmed(cell));
    if (separator != ',') std::replace(text.begin(), text.end(), ',', '.');
    if (number_of(cell, separator)) text += symbol(unsaid);
    const auto measure = parse_measure(text, dimension_of(unsaid));
    if (!measure) return std::nullopt;
    return *measure;
}

std::optional<Unit> unit_in_heading(std::string_view heading, Dimension dimension) {
    std::vector<std::string> words(1);
    for (const char c : heading) {
        const auto byte = static_cast<unsigned char>(c);
        const bool letter = byte >= 0x80 || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        if (letter)
            words.back() += c;
        else if (!words.back().empty())
            words.emplace_back();
    }
    if (words.back().empty()) words.pop_back();
    if (words.empty()) return std::nullopt;
    const auto unit = unit_from_symbol(words.back());
    if (!unit || dimension_of(*unit) != dimension) return std::nullopt;
    return unit;
}

}  // namespace peelbook::cli
