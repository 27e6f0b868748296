#pragma once
// Reads a struct of the plan from its table, along the list of its fields (lists.h).
#include <concepts>
#include <type_traits>
#include <utility>

#include "plan/complete.h"
#include "plan/fields.h"
#include "plan/lists.h"

namespace peelbook::plan {

class FieldReader : public Wordless {
  public:
    explicit FieldReader(Fields& table) : table_(table) {}
    bool whole() const { return whole_; }  // nothing vital is absent or wrong

    template <class T> void operator()(T&) {}
    template <class T, class Form, class... Said> void operator()(T& into, const Form& form, const Said&...) {
        put(into, form.get(table_), form);
    }
    template <class T, class... Said> void operator()(std::optional<T>& into, const Table& form, const Said&...) {
        table_.inside(form.key, [&](Fields& table) {
            FieldReader inner(table);
            T one;
            fields(inner, one);
            if (inner.whole_) into = one;
        });
    }
    template <class T, class More, class... Said> void operator()(std::vector<T>& into, const Tables<More>& form, const Said&...) {
        table_.each(form.key, form.item, [&](Fields& table) {
            inside(table, [&](FieldReader& inner) { fields(inner, into.emplace_back()); });
            form.more(table, into.back());
        });
        if (form.example.empty()) return;
        if (!table_.has(form.key))
            table_.lacks(form.key, std::string(form.key) + " = [ " + std::string(form.example) + " ]", "write at least one");
        whole_ = whole_ && !into.empty();
    }
    template <class List> void inside(std::string_view key, Need need, const List& list) {
        const bool there = table_.inside(key, [&](Fields& table) { inside(table, list); });
        whole_ = whole_ && (there || need != vital);
    }
    template <class Look> void then(const Look& look) {
        if constexpr (std::same_as<decltype(look(table_)), bool>)
            whole_ = look(table_) && whole_;
        else
            look(table_);
    }

  private:
    template <class List> void inside(Fields& table, const List& list) {
        FieldReader inner(table);
        list(inner);
        whole_ = whole_ && inner.whole_;
    }

    template <class T, class Form> void put(T& into, std::string&& text, [[maybe_unused]] const Form& form) {
        if constexpr (std::is_enum_v<T>) {
            for (std::size_t i = 0; i < form.words.size(); ++i)
                if (form.words[i] == text) into = static_cast<T>(i);
        } else {
            if constexpr (requires { form.need; }) whole_ = whole_ && !(form.need == vital && text.empty());
            into = std::move(text);
        }
    }
    template <class T, class Form> void put(std::vector<T>& into, std::vector<T>&& list, const Form&) { into = std::move(list); }
    template <class T, class Found, class Form> void put(T& into, std::optional<Found>&& found, [[maybe_unused]] const Form& form) {
        if constexpr (requires { form.need; }) whole_ = whole_ && (found || form.need != vital);
        if constexpr (requires { form.of; }) whole_ = whole_ && (found || form.of.need != vital);
        if (!found) return;
        if constexpr (std::integral<T> && std::same_as<Found, Measure>)
            into = found->value;
        else if constexpr (std::integral<T>)
            into = static_cast<T>(*found);
        else
            into = std::move(*found);
    }

    Fields& table_;
    bool whole_ = true;
};

}  // namespace peelbook::plan
