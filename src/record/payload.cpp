#include "record/payload.h"

#include "record/codec.h"
#include "record/entry.h"

namespace peelbook::record {

std::string_view kind_of(const Statement& s) {
    return std::visit([](const auto& one) -> std::string_view { return one.kind; }, s);
}

std::string_view kind_of(const Payload& p) {
    if (const auto* statement = std::get_if<Statement>(&p)) return kind_of(*statement);
    return Amended::kind;
}

std::string snapshot_digest(const RecallOpened& recall) {
    codec::ObjectWriter writer;
    writer.always("snapshot", recall.snapshot);
    writer.always("deliveries", recall.deliveries);
    std::string bytes;
    writer.finish(bytes);
    return to_hex(sha256(bytes));
}

}  // namespace peelbook::record
