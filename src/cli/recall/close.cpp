#include "cli/recall/recall.h"

namespace peelbook::cli {
namespace {

struct RecallCloseGiven {
    std::string code;
    Recording recording;
};

void set_up(Options& options, RecallCloseGiven& given) {
    options.word(given.code, "CODE", "the recall or drill");
    add_recording(options, given.recording);
}

template <bool drill> Result<Exit> act(Context& context, const RecallCloseGiven& given) {
    if (auto checked = fits_family(given.code, drill, "close"); !checked) return checked.refusal();
    record::RecallClosed says;
    says.recall = given.code;
    says.why = given.recording.why;
    return record(context, given.recording, std::move(says));
}

constexpr std::string_view about_close = "Close it. What is not done, told or accounted for wants a reason, which stays.";

}  // namespace

extern const Command recall_close_command;
const Command recall_close_command{
    .name = "recall close",
    .group = Group::recall,
    .about = about_close,
    .more = "Holds stay until what is held is released or discarded.",
    .examples = "peelbook recall close RECALL-261120-1 --why '3 loaves sold on a market, buyers not known' --by AB",
    .takes_at = true,
    .body = body<RecallCloseGiven, set_up, act<false>>()};

extern const Command drill_close_command;
const Command drill_close_command{.name = "drill close",
                                  .group = Group::recall,
                                  .about = about_close,
                                  .more = {},
                                  .examples = "peelbook drill close DRILL-261120-1 --why 'customers were not asked to count' --by AB",
                                  .takes_at = true,
                                  .body = body<RecallCloseGiven, set_up, act<true>>()};

}  // namespace peelbook::cli
