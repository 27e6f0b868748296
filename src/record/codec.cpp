#include "record/codec.h"

#include <charconv>

#include "base/text.h"

namespace peelbook::record::codec {
namespace {

// RFC 8785, section 3.2.2.2: the short escapes, else \u00xx in lower case; everything from U+0020 on stands
// as it is.
void write_escaped(std::string& out, char c) {
    switch (c) {
        case '"':
            out += "\\\"";
            return;
        case '\\':
            out += "\\\\";
            return;
        case '\b':
            out += "\\b";
            return;
        case '\t':
            out += "\\t";
            return;
        case '\n':
            out += "\\n";
            return;
        case '\f':
            out += "\\f";
            return;
        case '\r':
            out += "\\r";
            return;
        default:
            break;
    }
    constexpr char digits[] = "0123456789abcdef";
    const auto byte = static_cast<unsigned char>(c);
    out += "\\u00";
    out += digits[byte >> 4];
    out += digits[byte & 15];
}

bool stands_as_it_is(char c) { return static_cast<unsigned char>(c) >= 0x20 && c != '"' && c != '\\'; }

}  // namespace

void write(std::string& out, const std::string& text) {
    if (!is_utf8(text)) throw std::logic_error("text that is not UTF-8 reached the book unchecked");
    out += '"';
    std::size_t from = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (stands_as_it_is(text[i])) continue;
        out.append(text, from, i - from);
        write_escaped(out, text[i]);
        from = i + 1;
    }
    out.append(text, from);
    out += '"';
}

void write(std::string& out, std::int64_t number) {
    if (number <= -number_bound || number >= number_bound) throw std::logic_error("a number of 2^53 or more reached the book unchecked");
    char digits[24];
    const auto end = std::to_chars(digits, digits + sizeof digits, number).ptr;
    out.append(digits, end);
}

void write(std::string& out, const Measure& measure) {
    out += R"({"typed":)";
    write(out, to_text(measure));
    out += R"(,"value":)";
    write(out, measure.value);
    out += '}';
}

void write(std::string& out, const Date& date) { write(out, to_text(date)); }

void ObjectWriter::note(std::string_view name, std::size_t from) {
    if (count_ == members_.size()) throw std::logic_error("an object of more than 24 members");
    members_[count_++] = {name, from, text_.size()};
}

void ObjectWriter::finish(std::string& out) {
    std::sort(members_.begin(), members_.begin() + static_cast<std::ptrdiff_t>(count_),
              [](const Member& a, const Member& b) { return a.name < b.name; });
    out += '{';
    for (std::size_t i = 0; i < count_; ++i) {
        if (i > 0) out += ',';
        out += '"';
        out += members_[i].name;
        out += "\":";
        out.append(text_, members_[i].from, members_[i].to - members_[i].from);
    }
    out += '}';
}

const Node& expect(const Tree& tree, std::size_t at, Node::Type type) {
    static constexpr std::string_view names[] = {"a whole number", "a text", "a truth value", "a list", "an object"};
    const Node& node = tree[at];
    if (node.type == type) return node;
    throw Unreadable(std::string(names[static_cast<std::size_t>(type)]) + " at '" + node.key + "', and it is " +
                     std::string(names[static_cast<std::size_t>(node.type)]));
}

void read(const Tree& tree, std::size_t at, std::string& text) { text = expect(tree, at, Node::Type::text).text; }

void read(const Tree& tree, std::size_t at, std::int64_t& number) { number = expect(tree, at, Node::Type::number).number; }

void read(const Tree& tree, std::size_t at, bool& truth) { truth = expect(tree, at, Node::Type::truth).number == 1; }

void read(const Tree& tree, std::size_t at, Instant& instant) { read(tree, at, instant.ms); }

void read(const Tree& tree, std::size_t at, Date& date) {
    const Node& node = expect(tree, at, Node::Type::text);
    const Result<Date> parsed = parse_date(node.text);
    if (!parsed) throw Unreadable("a date at '" + node.key + "', and '" + node.text + "' is none");
    date = *parsed;
}

// The integer is what counts; the typed text must mean it. A mass that the program worked out (the rest of a
// lot) need not be a round number of the unit it is shown in, so the text may be the integer rounded.
void read(const Tree& tree, std::size_t at, Measure& measure) {
    ObjectReader reader(tree, at);
    std::string typed;
    std::int64_t value = 0;
    read(tree, reader.needed("typed"), typed);
    read(tree, reader.needed("value"), value);
    reader.finish();
    const Result<Measure> parsed = parse_measure(typed);
    if (!parsed) throw Unreadable("a measure at '" + tree[at].key + "', and '" + typed + "' is none");
    measure = *parsed;
    if (measure.value == value) return;
    if (measure_of(value, measure.unit).typed_micro != measure.typed_micro)
        throw Unreadable("a value that '" + typed + "' means at '" + tree[at].key + "', and it is " + std::to_string(value));
    measure.value = value;
}

std::size_t ObjectReader::needed(std::string_view name) {
    const std::size_t at = tree_.member(object_, name);
    if (at == 0) throw Unreadable("the key '" + std::string(name) + "'");
    ++taken_;
    return at;
}

void ObjectReader::finish() const {
    std::size_t members = 0;
    for (std::size_t at = object_ + 1; at < tree_[object_].end; at = tree_[at].end) ++members;
    if (members == taken_) return;
    throw Unreadable("known keys only in '" + tree_[object_].key + "': " + std::to_string(members - taken_) + " of its " +
                     std::to_string(members) + " are not");
}

}  // namespace peelbook::record::codec
