#pragma once
// A plain table of values: what a query returns and what a printer renders. Neither side knows the other.
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace peelbook {

// Empty, whole number, real number, text.
using Cell = std::variant<std::monostate, std::int64_t, double, std::string>;

struct Table {
    std::vector<std::string> columns;
    std::vector<std::vector<Cell>> rows;  // each as long as `columns`
};

std::string to_text(const Cell& cell);

}  // namespace peelbook
