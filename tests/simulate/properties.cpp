#include "simulate/properties.h"

#include <algorithm>

#include "cli/frame/words.h"
#include "simulate/owed.h"

namespace peelbook::simulate {
namespace {

const std::vector<std::pair<std::string, std::string>> watched_points = {{"chill", "chill-air"}, {"detector", "metal"}};

}  // namespace

std::vector<Violation> no_way_out(const Judge& judge, const std::vector<Attempt>& attempts, const std::string& typed) {
    std::vector<Violation> out;
    for (const auto& attempt : attempts)
        for (const auto& state : judge.forbidding(attempt))
            out.push_back({"no way out: " + attempt.act + ", " + state, typed + " was accepted; " + attempt.lot + " is " + state});
    return out;
}

Standings standings_of(House& house) {
    Standings out;
    for (const auto& row : house.ask("SELECT DISTINCT code FROM hold JOIN lot ON lot.id = hold.lot WHERE released_seq IS NULL"))
        out.held.insert(to_text(row[0]));
    // A count answers a negative stock: that is what it is for.
    for (const auto& row :
         house.ask("SELECT coalesce(lot.code, f.place) || ' ' || f.point, max(iif(f.cleared_by IS NULL, f.verdict, 0)) FROM finding f "
                   "LEFT JOIN lot ON lot.id = f.lot WHERE f.point <> 'negative-stock' GROUP BY 1"))
        out.findings[to_text(row[0])] = std::get<std::int64_t>(row[1]);
    return out;
}

std::optional<Milder> milder(const Standings& before, const Standings& after) {
    static const std::vector<std::string> verdicts = {"within", "unproven", "missing", "deviation"};
    for (const auto& code : before.held)
        if (!after.held.contains(code)) return Milder{"hold", code + " was held"};
    for (const auto& [key, verdict] : before.findings) {
        const auto now = after.findings.find(key);
        const bool freed = now == after.findings.end() ? verdict > 0 : now->second < verdict;
        const std::string& word = verdicts.at(static_cast<std::size_t>(verdict));
        if (freed) return Milder{key.substr(key.find(' ') + 1) + " " + word, key + " stood at " + word};
    }
    return {};
}

bool settles_nothing(const std::string& typed) {
    for (const char* command : {"split ", "move ", "count ", "pack "})
        if (typed.starts_with(command)) return true;
    return false;
}

std::vector<Violation> owed_otherwise(House& house, const Facts& facts, Instant now) {
    std::vector<Violation> out;
    const SlowCount count(facts);
    const auto text = [&](Instant at) { return to_iso(house.zone(), at); };
    for (const auto& [place, point] : watched_points) {
        const auto slow = count.next_of(place, now);
        const auto duty = house.duty(place, point, now);
        const auto words = [&](Instant since, Instant due, bool never, bool closed) {
            return "since " + text(since) + " due " + text(due) + (never ? " never" : "") + (closed ? " closed hours" : "");
        };
        const std::string wanted = slow ? words(slow->since, slow->due, slow->never, slow->closed) : "nothing";
        const std::string told = duty ? words(duty->since, duty->due, duty->never, !duty->closed.empty()) : "nothing";
        if (wanted != told) out.push_back({point, "at " + text(now) + " " + point + " is owed: " + told + "; counted slowly: " + wanted});
        std::set<Seq> stored, kept;
        for (const auto& row : house.ask("SELECT anchor, kept_by IS NOT NULL FROM finding WHERE place = '" + place + "' AND point = '" +
                                         point + "' AND ord > 0 AND verdict > 0 AND cleared_by IS NULL"))
            (std::get<std::int64_t>(row[1]) ? kept : stored).insert(std::get<std::int64_t>(row[0]));
        const auto slowly = count.gaps_of(place);
        const auto tell = [&](Seq seq, const std::string& what) {
            out.push_back(
                {point + " gap", "at " + text(now) + " the gap of " + point + " from entry " + std::to_string(seq) + " is " + what});
        };
        for (const Seq seq : slowly)
            if (!stored.contains(seq) && !kept.contains(seq)) tell(seq, "not stored");
        for (const Seq seq : stored)
            if (!slowly.contains(seq)) tell(seq, "stored, and there is none");
    }
    return out;
}

namespace {

bool is_struck(const History& history, const Line& line) {
    const std::string striking = "void {" + std::to_string(line.id) + "}";
    return std::any_of(history.begin(), history.end(), [&](const Line& other) { return other.text.starts_with(striking); });
}

// A step says when its points had fallen missing, and when a value was no correction any more: what is typed from memory after that
// counts less (rule 47), and a void of a value then clears nothing.
bool hangs_on_step(const History& history, const std::string& step, const Line& line) {
    const std::string subject = "reading " + (*cli::split_words(step))[1];
    if (!line.text.starts_with(subject + " ") && !line.text.starts_with(subject + "/")) return false;
    const bool from_memory = line.text.find(" --at ") != std::string::npos && line.text.find(" --slip ") == std::string::npos;
    return from_memory || is_struck(history, line);
}

}  // namespace

bool is_innocent(const History& history, std::size_t line) {
    const std::string& typed = history[line].text;
    const auto words = *cli::split_words(typed);
    if (words[0] == "step")
        return std::none_of(history.begin(), history.end(), [&](const Line& other) { return hangs_on_step(history, typed, other); });
    if (words.size() < 4) return false;
    if (words[0] == "inspect") return words[3] == "yes";
    if (words[0] != "reading" || typed.find(" --with probe") == std::string::npos) return false;  // the worst decides (rules 2 and 3)
    const double value = std::atof(words[3].c_str());
    const std::string& point = words[2];
    if (point == "core") return value >= 95;
    if (point == "boil") return value >= 84;
    if (point == "chill-air") return value <= 5;
    return point == "cooling" || (point == "dough" && value >= 24 && value <= 30);
}

namespace {

constexpr std::size_t most_after = 300;  // lines: what a record does not show within a day or two it shows no more

// What is overdue by then ranks as missing.
Standings standings_at(House& house, Instant now) {
    auto out = standings_of(house);
    for (const auto& [place, point] : watched_points) {
        const auto duty = house.duty(place, point, now);
        auto& verdict = out.findings[place + " " + point];
        if (duty && duty->overdue(now)) verdict = std::max<std::int64_t>(verdict, 2);
    }
    return out;
}

// Up to, not including, line `end`.
Standings run_until(const Folders& folders, const History& history, std::size_t end, std::size_t without) {
    Run run(folders);
    for (std::size_t i = 0; i < end; ++i)
        if (i != without) run.house().type(history[i]);
    return standings_at(run.house(), history.at(std::max<std::size_t>(end, 1) - 1).clock);
}

struct Rest {
    std::size_t end = 0;  // the first line that is accepted in one history only
    Standings standings;  // before it
};
Rest rest_without(const Folders& folders, const History& history, const std::vector<bool>& accepted, std::size_t line) {
    Run run(folders);
    std::size_t end = 0;
    for (; end < history.size(); ++end)
        if (end != line && run.house().type(history[end]).accepted != accepted[end]) break;
    const bool nothing_typed = end == history.size() || accepted[end];  // what is refused leaves nothing
    if (!nothing_typed) return {end, run_until(folders, history, end, line)};
    return {end, standings_at(run.house(), history.at(std::max<std::size_t>(end, 1) - 1).clock)};
}

// An act that is refused whether a point is not within or open: what was missing let it pass.
bool is_let_go(const Folders& folders, const History& history, std::size_t end) {
    Run run(folders);
    for (std::size_t i = 0; i < end; ++i) run.type(history[i]);
    const auto attempts = attempts_of(history[end].text, history[end].clock, run.facts(), run.zone());
    return std::any_of(attempts.begin(), attempts.end(), [](const Attempt& one) { return gate_table().answer(one.act, "owed") == "no"; });
}

}  // namespace

std::vector<Violation> taken_away(const Folders& folders, const History& all, const std::vector<bool>& accepted, std::size_t line) {
    const History history(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(std::min(all.size(), line + most_after)));
    const auto [end, without] = rest_without(folders, history, accepted, line);
    const auto with = run_until(folders, history, end, history.size());
    std::vector<Violation> out;
    const std::string what = history[line].text.substr(0, history[line].text.find(' '));
    const auto tell = [&, end = end](const std::string& key, const std::string& told) {
        out.push_back({"taken away: " + what + ", " + key,
                       "without line " + std::to_string(line + 1) + " (" + history[line].text + ") " + told,
                       std::min(end, history.size() - 1),
                       {},
                       history[line].id});
    };
    if (end < history.size() && !accepted[end] && is_let_go(folders, history, end))
        tell("lets go", "this is accepted, with it it is refused: " + history[end].text);
    for (const auto& [key, verdict] : without.findings) {
        const auto found = with.findings.find(key);
        if (verdict > 0 || (found != with.findings.end() && found->second == 0)) continue;
        tell("within: " + key.substr(key.find(' ') + 1), key + " is within, with it it is not");
    }
    for (const auto& code : with.held) {
        const bool blocked = std::any_of(without.findings.begin(), without.findings.end(),
                                         [&](const auto& one) { return one.second > 0 && one.first.starts_with(code + " "); });
        if (!without.held.contains(code) && !blocked) tell("free", code + " is free, with it it is held");
    }
    return out;
}

}  // namespace peelbook::simulate
