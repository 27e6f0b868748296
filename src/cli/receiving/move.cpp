#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct MoveGiven {
    record::Stored stored;
    Recording recording;
};

void set_up(Options& options, MoveGiven& given) {
    options.word(given.stored.lot, "LOT", "the lot")
        .text(given.stored.place, "--to", "PLACE", "where it is put: a room, a rack, a store", Need::wanted);
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const MoveGiven& given) { return record(context, given.recording, given.stored); }

}  // namespace

extern const Command move_command;
const Command move_command{.name = "move",
                           .group = Group::receiving,
                           .about = "Put a lot in another place in the house.",
                           .more = {},
                           .examples = "peelbook move BUTTER-1 --to chill-room --by RS",
                           .takes_at = true,
                           .body = body<MoveGiven, set_up, act>()};

}  // namespace peelbook::cli
