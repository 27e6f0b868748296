#include "output/text_table.h"

#include <algorithm>
#include <cassert>
#include <ostream>
#include <sstream>

#include "base/text.h"
#include "base/utf8.h"

namespace peelbook::output {
namespace {

bool is_control(char32_t c) { return c < 0x20 || (c >= 0x7f && c < 0xa0); }

constexpr std::string_view cut = "...";

// One line, only what a terminal can show; at most `most` cells when that is not 0.
std::string printable(std::string_view text, std::size_t most) {
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

bool is_number(const Cell& cell) { return std::holds_alternative<std::int64_t>(cell) || std::holds_alternative<double>(cell); }

// A column of numbers stands right; a number is never cut.
TextColumn as_text(const Table& table, std::size_t index, const std::string& heading, const TextTableStyle& style) {
    TextColumn column(heading, style.most_width, table.rows.size());
    bool any_number = false, any_text = false;
    for (const auto& row : table.rows) {
        const Cell& cell = row.at(index);
        any_number = any_number || is_number(cell);
        const auto* text = std::get_if<std::string>(&cell);
        any_text = any_text || (text != nullptr && !text->empty());
        if (text != nullptr) {
            column.add(*text);
        } else {
            column.add_whole(to_text(cell));
        }
    }
    column.right = any_number && !any_text;
    return column;
}

std::vector<std::size_t> widths_of(const TextColumns& columns, bool headings) {
    std::vector<std::size_t> widths;
    for (const TextColumn& column : columns) {
        std::size_t& width = widths.emplace_back(0);
        for (std::size_t i = headings ? 0 : 1; i < column.cells.size(); ++i) width = std::max<std::size_t>(width, column.cells[i].width);
    }
    return widths;
}

// The lines of a table, one after the other.
class LineWriter {
  public:
    LineWriter(std::ostream& out, const TextColumns& columns, const std::vector<std::size_t>& widths, std::size_t indent)
        : out_(out), indent_(indent) {
        for (std::size_t c = 0; c < columns.size(); ++c) places_.push_back({&columns[c], widths[c]});
    }

    // The next cell of every column.
    void write() {
        line_.assign(indent_, ' ');
        for (Place& place : places_) {
            const auto cell = place.column->cells[next_];
            const std::size_t blanks = place.width - cell.width;
            if (place.column->right) line_.append(blanks, ' ');
            line_.append(place.column->bytes, place.at, cell.size);
            line_.append(between + (place.column->right ? 0 : blanks), ' ');
            place.at += cell.size;
        }
        ++next_;
        end_line();
    }
    void skip() {
        for (Place& place : places_) place.at += place.column->cells[next_].size;
        ++next_;
    }
    void rule() {
        line_.assign(indent_, ' ');
        for (const Place& place : places_) line_.append(place.width, '-').append(between, ' ');
        end_line();
    }

  private:
    static constexpr std::size_t between = 2;
    struct Place {
        const TextColumn* column;
        std::size_t width;
        std::size_t at = 0;  // of the next cell in the column's bytes
    };
    // No blanks at the end of a line.
    void end_line() {
        line_.resize(line_.find_last_not_of(' ') + 1);
        line_.push_back('\n');
        out_.write(line_.data(), static_cast<std::streamsize>(line_.size()));
    }

    std::ostream& out_;
    std::size_t indent_, next_ = 0;
    std::vector<Place> places_;
    std::string line_;
};

}  // namespace

TextColumn::TextColumn(std::string_view heading, std::size_t most, std::size_t rows) : most_(most) {
    constexpr std::size_t bytes_a_cell = 16;
    bytes.reserve(bytes_a_cell * rows);
    cells.reserve(rows + 1);
    add_whole(heading);
}

void TextColumn::put(std::string_view text, std::size_t width) {
    bytes.append(text);
    cells.push_back({static_cast<std::uint32_t>(text.size()), static_cast<std::uint32_t>(width)});
}

void TextColumn::add_plain(std::string_view cell) {
    if (cell.empty()) {
        cells.push_back({0, 0});
    } else {
        put(cell, cell.size());
    }
}

void TextColumn::add_whole(std::string_view cell) {
    if (cell.empty()) return add_plain(cell);
    if (is_ascii_line(cell)) return put(cell, cell.size());
    const std::string text = printable(cell, 0);
    put(text, display_width(text));
}

void TextColumn::add(std::string_view cell) {
    if (most_ == 0 || cell.size() <= most_) return add_whole(cell);  // no text is wider than its bytes
    if (const auto begin = cell.substr(0, most_ + 1); most_ > cut.size() && is_ascii_line(begin)) {
        put(std::string(begin.substr(0, most_ - cut.size())).append(cut), most_);
        return;
    }
    const std::string text = printable(cell, most_);
    put(text, display_width(text));
}

void write_text_table(std::ostream& out, const TextColumns& columns, const TextTableStyle& style) {
    if (columns.empty()) return;
    LineWriter writer(out, columns, widths_of(columns, style.headings), style.indent);
    if (style.headings) {
        writer.write();
        writer.rule();
    } else {
        writer.skip();
    }
    for (std::size_t line = 1; line < columns.front().cells.size(); ++line) writer.write();
}

std::string text_table(const Table& table, const std::vector<std::string>& headings, const TextTableStyle& style) {
    assert(headings.size() == table.columns.size());
    TextColumns columns;
    for (std::size_t i = 0; i < headings.size(); ++i) columns.push_back(as_text(table, i, headings[i], style));
    std::ostringstream out;
    write_text_table(out, columns, style);
    return std::move(out).str();
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
