#include "cli/calculation/values.h"

#include <algorithm>

#include "cli/calculation/file.h"

namespace peelbook::cli {
namespace {

bool is_value_row(const std::vector<std::string>& cells, char separator) {
    if (separator == ',' || separator == ' ') return false;  // "49,6" is one value
    return cells.size() <= 2 && number_of(cells.back(), separator).has_value();
}

bool is_subgroup_row(const std::vector<std::string>& cells, char separator) {
    return cells.size() >= 2 &&
           std::all_of(cells.begin(), cells.end(), [&](const std::string& cell) { return number_of(cell, separator).has_value(); });
}

}  // namespace

Result<std::vector<double>> read_values(const Context& context, const std::string& file) {
    const auto table = read_table(context, file, is_value_row, "one value");
    if (!table) return table.refusal();
    for (const std::string& heading : table->header)
        if (heading.find(',') != std::string::npos)
            return bad_line(file, 1, heading, "one value a line, or a ';' or tab between columns: 1,812 is 1.812");
    std::vector<double> values;
    for (const FileRow& row : table->rows) values.push_back(number_of(row.cells.back(), table->separator).value_or(0));
    return values;
}

Result<std::vector<std::vector<double>>> read_subgroups(const Context& context, const std::string& file) {
    const auto table = read_table(context, file, is_subgroup_row, "the values of a subgroup, two or more");
    if (!table) return table.refusal();
    std::vector<std::vector<double>> subgroups;
    for (const FileRow& row : table->rows) {
        std::vector<double> subgroup;
        for (const std::string& cell : row.cells) subgroup.push_back(number_of(cell, table->separator).value_or(0));
        subgroups.push_back(std::move(subgroup));
    }
    return subgroups;
}

}  // namespace peelbook::cli
