#pragma once
// Small text tools that every layer needs.
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace peelbook {

inline bool is_digit(char c) {  // ASCII
    return c >= '0' && c <= '9';
}

std::string_view trimmed(std::string_view text);
std::vector<std::string> split(std::string_view text, char at);  // keeps empty parts
std::string joined(const std::vector<std::string>& parts, std::string_view between);
std::string counted(std::int64_t n, std::string_view one, std::string_view many);  // "1 lot", "2 lots"
std::string lowered(std::string_view text);                                        // ASCII only
std::string uppered(std::string_view text);                                        // ASCII only

bool is_utf8(std::string_view text);  // RFC 3629: no surrogates, no overlong forms, at most U+10FFFF

// What a refusal may quote of bad input: at most 60 bytes and printable ("?" for what is not).
std::string shown(std::string_view text);

// Free text (a note, a reason, a name) as it may enter the book: valid UTF-8, no control characters, at most
// `most` bytes, not blank when `needed`. `what` names the field in the refusal.
inline constexpr std::size_t longest_note = 2000;
inline constexpr std::size_t longest_name = 120;
Check check_text(std::string_view what, std::string_view text, std::size_t most, bool needed);

// A code (lot, point, partner, ...): 1 to 60 characters of A-Z a-z 0-9 - _ . / #
Check check_code(std::string_view what, std::string_view code);

int edit_distance(std::string_view a, std::string_view b);  // Levenshtein with transposition, ASCII case ignored
// Up to `most` of `known` closest to `name`, best first; only those near enough to be a slip of the finger.
std::vector<std::string> nearest(std::string_view name, const std::vector<std::string>& known, std::size_t most = 3);

// The last line(s) printed wherever safety is judged. One wording everywhere.
inline constexpr std::string_view caution =
    "The limits are the site's own. Follow the local food code; a qualified person or process authority validates the plan.";

bool among(const std::vector<std::string>& list, std::string_view name);

}  // namespace peelbook
