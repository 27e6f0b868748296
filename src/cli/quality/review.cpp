#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct ReviewGiven {
    record::Reviewed reviewed;
    Recording recording;
};

void set_up(Options& options, ReviewGiven& given) {
    options.word(given.reviewed.what, "WHAT", "a lot, or a week: 2026-W47")
        .text(given.reviewed.note, "--note", "TEXT", "anything worth keeping");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const ReviewGiven& given) { return record(context, given.recording, given.reviewed); }

}  // namespace

extern const Command review_command;
const Command review_command{.name = "review",
                             .group = Group::quality,
                             .about = "Sign that the records of a lot or a week were reviewed.",
                             .more = "A later amendment of what was reviewed opens it again.",
                             .examples = "peelbook review 2026-W47 --by QA\npeelbook review PAN-1 --note 'cooling seen' --by QA",
                             .takes_at = true,
                             .body = body<ReviewGiven, set_up, act>()};

}  // namespace peelbook::cli
