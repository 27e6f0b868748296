#include "record/entry.h"

#include "record/codec.h"

namespace peelbook::record {
namespace {

constexpr std::int64_t format = 1;

// --- writing

// {"kind":..,"says":{..}} of a statement, as two members.
std::string says_of(const Statement& statement) {
    std::string says;
    std::visit([&](const auto& one) { codec::write(says, one); }, statement);
    return says;
}

std::string says_of(const Amended& amended) {
    std::string statement = "{\"kind\":";
    codec::write(statement, std::string(kind_of(amended.statement).name));
    statement += ",\"says\":" + says_of(amended.statement) + "}";
    codec::ObjectWriter writer;
    writer("target", amended.target);
    writer("why", amended.why);
    writer("happened", amended.happened);
    writer.raw("statement", statement);
    std::string says;
    writer.finish(says);
    return says;
}

// --- reading

// Tries each kind of the variant; absent when none has this name.
template <std::size_t I = 0> std::optional<Statement> read_statement(std::string_view kind, const Tree& tree, std::size_t at) {
    if constexpr (I < std::variant_size_v<AnyKind>) {
        using One = std::variant_alternative_t<I, AnyKind>;
        if (One::kind.name != kind) return read_statement<I + 1>(kind, tree, at);
        One one;
        codec::read(tree, at, one);
        return one;
    } else {
        return std::nullopt;
    }
}

Statement statement_of(const std::string& kind, const Tree& tree, std::size_t at) {
    std::optional<Statement> statement = read_statement(kind, tree, at);
    if (!statement) throw Unreadable("a known kind of entry, and '" + kind + "' is none");
    return *std::move(statement);
}

Amended amended_of(const Tree& tree, std::size_t at) {
    codec::ObjectReader reader(tree, at);
    Amended amended;
    reader("target", amended.target);
    reader("why", amended.why);
    reader("happened", amended.happened);
    const std::size_t inner = reader.needed("statement");
    reader.finish();
    codec::ObjectReader statement(tree, inner);
    std::string kind;
    codec::read(tree, statement.needed("kind"), kind);
    amended.statement = statement_of(kind, tree, statement.needed("says"));
    statement.finish();
    return amended;
}

Entry entry_of(const Tree& tree) {
    codec::ObjectReader reader(tree, 0);
    Entry entry;
    std::int64_t found_format = 0;
    std::string kind;
    codec::read(tree, reader.needed("format"), found_format);
    if (found_format != format) throw Unreadable("format " + std::to_string(format) + ", and it is " + std::to_string(found_format));
    codec::read(tree, reader.needed("at"), entry.happened);
    codec::read(tree, reader.needed("by"), entry.by);
    codec::read(tree, reader.needed("kind"), kind);
    codec::read(tree, reader.needed("seq"), entry.seq);
    codec::read(tree, reader.needed("written"), entry.written);
    reader("token", entry.token);
    const std::size_t says = reader.needed("says");
    reader.finish();
    if (kind == Amended::kind.name)
        entry.payload = amended_of(tree, says);
    else
        entry.payload = statement_of(kind, tree, says);
    return entry;
}

std::string first_difference(std::string_view found, std::string_view canonical) {
    std::size_t at = 0;
    while (at < found.size() && at < canonical.size() && found[at] == canonical[at]) ++at;
    return "the one canonical form; byte " + std::to_string(at + 1) + " is the first that differs from it";
}

Refusal unreadable(std::string_view body, std::string wanted) {
    return {"an entry of " + std::to_string(body.size()) + " bytes",
            std::move(wanted),
            "these bytes were not written by this program, or by a later one",
            {}};
}

}  // namespace

std::string to_body(const Entry& entry) {
    std::string body = "{\"at\":";
    codec::write(body, entry.happened);
    body += ",\"by\":";
    codec::write(body, entry.by);
    body += ",\"format\":";
    codec::write(body, format);
    body += ",\"kind\":";
    codec::write(body, std::string(kind_of(entry.payload).name));
    body += ",\"says\":";
    body += std::visit([](const auto& payload) { return says_of(payload); }, entry.payload);
    body += ",\"seq\":";
    codec::write(body, entry.seq);
    if (!entry.token.empty()) {
        body += ",\"token\":";
        codec::write(body, entry.token);
    }
    body += ",\"written\":";
    codec::write(body, entry.written);
    body += '}';
    return body;
}

Result<Entry> from_body(std::string_view body) {
    try {
        Entry entry = entry_of(Tree::parse(body));
        const std::string canonical = to_body(entry);
        if (canonical != body) return unreadable(body, first_difference(body, canonical));
        return entry;
    } catch (const Unreadable& what) {
        return unreadable(body, what.what());
    }
}

}  // namespace peelbook::record
