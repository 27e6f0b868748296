#pragma once
// A closed set of words is an enum; text stands only where it comes in or goes out: rows of the book, canonical bytes, JSON, the
// screen, options. Each set has one list, its function `word`, and both directions read that list:
//
//   enum class Way { customer, van };            // counts up from 0
//   constexpr std::string_view word(Way way) {
//       switch (way) {                           // no default: a forgotten one does not compile
//           case Way::customer: return "customer";
//           case Way::van: return "van";
//       }
//       return {};
//   }
#include <array>
#include <concepts>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "base/text.h"

namespace peelbook {

template <class E>
concept Worded = std::is_enum_v<E> && requires(E one) {
    { word(one) } -> std::same_as<std::string_view>;
};

template <Worded E> constexpr std::size_t count_of() {
    std::size_t count = 0;
    while (!word(static_cast<E>(count)).empty()) ++count;
    return count;
}

// The first `most` words of the set, in its order.
template <Worded E, std::size_t most = count_of<E>()> constexpr std::array<std::string_view, most> words_of() {
    std::array<std::string_view, most> words;
    for (std::size_t i = 0; i < most; ++i) words[i] = word(static_cast<E>(i));
    return words;
}

// Absent: `text` is no word of the set.
template <Worded E> constexpr std::optional<E> from_word(std::string_view text) {
    for (std::size_t i = 0; i < count_of<E>(); ++i) {
        if (word(static_cast<E>(i)) == text) return static_cast<E>(i);
    }
    return {};
}

// Of a word that a book holds. Throws Damaged when it is none of the set.
template <Worded E> E stored_word(std::string_view text) {
    if (const auto one = from_word<E>(text)) return *one;
    constexpr auto known = words_of<E>();
    throw Damaged("the book holds the word '" + std::string(text) +
                  "' where one of these belongs: " + joined(std::vector<std::string>(known.begin(), known.end()), ", "));
}

// The same where an empty text says that there is none.
template <Worded E> std::optional<E> stored_word_or_none(std::string_view text) {
    if (text.empty()) return {};
    return stored_word<E>(text);
}

template <Worded E> std::string in_words(E one) { return std::string(word(one)); }
template <Worded E> std::string in_words(const std::optional<E>& one) {  // empty: none
    return one ? in_words(*one) : std::string();
}

}  // namespace peelbook
