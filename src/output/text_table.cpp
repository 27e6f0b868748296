#include "output/text_table.h"

#include <algorithm>
#include <cassert>

#include "base/text.h"
#include "base/utf8.h"

namespace peelbook::output {
namespace {

bool is_control(char32_t c) { return c < 0x20 || (c >= 0x7f && c < 0xa0); }

// One line, only what a terminal can show; at most `most` cells when that is not 0.
std::string printable(std::string_view text, std::size_t most) {
    static constexpr std::string_view cut = "...";
    std::string out;
    std::size_t cells = 0;
    std::size_t fits = 0;  // bytes of `out` that leave room for the cut
    for (std::size_t at = 0; at < text.size();) {
        const auto c = code_point(text, at);
        const bool shown = c.value && !is_control(*c.value);
        const std::size_t wide = shown ? cells_of(*c.value) : 1;
        if (most > 0 && cells + wide > most) {
            out.resize(fits);
            return out.append(cut.substr(0, most));
        }
        if (shown) {
            out.append(text.substr(at, c.length));
        } else {
            out.push_back('?');
        }
        cells += wide;
        if (most > cut.size() && cells <= most - cut.size()) fits = out.size();
        at += c.length;
    }
    return out;
}

// As most cells are: what is printed is what stands there, a cell a byte.
bool is_ascii_line(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return c >= 0x20 && c < 0x7f; });
}

struct Shown {
    std::string text;
    std::size_t width = 0;
};

struct Column {
    bool right = false;
    std::size_t width = 0;
    std::vector<Shown> cells;  // the heading first
};

Shown shown(std::string text, std::size_t most) {
    const bool plain = is_ascii_line(text);
    if (plain && (most == 0 || text.size() <= most)) {
        const std::size_t width = text.size();
        return {std::move(text), width};
    }
    std::string cut = printable(text, most);
    const std::size_t width = display_width(cut);
    return {std::move(cut), width};
}

bool is_number(const Cell& cell) {
    return std::holds_alternative<std::int64_t>(cell) || std::holds_alternative<double>(cell);
}

Column laid_out(TextColumn&& given, const TextTableStyle& style) {
    Column column;
    column.right = given.right;
    column.cells.reserve(given.cells.size() + 1);
    column.cells.push_back(shown(std::move(given.heading), 0));
    for (std::string& cell : given.cells) column.cells.push_back(shown(std::move(cell), given.right ? 0 : style.most_width));
    for (std::size_t i = style.headings ? 0 : 1; i < column.cells.size(); ++i) {
        column.width = std::max(column.width, column.cells[i].width);
    }
    return column;
}

// A column of numbers stands right; a number is never cut.
TextColumn as_text(const Table& table, std::size_t index, const std::string& heading, const TextTableStyle& style) {
    TextColumn column{heading, {}, false};
    column.cells.reserve(table.rows.size());
    bool any_number = false, any_text = false;
    for (const auto& row : table.rows) {
        const Cell& cell = row.at(index);
        any_number = any_number || is_number(cell);
        const auto* text = std::get_if<std::string>(&cell);
        any_text = any_text || (text != nullptr && !text->empty());
        column.cells.push_back(is_number(cell) ? to_text(cell) : shown(to_text(cell), style.most_width).text);
    }
    column.right = any_number && !any_text;
    return column;
}

void end_line(std::string& out) {
    while (!out.empty() && out.back() == ' ') out.pop_back();
    out.push_back('\n');
}

void add_line(std::string& out, const std::vector<Column>& columns, std::size_t line, std::size_t indent) {
    out.append(indent, ' ');
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const Shown& cell = columns[i].cells[line];
        const std::size_t blanks = columns[i].width - cell.width;
        if (i > 0) out.append(2, ' ');
        if (columns[i].right) out.append(blanks, ' ');
        out.append(cell.text);
        if (!columns[i].right) out.append(blanks, ' ');
    }
    end_line(out);
}

}  // namespace

std::string text_table(std::vector<TextColumn> given, const TextTableStyle& style) {
    if (given.empty()) return {};
    const std::size_t rows = given.front().cells.size();
    std::vector<Column> columns;
    std::size_t line_width = style.indent;
    for (TextColumn& column : given) {
        assert(column.cells.size() == rows);
        columns.push_back(laid_out(std::move(column), style));
        line_width += columns.back().width + 2;
    }
    std::string out;
    out.reserve((rows + 2) * line_width);
    if (style.headings) {
        add_line(out, columns, 0, style.indent);
        out.append(style.indent, ' ');
        for (std::size_t i = 0; i < columns.size(); ++i) {
            if (i > 0) out.append(2, ' ');
            out.append(columns[i].width, '-');
        }
        end_line(out);
    }
    for (std::size_t line = 1; line <= rows; ++line) add_line(out, columns, line, style.indent);
    return out;
}

std::string text_table(const Table& table, const std::vector<std::string>& headings, const TextTableStyle& style) {
    assert(headings.size() == table.columns.size());
    std::vector<TextColumn> columns;
    TextTableStyle uncut = style;  // the cells are cut already, so that a number in a column of text is not
    uncut.most_width = 0;
    for (std::size_t i = 0; i < headings.size(); ++i) columns.push_back(as_text(table, i, headings[i], style));
    return text_table(std::move(columns), uncut);
}

std::string text_table(const Table& table, const TextTableStyle& style) { return text_table(table, table.columns, style); }

std::string text_pairs(const std::vector<std::pair<std::string, std::string>>& pairs, std::size_t indent) {
    Table table{{"name", "value"}, {}};
    for (const auto& [name, value] : pairs) table.rows.push_back({name, value});
    return text_table(table, {.indent = indent, .headings = false});
}

std::size_t display_width(std::string_view text) {
    std::size_t cells = 0;
    for (std::size_t at = 0; at < text.size();) {
        const auto c = code_point(text, at);
        cells += c.value ? cells_of(*c.value) : 1;
        at += c.length;
    }
    return cells;
}

std::vector<std::string> wrapped(std::string_view text, std::size_t width) {
    std::vector<std::string> lines;
    for (const auto& paragraph : split(text, '\n')) {
        std::string line;
        for (const auto& word : split(paragraph, ' ')) {
            if (word.empty()) continue;
            if (!line.empty() && display_width(line) + 1 + display_width(word) > width) {
                lines.push_back(std::move(line));
                line.clear();
            }
            if (!line.empty()) line.push_back(' ');
            line.append(word);
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

}  // namespace peelbook::output
