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

Result<Exit> hold(Context& context, const Given& given) {
    return record(context, given.recording, record::Held{.lots = given.lots, .why = given.recording.why, .cause = {}});
}

Result<Exit> release(Context& context, const Given& given) {
    return record(context, given.recording, record::Released{.lots = given.lots, .why = given.recording.why});
}

}  // namespace

extern const Command hold_command;
const Command hold_command{.name = "hold",
                           .group = Group::quality,
                           .about = "Put lots on hold, and everything on hand that was made from them.",
                           .more = {},
                           .examples = "peelbook hold FLOUR-1 --why 'the miller called: stones' --by QA",
                           .takes_at = true,
                           .body = body<Given, set_up, hold>()};

extern const Command release_command;
const Command release_command{.name = "release",
                              .group = Group::quality,
                              .about = "End the hold of lots; not of what was made from them.",
                              .more = {},
                              .examples = "peelbook release FLOUR-1 --why 'sieve test clear, certificate 88' --by QA",
                              .takes_at = true,
                              .body = body<Given, set_up, release>()};

}  // namespace peelbook::cli
