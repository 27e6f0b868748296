#include "cli/frame/command.h"
#include "cli/frame/finding_text.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct ActGiven {
    std::string finding;
    record::Acted acted;
    Recording recording;
};

void set_up(Options& options, ActGiven& given) {
    options.word(given.finding, "FINDING", "the finding as it was printed: 412:bake-core")
        .text(given.acted.product, "--product", "TEXT", "what was done with the product")
        .text(given.acted.process, "--process", "TEXT", "what was done about the process")
        .one_of(given.acted.disposition, "--disposition", {"release", "rework", "downgrade", "discard"}, "what becomes of the product")
        .text(given.acted.cause, "--cause", "TEXT", "why it happened")
        .text(given.acted.prevention, "--prevention", "TEXT", "what keeps it from happening again");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const ActGiven& given) {
    record::Acted acted = given.acted;
    auto key = parse_key(given.finding);
    if (!key) return key.refusal();
    acted.finding = std::move(*key);
    return record(context, given.recording, acted);
}

}  // namespace

extern const Command act_command;
const Command act_command{.name = "act",
                          .group = Group::quality,
                          .about = "Record the corrective action for a finding, and what becomes of the product.",
                          .more = {},
                          .examples =
                              "peelbook act 412:bake-core --product 'baked 6 min more, core 97C' --process 'deck 2 turned up' "
                              "--disposition release --by QA",
                          .takes_at = true,
                          .body = body<ActGiven, set_up, act>()};

}  // namespace peelbook::cli
