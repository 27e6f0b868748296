#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct UseGiven {
    record::Used used;
    Amount amount;
    Recording recording;
};

void set_up(Options& options, UseGiven& given) {
    options.word(given.used.lot, "LOT", "what goes in: a lot, or a vessel for what it holds")
        .amount(given.amount, "AMOUNT", "how much: 90kg, 200lb, 12pcs, or rest for all that is left", Need::optional)
        .text(given.used.into, "--into", "BATCH", "the batch it goes into", Need::wanted)
        .pieces(given.used.pieces, "--pieces", "pieces, of a lot that is counted in pieces (rework)")
        .text(given.used.label, "--label", "LABEL", "the label that the batch will be packed under, if not one of its product")
        .flag(given.used.possible, "--possible", "it may be in the batch, nobody is sure");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const UseGiven& given) {
    record::Used used = given.used;
    used.mass = given.amount.mass;
    used.rest = given.amount.rest;
    if (given.amount.pieces > 0) used.pieces = given.amount.pieces;
    used.why = given.recording.why;
    used.already_done = given.recording.already_done;
    if (!used.mass && !used.rest && used.pieces == 0 && !used.possible)
        return Refusal{"no quantity", "how much of the lot went in", "add a mass (90kg), --pieces N, or the word rest", {}};
    return record(context, given.recording, used);
}

}  // namespace

extern const Command use_command;
const Command use_command{.name = "use",
                          .group = Group::bench,
                          .about = "Put a lot into a batch.",
                          .more = "A held, refused or exhausted lot is refused; one past its best-before date wants --why.",
                          .examples =
                              "peelbook use FLOUR-1 90.7kg --into PAN-1 --by MK\n"
                              "peelbook use FLOUR-1 rest --into PAN-1 --by MK\n"
                              "peelbook use silo-1 60kg --into PAN-1 --at 04:10 --by MK",
                          .takes_at = true,
                          .body = body<UseGiven, set_up, act>()};

}  // namespace peelbook::cli
