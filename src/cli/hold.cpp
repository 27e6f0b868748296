#include "cli/command.h"
#include "cli/recording.h"

namespace peelbook::cli {
namespace {

struct Given {
    std::vector<std::string> lots;
    Recording recording;
};

void set_up(Options& options, Given& given) {
    options.words(given.lots, "LOT", "the lots");
    add_recording(options, given.recording, Need::wanted);
}

Result<Exit> act(Context& context, const Given& given) {
    return record(context, given.recording,
                  record::Held{.lots = given.lots, .why = given.recording.why, .cause = {}});
}

}  // namespace

extern const Command hold_command;
const Command hold_command{.name = "hold",
                           .group = Group::quality,
                           .about = "Put lots on hold, and everything on hand that was made from them.",
                           .more = {},
                           .examples = "peelbook hold FLOUR-1 --why 'the miller called: stones' --by QA",
                           .takes_at = true,
                           .body = body<Given, set_up, act>()};

}  // namespace peelbook::cli
