#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "cli/keeping/amend_fields.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct AmendGiven {
    Seq target = 0;
    std::vector<std::string> changes;
    Recording recording;
};

void set_up(Options& options, AmendGiven& given) {
    options.seq_word(given.target, "ENTRY", "the number of the entry that is wrong")
        .words(given.changes, "FIELD=VALUE", "what is right; at=TIME moves the time; an empty value clears a field");
    add_recording_now(options, given.recording, Need::wanted);
}

// What the entry says today: as last amended, or as first stated.
struct Effective {
    record::Statement says;
    std::optional<Instant> moved_to;  // by an amendment
};
Result<Effective> effective(const site::Site& site, Seq target) {
    const auto first = site.entry(target);
    if (!first) return first.refusal();
    const auto* stated = std::get_if<record::Statement>(&first->payload);
    if (stated == nullptr)
        return Refusal{"entry " + std::to_string(target) + ", which is an amendment itself",
                       "the entry that was wrong at first",
                       "amend entry " + std::to_string(std::get<record::Amended>(first->payload).target) + " instead",
                       {}};
    Effective now{.says = *stated, .moved_to = {}};
    const auto last =
        site.ask("SELECT seq FROM correction WHERE target = " + std::to_string(target) + " AND kind = 'amended' ORDER BY seq DESC LIMIT 1");
    if (!last) return last.refusal();
    if (last->rows.empty()) return now;
    const auto amendment = site.entry(std::get<std::int64_t>(last->rows.front().front()));
    if (!amendment) return amendment.refusal();
    const auto& amended = std::get<record::Amended>(amendment->payload);
    return Effective{.says = amended.statement, .moved_to = amended.happened};
}

Result<Exit> act(Context& context, const AmendGiven& given) {
    const auto by = who(context, given.recording);
    if (!by) return by.refusal();
    const auto site = context.site(given.recording.site);
    if (!site) return site.refusal();
    auto entry = effective(**site, given.target);
    if (!entry) return entry.refusal();
    const auto time_of = [&](const std::string& typed) { return parse_when(typed, (*site)->zone(), context.clock.now()); };
    std::vector<std::string> changes;
    for (const std::string& change : given.changes) {
        if (!change.starts_with("at=")) {
            changes.push_back(change);
            continue;
        }
        const auto moved_to = time_of(change.substr(3));
        if (!moved_to) return moved_to.refusal();
        entry->moved_to = *moved_to;
    }
    if (auto checked = set_fields(entry->says, changes, time_of); !checked) return checked.refusal();
    const auto receipt = (*site)->amend(given.target, entry->says, entry->moved_to, *by, given.recording.why, given.recording.token);
    if (!receipt) return receipt.refusal();
    return tell(context, **site, *receipt, given.recording.json);
}

}  // namespace

extern const Command amend_command;
const Command amend_command{.name = "amend",
                            .group = Group::keeping,
                            .about = "Correct an entry: names the wrong one, keeps it, and states what is right.",
                            .more = "`peelbook entry N` shows the fields. What is not named stays as it was.",
                            .examples =
                                "peelbook amend 412 value=96.4C --why 'typed the wrong row' --by MK\n"
                                "peelbook amend 398 'at=2026-11-16 04:12' mass=90.7kg --why 'read off the sheet' --by MK",
                            .takes_at = false,
                            .body = body<AmendGiven, set_up, act>()};

}  // namespace peelbook::cli
