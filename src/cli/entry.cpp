#include "record/entry.h"

#include <ostream>

#include "cli/command.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Json;
using Pairs = std::vector<std::pair<std::string, std::string>>;

struct Given {
    Seq seq = 0;
    Asking asking;
};

void set_up(Options& options, Given& given) {
    options.seq_word(given.seq, "ENTRY", "the number of the entry");
    add_asking(options, given.asking);
}

// What an entry states; an amendment names its target first.
Pairs stated(const record::Payload& payload) {
    if (const auto* statement = std::get_if<record::Statement>(&payload))
        return record::described(*statement);
    const auto& amended = std::get<record::Amended>(payload);
    Pairs pairs{{"amends", std::to_string(amended.target)}, {"why", amended.why}};
    for (auto& pair : record::described(amended.statement)) pairs.push_back(std::move(pair));
    return pairs;
}

Pairs frame(const record::Entry& entry, const Zone& zone) {
    Pairs pairs{{"entry", std::to_string(entry.seq)},
                {"kind", std::string(record::kind_of(entry.payload))},
                {"happened", to_text(zone, entry.happened, true)},
                {"written", to_text(zone, entry.written, true)},
                {"by", entry.by}};
    if (!entry.token.empty()) pairs.emplace_back("token", entry.token);
    return pairs;
}

Json object_of(const Pairs& pairs) {
    auto object = Json::object();
    for (const auto& [name, value] : pairs) object.set(name, value);
    return object;
}

Result<Exit> act(Context& context, const Given& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const auto entry = (*site)->entry(given.seq);
    if (!entry) return entry.refusal();
    const auto corrections =
        (*site)->ask("SELECT seq AS entry, kind, why, before, after FROM correction WHERE target = " +
                     std::to_string(given.seq) + " ORDER BY seq");
    if (!corrections) return corrections.refusal();
    const Pairs pairs = frame(*entry, (*site)->zone());
    if (given.asking.json) {
        Json json = object_of(pairs);
        json.set("says", object_of(stated(entry->payload))).set("corrections", output::to_json(*corrections));
        context.out << json.text() << '\n';
        return Exit::done;
    }
    context.out << output::text_pairs(pairs) << output::text_pairs(stated(entry->payload), 2);
    if (!corrections->rows.empty())
        context.out << "corrected since\n"
                    << output::text_table(*corrections, output::TextTableStyle{
                                                            .indent = 2, .most_width = 60, .headings = true});
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
                            .body = body<Given, set_up, act>()};

}  // namespace peelbook::cli
