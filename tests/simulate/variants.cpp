#include "simulate/variants.h"

#include <algorithm>
#include <regex>

#include "cli/frame/words.h"
#include "simulate/properties.h"

namespace peelbook::simulate {
namespace {

constexpr std::size_t most_after = 300;  // lines: what a record does not show within a day or two it shows no more
constexpr Duration much_later = minutes(90);

std::string verb_of(const std::string& text) { return text.substr(0, text.find(' ')); }
bool contains(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

History first_lines(const History& all, std::size_t count) {
    return {all.begin(), all.begin() + static_cast<std::ptrdiff_t>(std::min(all.size(), count))};
}

// What is overdue by then ranks as missing.
Standings standings_at(House& house, Instant now) {
    auto out = standings_of(house);
    for (const auto& [place, point] : watched_points()) {
        const auto duty = house.duty(place, point, now);
        auto& verdict = out.findings[place + " " + point];
        if (duty && duty->overdue(now)) verdict = std::max<std::int64_t>(verdict, 2);
    }
    return out;
}

// Up to, not including, line `end`.
Standings run_until(const Folders& folders, const History& history, std::size_t end) {
    Run run(folders);
    for (std::size_t i = 0; i < end; ++i) run.house().type(history[i]);
    return standings_at(run.house(), history.at(std::max<std::size_t>(end, 1) - 1).clock);
}

// Two ways to tell the same, and how both stand before the first line that is accepted in one of them only, or at the end.
struct Both {
    std::size_t end = 0, other_end = 0;  // that line in each
    Standings typed, other;
    std::set<int> other_refused;  // lines of the other that were
};
Both told_both_ways(const Folders& folders, const History& history, const std::vector<bool>& accepted, const History& other) {
    std::map<int, std::size_t> place;
    for (std::size_t i = 0; i < history.size(); ++i) place[history[i].id] = i;
    Both both;
    Run run(folders);
    bool differs = false, written = false;
    for (; both.other_end < other.size(); ++both.other_end) {
        const Line& line = other[both.other_end];
        const auto found = place.find(line.id);
        written = run.house().type(line).accepted;
        if (!written) both.other_refused.insert(line.id);
        differs = found != place.end() && written != accepted[found->second];
        if (differs) break;
    }
    both.end = differs ? place.at(other[both.other_end].id) : history.size();
    both.typed = run_until(folders, history, both.end);
    const Instant at = history.at(std::max<std::size_t>(both.end, 1) - 1).clock;
    both.other = differs && written ? run_until(folders, other, both.other_end) : standings_at(run.house(), at);
    return both;
}

Violation violation_of(std::string_view variant, const History& history, std::size_t line, std::size_t end, const std::string& key,
                       const std::string& told) {
    return {std::string(variant) + ": " + verb_of(history[line].text) + ", " + key,
            "line " + std::to_string(line + 1) + " (" + history[line].text + ") " + std::string(variant) + ": " + told,
            std::min(end, history.size() - 1),
            {},
            history[line].id};
}

// --- taken away

// An act that is refused whether a point is not within or open: what was missing let it pass.
bool is_let_go(const Folders& folders, const History& history, std::size_t end) {
    Run run(folders);
    for (std::size_t i = 0; i < end; ++i) run.type(history[i]);
    const auto attempts = attempts_of(history[end].text, history[end].clock, run.facts(), run.zone());
    return std::any_of(attempts.begin(), attempts.end(), [](const Attempt& one) { return gate_table().answer(one.act, "owed") == "no"; });
}

bool is_named(const History& history, std::size_t line) {
    const std::string name = "{" + std::to_string(history[line].id) + "}";
    return std::any_of(history.begin(), history.end(), [&](const auto& other) { return contains(other.text, name); });
}

bool can_be_taken_away(const History& history, std::size_t line) { return !is_named(history, line) && is_innocent(history, line); }

std::vector<Violation> taken_away(const Folders& folders, const History& all, const std::vector<bool>& accepted, std::size_t line) {
    const auto history = first_lines(all, line + most_after);
    History without = history;
    without.erase(without.begin() + static_cast<std::ptrdiff_t>(line));
    const auto both = told_both_ways(folders, history, accepted, without);
    std::vector<Violation> out;
    const auto tell = [&](const std::string& key, const std::string& told) {
        out.push_back(violation_of("taken away", history, line, both.end, key, told));
    };
    if (both.end < history.size() && !accepted[both.end] && is_let_go(folders, history, both.end))
        tell("lets go", "without it this is accepted, with it it is refused: " + history[both.end].text);
    for (const auto& [key, verdict] : both.other.findings) {
        const auto found = both.typed.findings.find(key);
        if (verdict > 0 || (found != both.typed.findings.end() && found->second == 0)) continue;
        tell("within: " + key.substr(key.find(' ') + 1), key + " is within without it, with it it is not");
    }
    for (const auto& code : both.typed.held) {
        const bool blocked = std::any_of(both.other.findings.begin(), both.other.findings.end(),
                                         [&](const auto& one) { return one.second > 0 && one.first.starts_with(code + " "); });
        if (!both.other.held.contains(code) && !blocked) tell("free", code + " is free without it, with it it is held");
    }
    return out;
}

// --- the same facts, told late, in another order, or wrongly first

bool says_when(const std::string& text) { return contains(text, " --at ") || contains(text, " --token "); }
std::string said_at(const Line& line) { return line.text + " --at " + to_iso(Zone::utc(), line.clock); }

std::vector<Violation> milder_told(std::string_view variant, const Folders& folders, const History& history,
                                   const std::vector<bool>& accepted, const History& other, std::size_t line, std::size_t changed) {
    const auto both = told_both_ways(folders, history, accepted, other);
    if (both.other_end <= changed) return {};  // they part before both have said it
    std::vector<Violation> out;
    for (const auto& freed : milder(both.typed, both.other))
        out.push_back(violation_of(variant, history, line, both.end, freed.what, freed.told + ", and does not when it is told so"));
    return out;
}

// Behind all that was typed before its minute; where it stands then.
std::size_t insert(History& history, std::size_t after, const Line& line) {
    std::size_t at = std::min(after + 1, history.size());
    while (at < history.size() && history[at].clock < line.clock) ++at;
    history.insert(history.begin() + static_cast<std::ptrdiff_t>(at), line);
    return at;
}

bool can_be_late(const History& history, std::size_t line) {
    static const std::set<std::string> kinds = {"reading", "inspect", "step", "calibrate"};
    return kinds.contains(verb_of(history[line].text)) && !says_when(history[line].text) && !is_named(history, line) &&
           history.back().clock > history[line].clock + much_later;
}

std::vector<Violation> typed_late(const Folders& folders, const History& all, const std::vector<bool>& accepted, std::size_t line) {
    const auto history = first_lines(all, line + most_after);
    History other = history;
    Line late = history[line];
    late.text = said_at(late);
    late.clock = late.clock + much_later;
    other.erase(other.begin() + static_cast<std::ptrdiff_t>(line));
    const auto place = insert(other, line, late);
    return milder_told("typed late", folders, history, accepted, other, line, place);
}

bool can_be_after(const History& history, std::size_t line) {
    static const std::set<std::string> kinds = {"reading", "inspect", "step", "use", "calibrate"};
    const std::string& text = history[line].text;
    if (line + 1 >= history.size() || !kinds.contains(verb_of(text)) || says_when(text)) return false;
    const Line& next = history[line + 1];
    return !is_named(history, line) && next.clock > history[line].clock && next.clock < history[line].clock + minutes(14);
}

std::vector<Violation> typed_after(const Folders& folders, const History& all, const std::vector<bool>& accepted, std::size_t line) {
    const auto history = first_lines(all, line + most_after);
    History other = history;
    std::swap(other[line], other[line + 1]);
    other[line + 1].text = said_at(history[line]);
    other[line + 1].clock = history[line + 1].clock;
    return milder_told("typed after the next", folders, history, accepted, other, line, line + 1);
}

// The subject, the time or the value is wrong at first, and right after a minute.
std::vector<Line> wrong_first(const History& history, std::size_t line) {
    Line wrong = history[line];
    auto words = *cli::split_words(wrong.text);
    const std::string by = words.back(), subject = words[1], value = words[3];
    std::string right;
    if (wrong.id % 3 == 0) {
        const auto other = std::find_if(history.begin(), history.end(), [&](const Line& one) {
            const auto of_other = *cli::split_words(one.text);
            return of_other.size() > 3 && of_other[0] == "reading" && of_other[2] == words[2] && of_other[1] != subject;
        });
        if (other == history.end()) return {};
        words[1] = (*cli::split_words(other->text))[1];
        right = "subject=" + subject;
    } else if (wrong.id % 3 == 1) {
        right = "'at=" + to_iso(Zone::utc(), wrong.clock) + "'";
        words.insert(words.end() - 2, {"--at", to_iso(Zone::utc(), wrong.clock - minutes(10))});
    } else {
        words[3] = words[2] == "core" ? "97C" : words[2] == "boil" ? "88C" : "4C";
        right = "value=" + value;
    }
    wrong.text.clear();
    for (const auto& word : words) wrong.text += (wrong.text.empty() ? "" : " ") + word;
    const Line amended{history.back().id + 1, wrong.clock + minutes(1),
                       "amend {" + std::to_string(wrong.id) + "} " + right + " --why slip --by " + by};
    return {wrong, amended};
}

bool can_be_wrong(const History& history, std::size_t line) {
    const std::string& text = history[line].text;
    return text.starts_with("reading ") && !says_when(text) && !contains(text, "'") && !is_named(history, line);
}

std::vector<Violation> typed_wrong(const Folders& folders, const History& all, const std::vector<bool>& accepted, std::size_t line) {
    const auto history = first_lines(all, line + most_after);
    const auto instead = wrong_first(history, line);
    if (instead.empty()) return {};
    History other = history;
    other[line] = instead[0];
    const auto place = insert(other, line, instead[1]);
    auto out = milder_told("typed wrong first", folders, history, accepted, other, line, place);
    // Another person looks at it: then it stands as if it had been typed right.
    const Line seen{instead[1].id + 1, instead[1].clock + minutes(1), "countersign {" + std::to_string(instead[1].id) + "} --by HB"};
    const auto seen_at = insert(other, place, seen);
    const auto both = told_both_ways(folders, history, accepted, other);
    if (both.other_end <= seen_at) return out;
    // What went out of the house meanwhile wants another person to correct it: then nobody has.
    if (both.other_refused.contains(instead[1].id) || both.other_refused.contains(seen.id)) return out;
    const auto words = *cli::split_words(history[line].text);
    for (const auto& freed : milder(both.other, both.typed))
        if (freed.key == words[1] + " " + words[2])
            out.push_back(
                violation_of("typed wrong first", history, line, both.end, "countersigned, " + freed.what,
                             freed.told + " although another person has seen what is right, and does not when it is typed right"));
    return out;
}

// --- what waits betters nothing, whatever comes after it

bool can_wait(const History& history, std::size_t line) {
    const std::string& text = history[line].text;
    if (!text.starts_with("amend {") && !text.starts_with("void {")) return false;
    const int target = std::atoi(text.c_str() + text.find('{') + 1);
    return !is_named(history, line) && std::any_of(history.begin(), history.end(), [&](const Line& one) {
        return one.id == target && (one.text.starts_with("reading ") || one.text.starts_with("inspect "));
    });
}

std::vector<Violation> left_waiting(const Folders& folders, const History& all, const std::vector<bool>& accepted, std::size_t line) {
    const auto history = first_lines(all, line + most_after);
    History without = history;
    without.erase(without.begin() + static_cast<std::ptrdiff_t>(line));
    const auto both = told_both_ways(folders, history, accepted, without);
    std::vector<Violation> out;
    if (both.end <= line) return out;
    for (const auto& freed : milder(both.other, both.typed))
        out.push_back(violation_of("left waiting", history, line, both.end, freed.what, freed.told + " without it"));
    return out;
}

// --- under other codes

// In which they sort the other way round, and those of a kind no longer begin alike.
std::string other_code(const std::string& code) {
    const auto dash = code.find('-');
    return std::string(1, static_cast<char>('Z' - (code.front() - 'A'))) + std::to_string(99'999 - std::stoi(code.substr(dash + 1))) + "-" +
           code.substr(0, dash);
}

class Renaming {
  public:
    explicit Renaming(const History& history) {
        static const std::regex made(" --code ([A-Z]+-[0-9]+)");
        for (const auto& line : history)
            for (std::sregex_iterator at(line.text.begin(), line.text.end(), made), end; at != end; ++at)
                other_[(*at)[1]] = other_code((*at)[1]);
        for (const auto& [code, other] : other_) back_[other] = code;
    }
    std::string there(const std::string& text) const { return renamed(text, other_); }
    std::string back(const std::string& text) const { return renamed(text, back_); }

  private:
    using Names = std::map<std::string, std::string>;
    static std::string renamed(const std::string& text, const Names& names) {
        std::string out;
        for (std::size_t at = 0; at < text.size();) {
            const auto is_code = [](char c) { return std::isalnum(static_cast<unsigned char>(c)) || c == '-'; };
            std::size_t end = at;
            while (end < text.size() && is_code(text[end])) ++end;
            const std::string word = text.substr(at, std::max<std::size_t>(end - at, 1));
            const auto found = names.find(word);
            out += found == names.end() ? word : found->second;
            at += word.size();
        }
        return out;
    }
    Names other_, back_;
};

bool can_be_renamed(const History& history, std::size_t line) { return line + 1 == history.size(); }

std::vector<Violation> renamed(const Folders& folders, const History& history, const std::vector<bool>& accepted, std::size_t line) {
    const Renaming names(history);
    Run run(folders);
    for (std::size_t i = 0; i < history.size(); ++i) {
        const bool now = run.house().type({history[i].id, history[i].clock, names.there(history[i].text)}).accepted;
        if (now != accepted[i])
            return {violation_of("renamed", history, line, i, "lets go", history[i].text + (now ? " is accepted" : " is refused"))};
    }
    Standings told;
    const auto other = standings_at(run.house(), history.back().clock);
    for (const auto& code : other.held) told.held.insert(names.back(code));
    for (const auto& [key, verdict] : other.findings) told.findings[names.back(key)] = verdict;
    auto typed = run_until(folders, history, history.size());
    std::vector<Violation> out;
    for (const auto& differences : {milder(typed, told), milder(told, typed)})
        for (const auto& freed : differences)
            out.push_back(violation_of("renamed", history, line, line, freed.what, freed.told + " under one code, and not under another"));
    return out;
}

}  // namespace

const std::vector<Variant>& variants() {
    static const std::vector<Variant> all = {{"taken away", can_be_taken_away, taken_away},
                                             {"typed late", can_be_late, typed_late},
                                             {"typed after the next", can_be_after, typed_after},
                                             {"typed wrong first", can_be_wrong, typed_wrong},
                                             {"left waiting", can_wait, left_waiting},
                                             {"renamed", can_be_renamed, renamed}};
    return all;
}

const Variant* variant_of(const Violation& violation) {
    if (violation.retold == 0) return nullptr;
    const auto found = std::find_if(variants().begin(), variants().end(),
                                    [&](const Variant& one) { return violation.key.starts_with(std::string(one.name) + ": "); });
    return found == variants().end() ? nullptr : &*found;
}

}  // namespace peelbook::simulate
