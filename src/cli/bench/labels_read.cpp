#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct LabelsReadGiven {
    record::LabelChecked read;
    Recording recording;
};

void set_up(Options& options, LabelsReadGiven& given) {
    record::LabelChecked& r = given.read;
    options.word(r.line, "LINE", "the line on which is packed")
        .one_of(r.moment, "MOMENT", {"start", "reel", "change", "end"}, "of the packing run; change: of date or product", Need::wanted)
        .text(r.label, "--label", "LABEL", "the label's id, as read from it", Need::wanted)
        .text(r.printed_code, "--printed", "CODE", "the code, as read from it")
        .date(r.date, "--date", "the date, as read from it")
        .text(r.reel, "--reel", "CODE", "the reel: our lot, or the maker's number")
        .text(r.note, "--note", "TEXT", "anything worth keeping");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const LabelsReadGiven& given) { return record(context, given.recording, given.read); }

}  // namespace

extern const Command labels_read_command;
const Command labels_read_command{.name = "labels read",
                                  .group = Group::bench,
                                  .about = "Record what a label says at a moment of a packing run.",
                                  .more = "Every packing until the end of the run is held against it: label, printed code and date.",
                                  .examples =
                                      "peelbook labels read line-bread start --label tin-loaf-1 --printed TL321 --date 2026-11-22 --reel "
                                      "R-114 --by EM\n"
                                      "peelbook labels read line-bread end --label tin-loaf-1 --by EM",
                                  .takes_at = true,
                                  .body = body<LabelsReadGiven, set_up, act>()};

}  // namespace peelbook::cli
