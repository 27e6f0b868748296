#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct FinishGiven {
    record::Finished finished;
    Recording recording;
};

void set_up(Options& options, FinishGiven& given) {
    options.word(given.finished.lot, "BATCH", "the batch")
        .pieces(given.finished.pieces, "--pieces", "good pieces that came out")
        .pieces(given.finished.spoiled, "--spoiled", "pieces that came out too and are waste: burnt, dropped")
        .mass(given.finished.mass, "--mass", "what the good pieces weigh together")
        .text(given.finished.note, "--note", "TEXT", "anything worth keeping");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const FinishGiven& given) {
    if (given.finished.pieces == 0 && given.finished.spoiled == 0 && !given.finished.mass)
        return Refusal{"no yield", "what came out of the batch", "add --pieces N, --mass 120kg, or both", {}};
    return record(context, given.recording, given.finished);
}

}  // namespace

extern const Command finish_command;
const Command finish_command{.name = "finish",
                             .group = Group::bench,
                             .about = "Finish a batch with its yield; says what was forgotten.",
                             .more =
                                 "Spoiled pieces are made and wasted by the same entry, and want a reason; so does a yield further from\n"
                                 "what the dough makes than the plan allows (yield_tolerance).",
                             .examples =
                                 "peelbook finish PAN-1 --pieces 256 --mass 128kg --by MK\n"
                                 "peelbook finish PAN-1 --pieces 60 --spoiled 35 --mass 30kg --why 'burnt, deck 2' --by MK",
                             .takes_at = true,
                             .body = body<FinishGiven, set_up, act>()};

}  // namespace peelbook::cli
