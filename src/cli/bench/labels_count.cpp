#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct LabelsCountGiven {
    record::LabelsCounted counted;
    Recording recording;
};

void set_up(Options& options, LabelsCountGiven& given) {
    record::LabelsCounted& c = given.counted;
    options.word(c.line, "LINE", "the line on which was packed")
        .text(c.label, "--label", "LABEL", "the label's id", Need::wanted)
        .pieces(c.issued, "--issued", "labels taken out for the run")
        .pieces(c.applied, "--applied", "labels on packs")
        .pieces(c.spoiled, "--spoiled", "labels destroyed")
        .pieces(c.returned, "--returned", "labels put back")
        .text(c.reel, "--reel", "CODE", "the reel: our lot, or the maker's number")
        .text(c.note, "--note", "TEXT", "anything worth keeping");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const LabelsCountGiven& given) { return record(context, given.recording, given.counted); }

}  // namespace

extern const Command labels_count_command;
const Command labels_count_command{.name = "labels count",
                                   .group = Group::bench,
                                   .about = "Record where the labels of a packing run went.",
                                   .more = "issued = applied + spoiled + returned, or there is a finding.",
                                   .examples =
                                       "peelbook labels count line-bread --label tin-loaf-1 --issued 500 "
                                       "--applied 476 --spoiled 4 --returned 20 --by EM",
                                   .takes_at = true,
                                   .body = body<LabelsCountGiven, set_up, act>()};

}  // namespace peelbook::cli
