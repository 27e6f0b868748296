// A lot was opened, or taken out to thaw: one kind of entry, two commands.
#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct ClockGiven {
    record::ClockStarted started;
    Recording recording;
};

void set_up(Options& options, ClockGiven& given) {
    options.word(given.started.lot, "LOT", "the lot")
        .flag(given.started.another, "--another", "another tub or box of it: the one before is used up");
    add_recording(options, given.recording);
}

Result<Exit> record_clock(Context& context, const ClockGiven& given, const char* clock) {
    auto started = given.started;
    started.clock = clock;
    return record(context, given.recording, started);
}

Result<Exit> act_opened(Context& context, const ClockGiven& given) { return record_clock(context, given, "opened"); }
Result<Exit> act_thawed(Context& context, const ClockGiven& given) { return record_clock(context, given, "thawed"); }

}  // namespace

extern const Command opened_command;
const Command opened_command{.name = "opened",
                             .group = Group::receiving,
                             .about = "Say that a lot was opened: a tub, a bag, a box.",
                             .more = "From then on it is to be used within the plan's opened_within. It only shortens: anybody may.",
                             .examples =
                                 "peelbook opened CREAM-1 --by MK\n"
                                 "peelbook opened CREAM-1 --another --by MK",
                             .takes_at = true,
                             .body = body<ClockGiven, set_up, act_opened>()};

extern const Command thawed_command;
const Command thawed_command{.name = "thawed",
                             .group = Group::receiving,
                             .about = "Say that a lot was taken out to thaw.",
                             .more =
                                 "From then on it is to be used within the plan's thawed_within. Nothing is frozen twice, unless the\n"
                                 "plan says refreeze = true.",
                             .examples = "peelbook thawed BERRIES-1 --at 05:10 --by MK",
                             .takes_at = true,
                             .body = body<ClockGiven, set_up, act_thawed>()};

}  // namespace peelbook::cli
