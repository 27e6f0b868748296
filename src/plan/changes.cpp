#include "plan/changes.h"

#include <algorithm>

#include "base/text.h"

namespace peelbook::plan {
namespace {

const Described* same_in(const std::vector<Described>& list, const Described& one) {
    const auto found =
        std::find_if(list.begin(), list.end(), [&](const Described& d) { return d.section == one.section && d.id == one.id; });
    return found == list.end() ? nullptr : &*found;
}

std::string phrase_of(const Described& d, const std::string& key) {
    for (const auto& [name, phrase] : d.says)
        if (name == key) return phrase;
    return {};
}

std::string stated(const std::string& phrase) { return phrase.empty() ? "not stated" : phrase; }

void compare(const Described& before, const Described& after, std::vector<std::string>& sentences) {
    const auto differs = [&](const std::string& key) {
        const std::string was = phrase_of(before, key), now = phrase_of(after, key);
        if (was != now) sentences.push_back(after.title() + ": " + key + " was " + stated(was) + ", now " + stated(now));
    };
    for (const auto& [key, phrase] : after.says) differs(key);
    for (const auto& [key, phrase] : before.says)
        if (std::none_of(after.says.begin(), after.says.end(), [&](const auto& says) { return says.first == key; })) differs(key);
}

}  // namespace

std::vector<std::string> changes(const Plan& before, const Plan& after) {
    const std::vector<Described> old_parts = described(before), new_parts = described(after);
    std::vector<std::string> sections, sentences;
    for (const std::vector<Described>* parts : {&new_parts, &old_parts})
        for (const Described& d : *parts)
            if (!among(sections, d.section)) sections.push_back(d.section);
    for (const std::string& section : sections) {
        for (const Described& now : new_parts) {
            if (now.section != section) continue;
            if (const Described* was = same_in(old_parts, now))
                compare(*was, now, sentences);
            else
                sentences.push_back(now.title() + ": added");
        }
        for (const Described& was : old_parts)
            if (was.section == section && !same_in(new_parts, was)) sentences.push_back(was.title() + ": removed");
    }
    return sentences;
}

}  // namespace peelbook::plan
