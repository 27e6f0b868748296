#pragma once
// Tables told row by row: a function names each column of a row beside its value, and that is the only description of the table.
//
//   table_of(view.changes, [](TableRow& row, const RecallChange& c) { row("what", c.what)("text", c.text); });
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "base/instant.h"
#include "base/table.h"

namespace peelbook {

// A text, a number, a truth as 1 or 0, an instant in Unix ms, a cell, or one of these that may be absent.
template <class Value> Cell cell_of(const Value& value) {
    if constexpr (std::is_integral_v<Value>) {
        return static_cast<std::int64_t>(value);
    } else if constexpr (std::is_convertible_v<const Value&, std::string_view>) {
        return std::string(std::string_view(value));
    } else if constexpr (std::is_same_v<Value, Instant>) {
        return value.ms;
    } else if constexpr (requires { value.has_value(); }) {
        return value ? cell_of(*value) : Cell{};
    } else {
        return Cell{value};
    }
}

class TableRow {
  public:
    // Cells to be filled, and names of columns where they are wanted.
    explicit TableRow(std::vector<Cell>& cells, std::vector<std::string>* names = nullptr) : cells_(cells), names_(names) {}

    template <class Value> TableRow& operator()(std::string_view column, const Value& value) {
        if (names_) names_->emplace_back(column);
        cells_.push_back(cell_of(value));
        return *this;
    }

  private:
    std::vector<Cell>& cells_;
    std::vector<std::string>* names_;
};

// One row each of `all`, as `tell(row, one)` tells it. The columns are those that it tells of an empty one, so that a table without
// rows has them too.
template <class One, class Tell> Table table_of(const std::vector<One>& all, const Tell& tell) {
    Table table;
    std::vector<Cell> nothing;
    TableRow headings(nothing, &table.columns);
    tell(headings, One{});
    table.rows.reserve(all.size());
    for (const One& one : all) {
        std::vector<Cell>& cells = table.rows.emplace_back();
        cells.reserve(table.columns.size());
        TableRow row(cells);
        tell(row, one);
    }
    return table;
}

// The same with the number of the row, from 1, as a first column "ord": what a query sorts by to keep this order.
template <class One, class Tell> Table numbered_table_of(const std::vector<One>& all, const Tell& tell) {
    std::int64_t ord = 0;  // the empty one is 0
    return table_of(all, [&](TableRow& row, const One& one) {
        row("ord", ord++);
        tell(row, one);
    });
}

}  // namespace peelbook
