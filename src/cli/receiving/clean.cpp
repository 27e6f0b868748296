#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct CleanGiven {
    record::Cleaned cleaned;
    Recording recording;
};

void set_up(Options& options, CleanGiven& given) {
    options.word(given.cleaned.subject, "SUBJECT", "the vessel, place or piece of equipment")
        .text(given.cleaned.how, "--how", "TEXT", "how: dry, wet, changeover, ...")
        .text(given.cleaned.note, "--note", "TEXT", "anything worth keeping");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const CleanGiven& given) { return record(context, given.recording, given.cleaned); }

}  // namespace

extern const Command clean_command;
const Command clean_command{.name = "clean",
                            .group = Group::receiving,
                            .about = "Record a cleaning.",
                            .more = {},
                            .examples = "peelbook clean silo-1 --how dry --by RS",
                            .takes_at = true,
                            .body = body<CleanGiven, set_up, act>()};

}  // namespace peelbook::cli
