#pragma once
// Cells of a report's table from what may be absent or is yes or no.
#include <cstdint>
#include <optional>

#include "base/table.h"

namespace peelbook::site {

template <class T>
Cell cell(const std::optional<T>& value) {
    return value ? Cell{*value} : Cell{};
}
inline Cell flag(bool value) { return std::int64_t{value ? 1 : 0}; }

}  // namespace peelbook::site
