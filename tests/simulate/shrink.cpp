#include "simulate/shrink.h"

#include <algorithm>

#include "simulate/variants.h"

namespace peelbook::simulate {
namespace {

bool has(const std::vector<Violation>& violations, const std::string& key) {
    return std::any_of(violations.begin(), violations.end(), [&](const auto& v) { return v.key == key; });
}

std::size_t place_of(const History& history, int id) {
    const auto found = std::find_if(history.begin(), history.end(), [&](const auto& line) { return line.id == id; });
    return static_cast<std::size_t>(found - history.begin());
}

History without(const History& history, std::size_t from, std::size_t until) {
    History rest(history.begin(), history.begin() + static_cast<std::ptrdiff_t>(from));
    rest.insert(rest.end(), history.begin() + static_cast<std::ptrdiff_t>(until), history.end());
    return rest;
}

using Fails = std::function<bool(const History&)>;

History fewest_lines(History history, const Fails& fails) {
    for (std::size_t part = std::max<std::size_t>(history.size() / 2, 1);;) {
        const std::size_t before = history.size();
        for (std::size_t from = 0; from < history.size();) {
            auto less = without(history, from, std::min(from + part, history.size()));
            if (fails(less)) {
                history = std::move(less);
            } else {
                from += part;
            }
        }
        if (part == 1 && history.size() == before) return history;
        part = std::max<std::size_t>(part / 2, 1);
    }
}

// Each number of each line: 1, else 10, where that does as well.
void simpler_numbers(History& history, const Fails& fails) {
    for (auto& line : history) {
        for (std::size_t at = 0; at < line.text.size(); ++at) {
            const bool begins =
                std::isdigit(static_cast<unsigned char>(line.text[at])) && at > 0 && (line.text[at - 1] == ' ' || line.text[at - 1] == '=');
            if (!begins) continue;
            const std::size_t end = std::min(line.text.find_first_not_of("0123456789.", at), line.text.size());
            if (end < line.text.size() && line.text[end] == '-') continue;  // a date
            const std::string was = line.text;
            for (const char* simple : {"1", "10"}) {
                line.text = was.substr(0, at) + simple + was.substr(end);
                if (line.text != was && fails(history)) break;
                line.text = was;
            }
        }
    }
}

}  // namespace

bool still_fails(const Folders& folders, const History& history, const Violation& violation) {
    Run run(folders);
    for (const auto& line : history) run.type(line);
    if (violation.key.starts_with("rebuild")) run.check_rebuild();
    if (violation.key.starts_with("owed") && !history.empty()) run.check_owed(violation.at);
    const Variant* variant = variant_of(violation);
    if (!variant) return has(run.violations, violation.key);
    const auto place = place_of(history, violation.retold);
    return place < history.size() && run.accepted()[place] && variant->fits(history, place) &&
           has(variant->tried(folders, history, run.accepted(), place), violation.key);
}

History shrunk(const Folders& folders, const History& history, const Violation& violation) {
    const Fails fails = [&](const History& less) { return still_fails(folders, less, violation); };
    History less = without(history, std::min(violation.line + 1, history.size()), history.size());
    if (!fails(less)) less = history;
    less = fewest_lines(std::move(less), fails);
    simpler_numbers(less, fails);
    return less;
}

}  // namespace peelbook::simulate
