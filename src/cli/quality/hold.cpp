#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct HoldGiven {
    std::vector<std::string> lots;
    Recording recording;
};

void set_up(Options& options, HoldGiven& given) {
    options.words(given.lots, "LOT", "the lots, or a code printed on packs");
    add_recording(options, given.recording, Need::wanted);
}

Result<Exit> act(Context& context, const HoldGiven& given) {
    return record(context, given.recording, record::Held{.lots = given.lots, .why = given.recording.why, .cause = {}});
}

}  // namespace

extern const Command hold_command;
const Command hold_command{.name = "hold",
                           .group = Group::quality,
                           .about = "Put lots on hold, and everything on hand that was made from them.",
                           .more = {},
                           .examples = "peelbook hold FLOUR-1 --why 'the miller called: stones' --by QA",
                           .takes_at = true,
                           .body = body<HoldGiven, set_up, act>()};

}  // namespace peelbook::cli
