#include "record/payload.h"

namespace peelbook::record {

std::string_view kind_of(const Statement& s) {
    return std::visit([](const auto& one) -> std::string_view { return one.kind; }, s);
}

std::string_view kind_of(const Payload& p) {
    if (const auto* statement = std::get_if<Statement>(&p)) return kind_of(*statement);
    return Amended::kind;
}

}  // namespace peelbook::record
