#include "cli/frame/command.h"
#include "cli/frame/parts.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct SplitGiven {
    std::string batch;
    std::vector<std::string> parts;
    Recording recording;
};

void set_up(Options& options, SplitGiven& given) {
    options.word(given.batch, "BATCH", "the batch that is parted")
        .each(given.parts, "--part", "RACK=AMOUNT", "a rack and what stands on it: rack-A=40, rack-A=12.5kg", Need::wanted);
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const SplitGiven& given) {
    const auto parts = parse_parts(given.parts);
    if (!parts) return parts.refusal();
    std::vector<record::Statement> racks;
    for (const record::Part& part : *parts)
        racks.push_back(record::Split{.lot = given.batch, .child = {}, .unit = part.lot, .pieces = part.pieces, .mass = part.mass});
    return record_all(context, given.recording, racks);
}

}  // namespace

extern const Command split_command;
const Command split_command{.name = "split",
                            .group = Group::bench,
                            .about = "Part a batch into racks; each becomes a lot that is read, held and packed by itself.",
                            .more = "Pieces and mass of the racks sum exactly to those of the batch.",
                            .examples = "peelbook split PAN-1 --part rack-A=128 --part rack-B=128 --by MK",
                            .takes_at = true,
                            .body = body<SplitGiven, set_up, act>()};

}  // namespace peelbook::cli
