#include "record/payload.h"

#include "record/codec.h"
#include "record/entry.h"

namespace peelbook::record {

Statement::Statement() = default;
Statement::Statement(const Statement&) = default;
Statement::Statement(Statement&&) noexcept = default;
Statement& Statement::operator=(const Statement&) = default;
Statement& Statement::operator=(Statement&&) noexcept = default;
Statement::~Statement() = default;

const Kind& kind_of(const Statement& s) {
    return std::visit([](const auto& one) -> const Kind& { return one.kind; }, s);
}

const Kind& kind_of(const Payload& p) {
    if (const auto* statement = std::get_if<Statement>(&p)) return kind_of(*statement);
    return Amended::kind;
}

namespace {

struct MadeCode {
    std::string operator()(const Received& s) const { return s.lot; }
    std::string operator()(const Filled& s) const { return s.blend; }
    std::string operator()(const Started& s) const { return s.lot; }
    std::string operator()(const Split& s) const { return s.child; }
    std::string operator()(const Packed& s) const { return s.lot; }
    std::string operator()(const CoPacked& s) const { return s.lot; }
    template <class S>
    requires(!S::kind.makes_lot()) std::string operator()(const S&) const { return {}; }
};

}  // namespace

std::string made_code(const Statement& s) { return std::visit(MadeCode{}, s); }

std::string snapshot_digest(const RecallOpened& recall) {
    codec::ObjectWriter writer;
    writer.always("snapshot", recall.snapshot);
    writer.always("deliveries", recall.deliveries);
    std::string bytes;
    writer.finish(bytes);
    return to_hex(sha256(bytes));
}

}  // namespace peelbook::record
