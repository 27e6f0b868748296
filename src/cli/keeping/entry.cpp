#include "record/entry.h"

#include <ostream>

#include "cli/frame/command.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Json;
using Pairs = std::vector<std::pair<std::string, std::string>>;

struct EntryGiven {
    Seq seq = 0;
    Asking asking;
};

void set_up(Options& options, EntryGiven& given) {
    options.seq_word(given.seq, "ENTRY", "the number of the entry");
    add_asking(options, given.asking);
}

// What an entry states; an amendment names its target first.
Pairs stated(const record::Payload& payload) {
    if (const auto* statement = std::get_if<record::Statement>(&payload)) return record::described(*statement);
    const auto& amended = std::get<record::Amended>(payload);
    Pairs pairs{{"amends", std::to_string(amended.target)}, {"why", amended.why}};
    for (auto& pair : record::described(amended.statement)) pairs.push_back(std::move(pair));
    return pairs;
}

Pairs frame(const record::Entry& entry, const Zone& zone) {
    Pairs pairs{{"entry", std::to_string(entry.seq)},
                {"kind", std::string(record::kind_of(entry.payload).name)},
                {"happened", to_text(zone, entry.happened, true)},
                {"written", to_text(zone, entry.written, true)},
                {"by", entry.by}};
    if (!entry.token.empty()) pairs.emplace_back("token", entry.token);
    return pairs;
}

// What an amendment changed: the fields that read otherwise than in `before`, which becomes what they read
// now.
Pairs changed(Pairs& before, const record::Statement& after) {
    Pairs lines;
    Pairs now = record::described(after);
    const auto value = [](const Pairs& pairs, const std::string& name) {
        for (const auto& pair : pairs)
            if (pair.first == name) return pair.second;
        return std::string("nothing");
    };
    for (const auto& [name, text] : now)
        if (value(before, name) != text) lines.emplace_back(name, value(before, name) + " -> " + text);
    for (const auto& [name, text] : before)
        if (value(now, name) == "nothing") lines.emplace_back(name, text + " -> nothing");
    before = std::move(now);
    return lines;
}

// Each correction with who, when and why, and what it changed.
Result<std::string> corrections_text(const site::Site& site, const record::Entry& entry, const Table& corrections) {
    std::string text;
    Pairs current = stated(entry.payload);
    for (const auto& row : corrections.rows) {
        const Seq seq = std::get<std::int64_t>(row.front());
        const auto correction = site.entry(seq);
        if (!correction) return correction.refusal();
        text += to_text(row[1]) + " by entry " + std::to_string(seq) + " of " + correction->by + " at " +
                to_text(site.zone(), correction->written) + ": " + to_text(row[2]) + "\n";
        const auto* amended = std::get_if<record::Amended>(&correction->payload);
        if (amended == nullptr) continue;
        if (amended->happened) text += "  happened  " + to_text(site.zone(), *amended->happened, true) + "\n";
        text += output::text_pairs(changed(current, amended->statement), 2);
    }
    return text;
}

Json object_of(const Pairs& pairs) {
    auto object = Json::object();
    for (const auto& [name, value] : pairs) object.set(name, value);
    return object;
}

Result<Exit> act(Context& context, const EntryGiven& given) {
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const auto entry = (*site)->entry(given.seq);
    if (!entry) return entry.refusal();
    const auto corrections = (*site)->ask(
        "SELECT seq AS entry, kind, why, before, after FROM correction WHERE target = " + std::to_string(given.seq) + " ORDER BY seq");
    if (!corrections) return corrections.refusal();
    Pairs pairs = frame(*entry, (*site)->zone());
    if ((*site)->is_practice(entry->seq)) pairs.emplace_back("practice", "recorded in practice");
    if (given.asking.json) {
        Json json = object_of(pairs);
        json.set("says", object_of(stated(entry->payload))).set("corrections", output::to_json(*corrections));
        context.out << json.text() << '\n';
        return Exit::done;
    }
    context.out << output::text_pairs(pairs) << output::text_pairs(stated(entry->payload), 2);
    const auto corrected = corrections_text(**site, *entry, *corrections);
    if (!corrected) return corrected.refusal();
    context.out << *corrected;
    return Exit::done;
}

}  // namespace

extern const Command entry_command;
const Command entry_command{.name = "entry",
                            .group = Group::keeping,
                            .about = "Show an entry as it was written, and what corrected it since.",
                            .more = {},
                            .examples = "peelbook entry 412",
                            .takes_at = false,
                            .body = body<EntryGiven, set_up, act>()};

}  // namespace peelbook::cli
