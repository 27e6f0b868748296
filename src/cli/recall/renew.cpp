#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct RenewGiven {
    record::CultureRenewed renewed;
    Recording recording;
};

void set_up(Options& options, RenewGiven& given) {
    options.word(given.renewed.lot, "LOT", "the feeding from which on the leaven counts as new");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const RenewGiven& given) { return record(context, given.recording, given.renewed); }

}  // namespace

extern const Command renew_command;
const Command renew_command{
    .name = "renew",
    .group = Group::recall,
    .about = "Decide, with a reason, that a leaven counts as a new culture.",
    .more = "A trace through the leaven before it ends at this lot and names the decision. Dilution alone never ends one.",
    .examples = "peelbook renew LEAVEN-3 --why \"started afresh from dried culture, old tub discarded\" --by QA",
    .takes_at = true,
    .body = body<RenewGiven, set_up, act>()};

}  // namespace peelbook::cli
