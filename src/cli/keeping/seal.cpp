#include <ostream>

#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct SealGiven {
    record::Sealed sealed;
    Recording recording;
};

void set_up(Options& options, SealGiven& given) {
    options.text(given.sealed.given_to, "--given-to", "WHO", "who outside the bakery is given the head", Need::wanted);
    add_recording_now(options, given.recording);
}

Result<Exit> act(Context& context, const SealGiven& given) { return record(context, given.recording, given.sealed); }

}  // namespace

extern const Command seal_command;
const Command seal_command{.name = "seal",
                           .group = Group::keeping,
                           .about = "Record that the head of the chain was given to someone outside.",
                           .more = "Whoever keeps it can later prove that nothing before it was changed or cut off.",
                           .examples = "peelbook seal --given-to 'certifier, by e-mail' --by QA",
                           .takes_at = false,
                           .body = body<SealGiven, set_up, act>()};

}  // namespace peelbook::cli
