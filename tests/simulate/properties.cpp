#include "simulate/properties.h"

#include <algorithm>

#include "cli/frame/words.h"
#include "simulate/owed.h"

namespace peelbook::simulate {
const std::vector<std::pair<std::string, std::string>>& watched_points() {
    static const std::vector<std::pair<std::string, std::string>> all = {{"chill", "chill-air"}, {"detector", "metal"}};
    return all;
}

std::vector<Violation> no_way_out(const Judge& judge, const std::vector<Attempt>& attempts, const std::string& typed) {
    std::vector<Violation> out;
    for (const auto& attempt : attempts)
        for (const auto& state : judge.forbidding(attempt))
            out.push_back({"no way out: " + attempt.act + ", " + state, typed + " was accepted; " + attempt.lot + " is " + state});
    return out;
}

std::vector<Violation> owed_otherwise(House& house, const Facts& facts, Instant now) {
    std::vector<Violation> out;
    const SlowCount count(facts);
    const auto text = [&](Instant at) { return to_iso(house.zone(), at); };
    for (const auto& [place, point] : watched_points()) {
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

}  // namespace peelbook::simulate
