#include <algorithm>

#include "base/text.h"
#include "plan/allergens.h"
#include "plan/boundaries.h"
#include "plan/changes.h"
#include "plan/described.h"

namespace peelbook::plan {
namespace {

constexpr std::string_view vocabulary = "allergens";

std::string ended(std::string text) {
    return text + "\n" + std::string(caution) + "\n";
}

// "no" and what is not stated says nothing to a reader.
bool worth_a_line(const Described& d, const std::pair<std::string, std::string>& says) {
    return !says.second.empty() && says.second != "no" && !(says.first == "name" && !d.id.empty());
}

std::string block(const Described& d) {
    std::string text = d.title();
    if (!d.id.empty() && d.name != d.id) text += ": " + d.name;
    text += "\n";
    for (const auto& says : d.says)
        if (worth_a_line(d, says)) text += "  " + says.first + ": " + says.second + "\n";
    return text;
}

std::string lists_of(const Allergen& a) {
    std::vector<std::string> lists;
    if (a.eu) lists.emplace_back("EU");
    if (a.us) lists.emplace_back("US");
    if (a.codex) lists.emplace_back("Codex");
    if (a.codex_regional) lists.emplace_back("Codex, where a region adds it");
    return joined(lists, ", ");
}

std::string allergen_lists() {
    std::string text;
    for (const Allergen& a : allergens())
        text += std::string(a.id) + ": " + std::string(a.name) + "; listed by " + lists_of(a) + "\n";
    text += "\nExcepted by Regulation (EU) No 1169/2011 Annex II:\n";
    for (const AnnexException& e : annex_exceptions())
        text += "  " + std::string(e.group) + ": " + std::string(e.text) + "\n";
    return text + "\n" + boundaries_text();
}

}  // namespace

std::vector<std::string> shown_names(const Plan& plan) {
    std::vector<std::string> names = {std::string(vocabulary)};
    for (const Described& d : described(plan))
        for (const std::string& name : {d.section + (d.id.empty() ? "" : "s"), d.id})
            if (!name.empty() && std::find(names.begin(), names.end(), name) == names.end())
                names.push_back(name);
    return names;
}

std::string shown(const Plan& plan, std::string_view only) {
    if (only == vocabulary) return ended(allergen_lists());
    std::vector<std::string> blocks;
    for (const Described& d : described(plan))
        if (only.empty() || only == d.section || only == d.section + "s" || (!d.id.empty() && only == d.id))
            blocks.push_back(block(d));
    return blocks.empty() ? "" : ended(joined(blocks, "\n"));
}

}  // namespace peelbook::plan
