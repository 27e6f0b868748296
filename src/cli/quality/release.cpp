#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct ReleaseGiven {
    std::vector<std::string> lots;
    Recording recording;
};

void set_up(Options& options, ReleaseGiven& given) {
    options.words(given.lots, "LOT", "the lots");
    add_recording(options, given.recording, Need::wanted);
}

Result<Exit> act(Context& context, const ReleaseGiven& given) {
    return record(context, given.recording, record::Released{.lots = given.lots, .why = given.recording.why});
}

}  // namespace

extern const Command release_command;
const Command release_command{.name = "release",
                              .group = Group::quality,
                              .about = "End the hold of lots; not of what was made from them.",
                              .more = {},
                              .examples = "peelbook release FLOUR-1 --why 'sieve test clear, certificate 88' --by QA",
                              .takes_at = true,
                              .body = body<ReleaseGiven, set_up, act>()};

}  // namespace peelbook::cli
