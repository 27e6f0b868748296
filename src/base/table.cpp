#include "base/table.h"

#include <fmt/format.h>

namespace peelbook {
namespace {

struct CellText {
    std::string operator()(std::monostate) const { return ""; }
    std::string operator()(std::int64_t n) const { return fmt::format("{}", n); }
    std::string operator()(double n) const { return fmt::format("{}", n); }  // shortest that reads back the same
    std::string operator()(const std::string& text) const { return text; }
};

}  // namespace

std::string to_text(const Cell& cell) { return std::visit(CellText{}, cell); }

}  // namespace peelbook
