#include "output/xlsx/cell_text.h"

#include <cctype>

#include "base/utf8.h"

namespace peelbook::xlsx {
namespace {

constexpr std::string_view replacement = "\xef\xbf\xbd";  // U+FFFD

bool is_xml_char(char32_t c) {
    return c == '\t' || c == '\n' || (c >= 0x20 && c <= 0xd7ff) || (c >= 0xe000 && c <= 0xfffd) || (c >= 0x10000 && c <= 0x10ffff);
}

bool looks_escaped(std::string_view text) {  // "_xHHHH_"
    if (text.size() < 7 || text.substr(0, 2) != "_x" || text[6] != '_') return false;
    for (std::size_t i = 2; i < 6; ++i) {
        if (std::isxdigit(static_cast<unsigned char>(text[i])) == 0) return false;
    }
    return true;
}

// Nearly every cell: nothing to replace, nothing to count.
bool is_plain(std::string_view text) {
    if (text.size() > longest_cell) return false;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte < 0x20 || byte > 0x7e || byte == '_') return false;
    }
    return true;
}

std::size_t units_of(const CodePoint& c) { return c.value && *c.value > 0xffff ? 2 : 1; }

}  // namespace

std::string cell_text(std::string_view text) {
    if (is_plain(text)) return std::string(text);
    static constexpr std::size_t room = longest_cell - 40;  // leaves space for the words at the end
    std::string out;
    std::size_t units = 0, cut_at = 0, kept = 0;
    for (std::size_t at = 0; at < text.size();) {
        const auto c = code_point(text, at);
        if (text.substr(at, 2) == "\r\n") {
            ++at;
            continue;
        }
        if (!c.value || !is_xml_char(*c.value)) {
            out.append(replacement);
        } else {
            if (looks_escaped(text.substr(at))) out.append("_x005F");
            out.append(text.substr(at, c.length));
        }
        units += units_of(c);
        at += c.length;
        if (units <= room) {
            cut_at = out.size();
            kept = units;
        }
    }
    if (units > longest_cell) {
        out.resize(cut_at);
        out.append(" [cut: ").append(std::to_string(units - kept)).append(" characters more]");
    }
    return out;
}

std::string sheet_name(std::string_view text) {
    std::string out;
    std::size_t units = 0;
    for (std::size_t at = 0; at < text.size();) {
        const auto c = code_point(text, at);
        if (units + units_of(c) > 31) break;
        const bool bad = !c.value || !is_xml_char(*c.value) || *c.value < 0x20 ||
                         (c.length == 1 && std::string_view("[]:*?/\\").find(text[at]) != std::string_view::npos);
        out.append(bad ? std::string_view("-") : text.substr(at, c.length));
        units += units_of(c);
        at += c.length;
    }
    if (out.empty()) out = "Sheet";
    if (out.front() == '\'') out.front() = '-';
    if (out.back() == '\'') out.back() = '-';
    return out;
}

std::string page_text(std::string_view text, std::size_t most) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const auto c = code_point(text, at);
        std::string piece(c.value && is_xml_char(*c.value) ? text.substr(at, c.length) : replacement);
        if (piece == "&") piece = "&&";
        if (piece == "\n" || piece == "\t") piece = " ";
        if (out.size() + piece.size() + 3 > most) return out.append("...");
        out.append(piece);
        at += c.length;
    }
    return out;
}

}  // namespace peelbook::xlsx
