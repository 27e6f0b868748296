#include "plan/faults.h"

#include <algorithm>
#include <tuple>

#include "base/text.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

// A very long line is shown as the part around the fault, in characters.
constexpr std::size_t widest_line = 160;
constexpr std::size_t shown_before = 60;
constexpr std::size_t shown_part = 120;

bool starts_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0) != 0x80; }

// The blanks that put a caret under character `column` of `line`. Tabs stay tabs, so that both lines are
// indented alike.
std::string under(std::string_view line, int column) {
    std::string blanks;
    int at = 1;
    for (const char byte : line) {
        if (at >= column) break;
        if (byte == '\t')
            blanks += '\t';
        else if (starts_character(byte))
            blanks += ' ';
        if (starts_character(byte)) ++at;
    }
    while (at++ < column) blanks += ' ';
    return blanks;
}

struct Excerpt {
    std::string line;
    int column;
};

Excerpt excerpt(const std::string& line, int column) {
    std::vector<std::size_t> characters;  // where each begins
    for (std::size_t i = 0; i < line.size(); ++i)
        if (starts_character(line[i])) characters.push_back(i);
    if (characters.size() <= widest_line) return {line, column};
    const std::size_t at = static_cast<std::size_t>(std::max(column, 1)) - 1;
    const std::size_t from = at > shown_before ? at - shown_before : 0;
    const std::size_t until = std::min(from + shown_part, characters.size());
    const std::size_t begin = characters[std::min(from, characters.size() - 1)];
    const std::size_t end = until < characters.size() ? characters[until] : line.size();
    const std::string before = from > 0 ? "..." : "";
    return {before + line.substr(begin, end - begin) + (until < characters.size() ? "..." : ""),
            static_cast<int>(at - from + before.size()) + 1};
}

}  // namespace

std::string to_text(const Fault& f) {
    std::string text;
    if (!f.file.empty()) text += f.file + ":";
    if (f.line > 0) text += std::to_string(f.line) + ":" + std::to_string(f.column) + ":";
    if (!text.empty()) text += " ";
    text += (f.warning ? "warning: " : "error: ") + f.found + "; wanted: " + f.wanted;
    if (!f.source_line.empty()) {
        const Excerpt part = excerpt(f.source_line, f.column);
        text += "\n    " + part.line + "\n    " + under(part.line, part.column) + "^";
    }
    if (!f.remedy.empty()) text += "\n    [" + f.remedy + "]";
    return text;
}

std::string remedy_with(const std::vector<std::string>& near, const std::string& otherwise) {
    if (near.empty()) return otherwise;
    return "did you mean " + any_of(near) + "? If not: " + otherwise;
}

Spot Faults::spot(std::string_view path) const {
    for (;;) {
        if (const auto found = spots_.find(path); found != spots_.end()) return found->second;
        const std::size_t slash = path.rfind('/');
        if (slash == std::string_view::npos) return {};
        path = path.substr(0, slash);
    }
}

void Faults::add(Spot spot, Fault fault) {
    if (spot.file >= 0) {
        const TomlDocument& document = documents_[static_cast<std::size_t>(spot.file)];
        fault.file = document.name;
        fault.line = spot.at.line;
        fault.column = spot.at.column;
        const std::string line = document.line(spot.at.line);
        if (is_utf8(line)) fault.source_line = line;
    }
    faults_.push_back({spot, std::move(fault)});
}

void Faults::error(Spot spot, std::string found, std::string wanted, std::string remedy) {
    add(spot, {{}, 0, 0, {}, std::move(found), std::move(wanted), std::move(remedy), false});
}

void Faults::error(std::string_view path, std::string found, std::string wanted, std::string remedy) {
    error(spot(path), std::move(found), std::move(wanted), std::move(remedy));
}

void Faults::warn(std::string_view path, std::string found, std::string wanted, std::string remedy) {
    add(spot(path), {{}, 0, 0, {}, std::move(found), std::move(wanted), std::move(remedy), true});
}

void Faults::refuse(Spot spot, const std::string& what, const Refusal& refusal) {
    error(spot, what + ": " + refusal.given, refusal.wanted, remedy_with(refusal.nearest, refusal.next));
}

std::vector<Fault> Faults::in_order() const {
    std::vector<Placed> sorted = faults_;
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const Placed& a, const Placed& b) { return std::tie(a.spot.file, a.spot.at) < std::tie(b.spot.file, b.spot.at); });
    std::vector<Fault> faults;
    for (Placed& placed : sorted) faults.push_back(std::move(placed.fault));
    return faults;
}

}  // namespace peelbook::plan
