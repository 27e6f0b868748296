#include "cli/frame/command.h"
#include "cli/frame/parts.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct PackGiven {
    std::vector<std::string> from;
    record::Packed packed;
    Recording recording;
};

void set_up(Options& options, PackGiven& given) {
    options.words(given.from, "BATCH[=PIECES]", "what goes into the packs; without a number all that is left")
        .text(given.packed.label, "--label", "LABEL", "the label, as the plan names it; else the product's usual one")
        .text(given.packed.printed_code, "--printed", "CODE", "the code as printed on the pack: what a recall names", Need::wanted)
        .date(given.packed.date, "--date", "the date as printed: 2026-11-23")
        .pieces(given.packed.pieces, "--packs", "packs made, if not one a piece")
        .text(given.packed.lot, "--code", "CODE", "a code of your own for the packs; else one is made");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const PackGiven& given) {
    auto from = parse_parts(given.from);
    if (!from) return from.refusal();
    record::Packed packed = given.packed;
    packed.from = std::move(*from);
    packed.why = given.recording.why;
    packed.already_done = given.recording.already_done;
    return record(context, given.recording, packed);
}

}  // namespace

extern const Command pack_command;
const Command pack_command{.name = "pack",
                           .group = Group::bench,
                           .about = "Pack batches or racks under a label.",
                           .more = "A label that does not declare an allergen of what is packed is refused.",
                           .examples =
                               "peelbook pack PAN-1 --label pan-loaf-1 --printed L321 --date 2026-11-23 --by MK\n"
                               "peelbook pack PAN-1=60 PAN-2=60 --label pan-loaf-1 --printed L321 --by MK",
                           .takes_at = true,
                           .body = body<PackGiven, set_up, act>()};

}  // namespace peelbook::cli
