#pragma once
// From the `fields` lists of payload.h to canonical bytes and back (the form is described in record/entry.h).
// What holds nothing is not written: an absent optional, an empty text or list, false, the number 0, and an
// object inside another whose every field holds nothing. So a field added later leaves old bodies canonical.
#include <algorithm>
#include <array>
#include <concepts>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/calendar.h"
#include "base/instant.h"
#include "base/measure.h"
#include "record/tree.h"

namespace peelbook::record::codec {

struct AnyVisitor {
    template <class T> void operator()(std::string_view, T&) {}
};
// A struct that lists its fields.
template <class T>
concept Listed = requires(AnyVisitor& v, T& s) {
    std::remove_const_t<T>::fields(v, s);
};

// --- does it hold nothing?
// ---------------------------------------------------------------------------------------------

inline bool holds_nothing(const std::string& value) { return value.empty(); }
inline bool holds_nothing(const std::int64_t& value) { return value == 0; }
inline bool holds_nothing(const bool& value) { return !value; }
inline bool holds_nothing(const Measure&) { return false; }
inline bool holds_nothing(const Instant& value) { return value.ms == 0; }
template <class T> bool holds_nothing(const std::optional<T>& value) { return !value; }
template <class T> bool holds_nothing(const std::vector<T>& value) { return value.empty(); }
template <Listed T> bool holds_nothing(const T& value);

struct NothingVisitor {
    bool nothing = true;
    template <class T> void operator()(std::string_view, const T& value) { nothing = nothing && holds_nothing(value); }
};
template <Listed T> bool holds_nothing(const T& value) {
    NothingVisitor visitor;
    T::fields(visitor, value);
    return visitor.nothing;
}

// --- writing
// -----------------------------------------------------------------------------------------------------------

// Throw std::logic_error for what must have been refused before: a number of 2^53 or more, text that is not
// UTF-8.
void write(std::string& out, const std::string& text);
void write(std::string& out, std::int64_t number);
void write(std::string& out, const Measure& measure);
void write(std::string& out, const Date& date);
inline void write(std::string& out, const Instant& instant) { write(out, instant.ms); }
inline void write(std::string& out, const bool&) { out += "true"; }
template <class T> void write(std::string& out, const std::vector<T>& list);
template <Listed T> void write(std::string& out, const T& object);
template <class T> void write(std::string& out, const std::optional<T>& value) { write(out, *value); }

// Members in any order, put out in byte order of their names.
class ObjectWriter {
  public:
    template <class T> void operator()(std::string_view name, const T& value) {
        if (!holds_nothing(value)) always(name, value);
    }
    template <class T> void always(std::string_view name, const T& value) {
        const std::size_t from = text_.size();
        write(text_, value);
        note(name, from);
    }
    // A member that is already written.
    void raw(std::string_view name, std::string_view json) {
        const std::size_t from = text_.size();
        text_ += json;
        note(name, from);
    }
    void finish(std::string& out);

  private:
    struct Member {
        std::string_view name;
        std::size_t from, to;  // in text_
    };
    void note(std::string_view name, std::size_t from);
    std::string text_;
    std::array<Member, 24> members_;
    std::size_t count_ = 0;
};

template <class T> void write(std::string& out, const std::vector<T>& list) {
    out += '[';
    for (std::size_t i = 0; i < list.size(); ++i) {
        if (i > 0) out += ',';
        write(out, list[i]);
    }
    out += ']';
}
template <Listed T> void write(std::string& out, const T& object) {
    ObjectWriter writer;
    T::fields(writer, object);
    writer.finish(out);
}

// --- reading: all throw Unreadable
// --------------------------------------------------------------------------------------

const Node& expect(const Tree& tree, std::size_t at, Node::Type type);
void read(const Tree& tree, std::size_t at, std::string& text);
void read(const Tree& tree, std::size_t at, std::int64_t& number);
void read(const Tree& tree, std::size_t at, bool& truth);
void read(const Tree& tree, std::size_t at, Measure& measure);
void read(const Tree& tree, std::size_t at, Date& date);
void read(const Tree& tree, std::size_t at, Instant& instant);
template <class T> void read(const Tree& tree, std::size_t at, std::optional<T>& value);
template <class T> void read(const Tree& tree, std::size_t at, std::vector<T>& list);
template <Listed T> void read(const Tree& tree, std::size_t at, T& object);

class ObjectReader {
  public:
    ObjectReader(const Tree& tree, std::size_t object) : tree_(tree), object_(object) { expect(tree, object, Node::Type::object); }
    template <class T> void operator()(std::string_view name, T& value) {
        if (const std::size_t at = tree_.member(object_, name)) {
            ++taken_;
            read(tree_, at, value);
        } else if constexpr (std::same_as<T, Measure>) {
            needed(name);
        } else {
            value = T{};
        }
    }
    std::size_t needed(std::string_view name);  // index of a member that must be there
    void finish() const;                        // throws when a member has not been asked for

  private:
    const Tree& tree_;
    std::size_t object_;
    std::size_t taken_ = 0;
};

template <class T> void read(const Tree& tree, std::size_t at, std::optional<T>& value) { read(tree, at, value.emplace()); }
template <class T> void read(const Tree& tree, std::size_t at, std::vector<T>& list) {
    expect(tree, at, Node::Type::list);
    list.clear();
    for (std::size_t i = at + 1; i < tree[at].end; i = tree[i].end) read(tree, i, list.emplace_back());
}
template <Listed T> void read(const Tree& tree, std::size_t at, T& object) {
    ObjectReader reader(tree, at);
    T::fields(reader, object);
    reader.finish();
}

}  // namespace peelbook::record::codec
