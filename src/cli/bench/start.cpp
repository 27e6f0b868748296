#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct StartGiven {
    record::Started started;
    Recording recording;
};

void set_up(Options& options, StartGiven& given) {
    options.word(given.started.product, "PRODUCT", "the product, as the plan names it")
        .mass(given.started.flour, "--flour", "the size, by mass of flour: 200lb, 100kg")
        .mass(given.started.dough, "--dough", "the size, by mass of dough")
        .pieces(given.started.pieces, "--pieces", "the size, by number of pieces")
        .text(given.started.line, "--line", "LINE", "the line it runs on, if not the product's own")
        .text(given.started.lot, "--code", "CODE", "a code of your own for the batch; else one is made");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const StartGiven& given) {
    const int sizes = int{given.started.flour.has_value()} + int{given.started.dough.has_value()} + int{given.started.pieces > 0};
    if (sizes > 1) return Refusal{"more than one size", "one of --flour, --dough and --pieces", "leave the others out", {}};
    return record(context, given.recording, given.started);
}

}  // namespace

extern const Command start_command;
const Command start_command{.name = "start",
                            .group = Group::bench,
                            .about = "Start a batch and print its weigh sheet.",
                            .more =
                                "Without a size, the product's usual one is taken. The weigh sheet names the "
                                "lots on hand, first-expired first.",
                            .examples =
                                "peelbook start pan-loaf --flour 200lb --by MK\n"
                                "peelbook start pan-loaf --pieces 240 --line line-1 --at 04:02 --by MK",
                            .takes_at = true,
                            .body = body<StartGiven, set_up, act>()};

}  // namespace peelbook::cli
