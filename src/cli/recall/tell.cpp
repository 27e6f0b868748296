#include "cli/recall/recall.h"

namespace peelbook::cli {
namespace {

struct RecallTellGiven {
    record::RecallTold told;
    Recording recording;
};

void set_up(Options& options, RecallTellGiven& given) {
    record::RecallTold& t = given.told;
    options.word(t.recall, "CODE", "the recall or drill")
        .one_of(t.whom, "WHOM", {"authority", "customers", "public", "supplier"}, "who was told as a body; single customers: contact",
                Need::wanted)
        .text(t.name, "--name", "NAME", "which authority, which paper, whose desk")
        .text(t.how, "--how", "TEXT", "by telephone, form, letter, notice in the shop")
        .text(t.note, "--note", "TEXT", "what was said, and under which number");
    add_recording(options, given.recording);
}

template <bool drill> Result<Exit> act(Context& context, const RecallTellGiven& given) {
    if (auto checked = fits_family(given.told.recall, drill, "tell"); !checked) return checked.refusal();
    return record(context, given.recording, given.told);
}

constexpr std::string_view about_tell = "Record who was told: the authority, customers, the public, the supplier.";
constexpr std::string_view more_tell = "The plan's [[deadline]] sections say by when; status shows what is overdue.";

}  // namespace

extern const Command recall_tell_command;
const Command recall_tell_command{.name = "recall tell",
                                  .group = Group::recall,
                                  .about = about_tell,
                                  .more = more_tell,
                                  .examples =
                                      "peelbook recall tell RECALL-261120-1 authority --name 'food office' "
                                      "--how telephone --note 'case 17' --at 06:10 --by AB",
                                  .takes_at = true,
                                  .body = body<RecallTellGiven, set_up, act<false>>()};

extern const Command drill_tell_command;
const Command drill_tell_command{.name = "drill tell",
                                 .group = Group::recall,
                                 .about = about_tell,
                                 .more = more_tell,
                                 .examples = "peelbook drill tell DRILL-261120-1 authority --how 'form filled in, not sent' --by AB",
                                 .takes_at = true,
                                 .body = body<RecallTellGiven, set_up, act<true>>()};

}  // namespace peelbook::cli
