#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct UndoGiven {
    Recording recording;
};

void set_up(Options& options, UndoGiven& given) { add_recording_now(options, given.recording); }

Result<Exit> act(Context& context, const UndoGiven& given) {
    const auto by = who(context, given.recording);
    if (!by) return by.refusal();
    const auto site = context.site(given.recording.site);
    if (!site) return site.refusal();
    const auto receipt = (*site)->undo(*by, given.recording.token);
    if (!receipt) return receipt.refusal();
    return tell(context, **site, *receipt, given.recording.json);
}

}  // namespace

extern const Command undo_command;
const Command undo_command{.name = "undo",
                           .group = Group::keeping,
                           .about = "Take back your own last entry, within 10 minutes of writing it.",
                           .more = "An event always, a measurement only if nothing came of it. It stays in the book, struck.",
                           .examples = "peelbook undo --by MK",
                           .takes_at = false,
                           .body = body<UndoGiven, set_up, act>()};

}  // namespace peelbook::cli
