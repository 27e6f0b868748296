#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct CopackedGiven {
    record::CoPacked packed;
    Recording recording;
};

void set_up(Options& options, CopackedGiven& given) {
    options.word(given.packed.product, "PRODUCT", "what came back, as the plan names it")
        .text(given.packed.partner, "--from", "PARTNER", "the co-packer", Need::wanted)
        .each(given.packed.from, "--of", "LOT", "a lot of ours that they say it is made of; without one each that was sent may be in it")
        .pieces(given.packed.pieces, "--pieces", "how many came back")
        .mass(given.packed.mass, "--mass", "the weight of what came back")
        .text(given.packed.partner_lot, "--their-lot", "CODE", "the co-packer's own code")
        .text(given.packed.label, "--label", "LABEL", "the label; else the product's usual one")
        .text(given.packed.printed_code, "--printed", "CODE", "the code as printed on the pack: what a recall names")
        .date(given.packed.date, "--date", "the date as printed: 2026-11-23")
        .text(given.packed.document, "--document", "TEXT", "the delivery note")
        .text(given.packed.lot, "--code", "CODE", "a code of your own for the new lot; else one is made");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const CopackedGiven& given) { return record(context, given.recording, given.packed); }

}  // namespace

extern const Command copacked_command;
const Command copacked_command{.name = "copacked",
                               .group = Group::receiving,
                               .about = "Take back what a co-packer made of goods that were sent to them.",
                               .more = "It is a new lot with uses of what was sent: peelbook ship LOT --way co-packer --to PARTNER.",
                               .examples =
                                   "peelbook copacked sliced-rye --from PACKER-1 --of RYE-3 --pieces 400 --printed L331 --by RS\n"
                                   "peelbook copacked sliced-rye --from PACKER-1 --pieces 400 --printed L331 --by RS",
                               .takes_at = true,
                               .body = body<CopackedGiven, set_up, act>()};

}  // namespace peelbook::cli
