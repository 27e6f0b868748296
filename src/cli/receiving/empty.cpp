#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct EmptyGiven {
    record::Emptied emptied;
    Recording recording;
};

void set_up(Options& options, EmptyGiven& given) {
    options.word(given.emptied.vessel, "VESSEL", "the silo, tank or tub")
        .flag(given.emptied.inspected, "--inspected", "somebody looked inside: it is empty")
        .text(given.emptied.note, "--note", "TEXT", "anything worth keeping");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const EmptyGiven& given) { return record(context, given.recording, given.emptied); }

}  // namespace

extern const Command empty_command;
const Command empty_command{.name = "empty",
                            .group = Group::receiving,
                            .about = "Say that a vessel was run empty.",
                            .more = "Only with --inspected does what was in it end there; scales and cleaning alone do not.",
                            .examples = "peelbook empty silo-1 --inspected --by RS",
                            .takes_at = true,
                            .body = body<EmptyGiven, set_up, act>()};

}  // namespace peelbook::cli
