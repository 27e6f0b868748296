#include "plan/compiled.h"

#include <charconv>
#include <concepts>
#include <limits>
#include <type_traits>

#include "plan/lists.h"

namespace peelbook::plan {
namespace {

template <class T>
concept Choice = std::is_enum_v<T>;
template <Choice E> inline constexpr E last_of{};
template <> inline constexpr DateKind last_of<DateKind> = DateKind::use_by;
template <> inline constexpr Grade last_of<Grade> = Grade::quality;
template <> inline constexpr Closed last_of<Closed> = Closed::nothing;
template <> inline constexpr Dimension last_of<Dimension> = Dimension::speed;
template <> inline constexpr Unit last_of<Unit> = Unit::mg_per_kg;

// --- writing

class Writer : public MembersOnly<Writer> {
  public:
    explicit Writer(std::string& out) : out_(out) {}
    template <class T, class... Form> void operator()(const T& member, const Form&...) { put(member); }

  private:
    void put(const std::string& text) {
        out_ += std::to_string(text.size());
        out_ += ':';
        out_ += text;
    }
    void put(std::integral auto number) {
        out_ += std::to_string(std::int64_t{number});
        out_ += ';';
    }
    void put(Choice auto choice) { put(static_cast<int>(choice)); }
    template <class T> void put(const std::vector<T>& list) {
        put(static_cast<std::int64_t>(list.size()));
        for (const T& item : list) put(item);
    }
    template <class T> void put(const std::optional<T>& value) {
        put(value.has_value());
        if (value) put(*value);
    }
    void put(const Limit& limit) {
        put(static_cast<int>(limit.index()));
        std::visit([this](const auto& alternative) { put(alternative); }, limit);
    }
    template <class T>
    requires std::is_class_v<T>
    void put(const T& object) { fields(*this, object); }

    std::string& out_;
};

// --- reading

struct NotWhole {};

class Reader : public MembersOnly<Reader> {
  public:
    explicit Reader(std::string_view rest) : rest_(rest) {}
    template <class T, class... Form> void operator()(T& member, const Form&...) { get(member); }
    bool at_end() const { return rest_.empty(); }

  private:
    // A number from 0 (or the least of its type) to `most`, and the mark that ends it.
    template <std::integral T> T number(T least, T most, char mark) {
        T value{};
        const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value);
        const auto length = static_cast<std::size_t>(end - rest_.data());
        if (error != std::errc{} || length == rest_.size() || *end != mark || value < least || value > most) throw NotWhole{};
        rest_.remove_prefix(length + 1);
        return value;
    }
    // What is counted takes a byte each at least.
    std::size_t count(char mark) { return number<std::size_t>(0, rest_.size(), mark); }

    void get(std::string& text) {
        const std::size_t size = count(':');
        if (size > rest_.size()) throw NotWhole{};
        text = rest_.substr(0, size);
        rest_.remove_prefix(size);
    }
    template <std::integral T> void get(T& value) { value = number(std::numeric_limits<T>::min(), std::numeric_limits<T>::max(), ';'); }
    void get(bool& truth) { truth = number(0, 1, ';') == 1; }
    template <Choice E> void get(E& choice) { choice = static_cast<E>(number(0, static_cast<int>(last_of<E>), ';')); }
    template <class T> void get(std::vector<T>& list) {
        list.resize(count(';'));
        for (T& item : list) get(item);
    }
    template <class T> void get(std::optional<T>& value) {
        bool there = false;
        get(there);
        if (there) get(value.emplace());
    }
    void get(Limit& limit) {
        const auto kind = number<std::size_t>(0, std::variant_size_v<Limit> - 1, ';');
        make_kind(limit, kind, [this](auto& alternative) { get(alternative); });
    }
    template <class T>
    requires std::is_class_v<T>
    void get(T& object) { fields(*this, object); }

    std::string_view rest_;
};
std::string head() { return "peelbook plan " + std::to_string(compiled_format) + ";"; }

}  // namespace

std::string compiled(const Plan& plan) {
    std::string out = head();
    Writer write(out);
    write(plan);
    return out;
}

std::optional<Plan> from_compiled(std::string_view text) {
    const std::string wanted = head();
    if (!text.starts_with(wanted)) return {};
    text.remove_prefix(wanted.size());
    Plan plan;
    Reader read(text);
    try {
        read(plan);
    } catch (const NotWhole&) {
        return {};
    }
    if (!read.at_end()) return {};
    return plan;
}

}  // namespace peelbook::plan
