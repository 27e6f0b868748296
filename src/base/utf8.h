#pragma once
// UTF-8 taken apart, for output that counts what a person sees. base/text.h is_utf8 only says whether it is valid.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace peelbook {

struct CodePoint {
    std::optional<char32_t> value;  // none: the byte here does not begin a valid sequence (RFC 3629)
    std::size_t length = 1;         // bytes; 1 for an invalid byte
};

// The code point that begins at `at`, which must be inside `text`.
CodePoint code_point(std::string_view text, std::size_t at);

// Terminal cells: 0, 1 or 2.
std::size_t cells_of(char32_t c);

}  // namespace peelbook
