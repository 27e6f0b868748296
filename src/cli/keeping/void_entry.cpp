#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct VoidEntryGiven {
    Seq target = 0;
    Recording recording;
};

void set_up(Options& options, VoidEntryGiven& given) {
    options.seq_word(given.target, "ENTRY", "the number of the entry that should not be");
    add_recording_now(options, given.recording, Need::wanted);
}

Result<Exit> act(Context& context, const VoidEntryGiven& given) {
    const auto by = who(context, given.recording);
    if (!by) return by.refusal();
    const auto site = context.site(given.recording.site);
    if (!site) return site.refusal();
    const auto receipt = (*site)->void_entry(given.target, *by, given.recording.why, given.recording.token);
    if (!receipt) return receipt.refusal();
    return tell(context, **site, *receipt, given.recording.json);
}

}  // namespace

extern const Command void_entry_command;
const Command void_entry_command{.name = "void",
                                 .group = Group::keeping,
                                 .about = "Say that an entry should never have been made; it stays in the book, struck.",
                                 .more = "Refused while other entries stand on it. What it would make milder waits for another person.",
                                 .examples = "peelbook void 413 --why 'typed twice' --by MK",
                                 .takes_at = false,
                                 .body = body<VoidEntryGiven, set_up, act>()};

}  // namespace peelbook::cli
