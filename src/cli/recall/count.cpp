#include "cli/recall/recall.h"

namespace peelbook::cli {
namespace {

struct RecallCountGiven {
    record::RecallCounted counted;
    Amount amount;
    Recording recording;
};

void set_up(Options& options, RecallCountGiven& given) {
    record::RecallCounted& c = given.counted;
    options.word(c.recall, "CODE", "the recall or drill")
        .word(c.code, "PRINTED-CODE", "as read from the pack; or one of our lots")
        .one_of(c.what, "WHAT", {"returned", "destroyed", "used", "found"}, "what became of it; found: it stands there still", Need::wanted)
        .amount(given.amount, "QTY", "12pcs or 4.5kg")
        .text(c.partner, "--from", "PARTNER", "the customer who says so")
        .text(c.way, "--way", "WAY", "without one: the way by which it had left, own-shop or staff-shop")
        .text(c.note, "--note", "TEXT", "who counted, how it was destroyed");
    add_recording(options, given.recording);
}

template <bool drill> Result<Exit> act(Context& context, const RecallCountGiven& given) {
    if (auto checked = fits_family(given.counted.recall, drill, "count"); !checked) return checked.refusal();
    if (given.amount.rest) return Refusal{"'rest'", "a number that someone counted", "type it as 12pcs or 4.5kg", {}};
    auto says = given.counted;
    says.pieces = given.amount.pieces;
    says.mass = given.amount.mass;
    return record(context, given.recording, std::move(says));
}

constexpr std::string_view about_count = "Record what a customer says of the goods: returned, destroyed, used or found.";
constexpr std::string_view more_count =
    "A printed code may be on several of our lots: the pieces are then spread over those that went to the "
    "customer. In a recall,\n"
    "`returned` also records the return; in a drill nothing moves. What is more than was sent credits nobody: it is kept, and "
    "asked about.\n"
    "A wrong count is voided and stated anew.";

}  // namespace

extern const Command recall_count_command;
const Command recall_count_command{
    .name = "recall count",
    .group = Group::recall,
    .about = about_count,
    .more = more_count,
    .examples =
        "peelbook recall count RECALL-261120-1 L321 returned 12pcs --from CAFE-1 --by AB\n"
        "peelbook recall count RECALL-261120-1 L321 used 28pcs --from CAFE-1 --note 'sold on Monday, says Ms "
        "Lund' --by AB\n"
        "peelbook recall count RECALL-261120-1 L321 returned 3pcs --way own-shop --note 'brought to the counter' --by AB",
    .takes_at = true,
    .body = body<RecallCountGiven, set_up, act<false>>()};

extern const Command drill_count_command;
const Command drill_count_command{.name = "drill count",
                                  .group = Group::recall,
                                  .about = about_count,
                                  .more = more_count,
                                  .examples = "peelbook drill count DRILL-261120-1 L321 found 12pcs --from CAFE-1 --by AB",
                                  .takes_at = true,
                                  .body = body<RecallCountGiven, set_up, act<true>>()};

}  // namespace peelbook::cli
