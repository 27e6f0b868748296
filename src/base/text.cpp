#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace peelbook {
namespace {

constexpr std::size_t longest_code = 60;

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\v' || c == '\f'; }

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
char upper(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

unsigned byte_at(std::string_view text, std::size_t at) { return static_cast<unsigned char>(text[at]); }

// Length in bytes of the UTF-8 sequence that starts at `at`; 0 when it is not well formed (RFC 3629, section
// 4).
std::size_t utf8_length(std::string_view text, std::size_t at) {
    const unsigned lead = byte_at(text, at);
    if (lead < 0x80) return 1;
    std::size_t length = 0;
    unsigned least = 0x80;  // bounds of the second byte
    unsigned most = 0xBF;
    if (lead >= 0xC2 && lead <= 0xDF) length = 2;
    if (lead >= 0xE0 && lead <= 0xEF) length = 3;
    if (lead >= 0xF0 && lead <= 0xF4) length = 4;
    if (length == 0 || at + length > text.size()) return 0;
    if (lead == 0xE0) least = 0xA0;  // else overlong
    if (lead == 0xED) most = 0x9F;   // else a surrogate
    if (lead == 0xF0) least = 0x90;  // else overlong
    if (lead == 0xF4) most = 0x8F;   // else beyond U+10FFFF
    if (byte_at(text, at + 1) < least || byte_at(text, at + 1) > most) return 0;
    for (std::size_t i = 2; i < length; ++i)
        if (byte_at(text, at + i) < 0x80 || byte_at(text, at + i) > 0xBF) return 0;
    return length;
}

// C0, DEL, and the C1 controls U+0080 to U+009F (bytes C2 80 to C2 9F).
bool has_control(std::string_view utf8) {
    for (std::size_t i = 0; i < utf8.size(); ++i) {
        const unsigned byte = byte_at(utf8, i);
        if (byte < 0x20 || byte == 0x7F) return true;
        if (byte == 0xC2 && i + 1 < utf8.size() && byte_at(utf8, i + 1) < 0xA0) return true;
    }
    return false;
}

bool code_character(char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
           std::string_view("-_./#").find(c) != std::string_view::npos;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
    return text;
}

std::vector<std::string> split(std::string_view text, char at) {
    std::vector<std::string> parts;
    for (;;) {
        const std::size_t end = text.find(at);
        parts.emplace_back(text.substr(0, end));
        if (end == std::string_view::npos) return parts;
        text.remove_prefix(end + 1);
    }
}

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
    std::string whole;
    for (const std::string& part : parts) {
        if (&part != &parts.front()) whole += between;
        whole += part;
    }
    return whole;
}

std::string counted(std::int64_t n, std::string_view one, std::string_view many) {
    return std::to_string(n) + " " + std::string(n == 1 ? one : many);
}

std::string lowered(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(), lower);
    return out;
}

std::string uppered(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(), upper);
    return out;
}

bool is_utf8(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = utf8_length(text, i);
        if (length == 0) return false;
        i += length;
    }
    return true;
}

std::string shown(std::string_view text) {
    constexpr std::size_t most = 60;
    std::string out;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = utf8_length(text, i);
        const bool printable = length > 0 && !has_control(text.substr(i, length));
        const std::size_t taken = length > 0 ? length : 1;
        if (out.size() + taken > most) return out + "...";
        out += printable ? std::string(text.substr(i, length)) : "?";
        i += taken;
    }
    return out;
}

Check check_text(std::string_view what, std::string_view text, std::size_t most, bool needed) {
    if (!is_utf8(text))
        return Refusal{
            fmt::format("{} '{}'", what, shown(text)), "valid UTF-8 text", "type it again, or save the file it came from as UTF-8", {}};
    if (has_control(text))
        return Refusal{fmt::format("{} '{}'", what, shown(text)),
                       "one line of text without tabs or other control characters",
                       "type it again on one line",
                       {}};
    if (text.size() > most)
        return Refusal{fmt::format("{} of {} bytes", what, text.size()), fmt::format("at most {} bytes", most), "shorten it", {}};
    if (needed && trimmed(text).empty())
        return Refusal{
            fmt::format("an empty {}", what), fmt::format("a {} that says something", what), fmt::format("type the {}", what), {}};
    return {};
}

Check check_code(std::string_view what, std::string_view code) {
    if (code.empty())
        return Refusal{
            fmt::format("an empty {}", what), fmt::format("1 to {} characters", longest_code), fmt::format("type the {}", what), {}};
    if (code.size() > longest_code)
        return Refusal{
            fmt::format("{} of {} characters", what, code.size()), fmt::format("1 to {} characters", longest_code), "shorten it", {}};
    if (!std::all_of(code.begin(), code.end(), code_character))
        return Refusal{fmt::format("{} '{}'", what, shown(code)),
                       "letters A-Z a-z, digits and - _ . / # only",
                       "leave out spaces and other signs",
                       {}};
    return {};
}

// Optimal string alignment: insert, delete, replace, and swap of neighbours cost 1 each.
int edit_distance(std::string_view a, std::string_view b) {
    std::vector<int> two_up(b.size() + 1);
    std::vector<int> above(b.size() + 1);
    std::vector<int> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = static_cast<int>(j);
    for (std::size_t i = 1; i <= a.size(); ++i) {
        two_up.swap(above);
        above.swap(row);
        row[0] = static_cast<int>(i);
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const bool same = lower(a[i - 1]) == lower(b[j - 1]);
            row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + (same ? 0 : 1)});
            if (i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) && lower(a[i - 2]) == lower(b[j - 1]))
                row[j] = std::min(row[j], two_up[j - 2] + 1);
        }
    }
    return row[b.size()];
}

// Near enough: at most a third of the longer name, and never more than 3; one slip is always allowed from 3
// characters on. A name that the typed text begins (or that begins it) counts as near as well, after the
// others.
std::vector<std::string> nearest(std::string_view name, const std::vector<std::string>& known, std::size_t most) {
    std::vector<std::pair<int, const std::string*>> near;
    for (const std::string& candidate : known) {
        const std::size_t longer = std::max(name.size(), candidate.size());
        const int allowed = longer < 3 ? 0 : std::clamp(static_cast<int>(longer) / 3, 1, 3);
        const int distance = edit_distance(name, candidate);
        const bool begins = name.size() >= 3 && lowered(candidate).starts_with(lowered(name));
        if (distance <= allowed || begins) near.emplace_back(std::min(distance, begins ? 4 : distance), &candidate);
    }
    std::stable_sort(near.begin(), near.end(),
                     [](const auto& x, const auto& y) { return x.first != y.first ? x.first < y.first : *x.second < *y.second; });
    std::vector<std::string> names;
    for (const auto& entry : near)
        if (names.size() < most && (names.empty() || names.back() != *entry.second)) names.push_back(*entry.second);
    return names;
}

bool among(const std::vector<std::string>& list, std::string_view name) { return std::find(list.begin(), list.end(), name) != list.end(); }

}  // namespace peelbook
