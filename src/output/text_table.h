#pragma once
// Tables for a terminal: columns aligned by what a person sees, not by bytes. Text stands left, numbers right.
#include <cstddef>
#include <cstdint>
#include <iosfwd>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/table.h"

namespace peelbook::output {

struct TextTableStyle {
    std::size_t indent = 0;      // blanks before every line
    std::size_t most_width = 0;  // of one text column, in terminal cells; longer text ends in "..."; 0: no bound
    bool headings = true;        // the column names and a rule of dashes under them
};

// One line a row, each ended by '\n', no blanks at the end of a line; two blanks between columns. A column whose cells are all
// numbers or empty stands right, so does its heading. A real number shows as base/table.h to_text gives it. Control
// characters and bytes that are not UTF-8 show as "?". Empty text for a table without columns; headings only when no row.
std::string text_table(const Table& table, const TextTableStyle& style = {});

// The same with headings of one's own; must be as many as the table's columns.
std::string text_table(const Table& table, const std::vector<std::string>& headings, const TextTableStyle& style);

// A column as it is to be shown: text already, a cell a row, all in one buffer.
class TextColumn {
  public:
    // Cells of more than `most` terminal cells are cut and end in "..."; 0: none is. `rows`: about how many there will be.
    explicit TextColumn(std::string_view heading, std::size_t most = 0, std::size_t rows = 0);
    void add(std::string_view cell);
    void add_whole(std::string_view cell);  // never cut
    void add_plain(std::string_view cell);  // printable ASCII, never cut and not looked at: a number, a time

    struct Shown {
        std::uint32_t size, width;  // bytes, terminal cells
    };
    bool right = false;
    std::string bytes;
    std::vector<Shown> cells;  // the heading first

  private:
    std::size_t most_ = 0;
    void put(std::string_view text, std::size_t width);
};
// The same from columns, line by line; their own bounds of width count.
using TextColumns = std::vector<TextColumn>;
void write_text_table(std::ostream& out, const TextColumns& columns, const TextTableStyle& style);

// Two columns without headings: names left, values after the longest name. For facts such as status prints.
std::string text_pairs(const std::vector<std::pair<std::string, std::string>>& pairs, std::size_t indent = 0);

// How many terminal cells a text takes: 0 for combining marks, 2 for wide East Asian characters and emoji, else 1 a code
// point; an invalid byte counts 1. Ranges: Unicode 15 East Asian Width W and F, general categories Mn and Me, in blocks.
std::size_t display_width(std::string_view text);

// Broken at blanks into lines of at most `width` cells (a longer word stays whole); keeps the text's own line ends.
std::vector<std::string> wrapped(std::string_view text, std::size_t width);

}  // namespace peelbook::output
