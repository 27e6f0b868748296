#pragma once
// A file of numbers, as a logger, a balance or a spreadsheet writes it: one row a line, the first line may be
// a header, lines that begin with '#' are left out. Values are parted by ';', tab, '|', ',' or blanks and may
// stand in quotes (base/csv.h). A decimal comma is read where another sign parts the values.
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/measure.h"
#include "base/result.h"
#include "cli/frame/context.h"

namespace peelbook::cli {

struct FileRow {
    std::size_t line = 0;  // from 1
    std::vector<std::string> cells;
};

struct FileTable {
    char separator = ';';
    std::vector<std::string> header;  // empty: none
    std::vector<FileRow> rows;        // at least one
};

// True for the cells of a row of data; tells the header from data and one separator from another.
using IsRow = std::function<bool(const std::vector<std::string>& cells, char separator)>;

// `wanted` says what a row is: "a time and a temperature". Refused: a file that cannot be read, one without
// rows, and the first line that is no row by `is_row`.
Result<FileTable> read_table(const Context& context, const std::string& file, const IsRow& is_row, const std::string& wanted);

// The whole cell as a number; absent when it is none.
std::optional<double> number_of(std::string_view cell, char separator);
// The whole cell as a quantity of that dimension: a bare number is in `unsaid`, another may carry its unit.
std::optional<Measure> measure_of_cell(std::string_view cell, char separator, Unit unsaid);
// The unit that a column's heading names: "core [C]", "temp_f", "time (min)"; absent when it names none.
std::optional<Unit> unit_in_heading(std::string_view heading, Dimension dimension);

Refusal bad_line(const std::string& file, std::size_t line, const std::string& found, std::string wanted);

}  // namespace peelbook::cli
