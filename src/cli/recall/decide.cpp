#include "cli/recall/recall.h"

namespace peelbook::cli {
namespace {

struct RecallDecideGiven {
    record::RecallDecided decided;
    Recording recording;
};

void set_up_decide(Options& options, RecallDecideGiven& given) {
    record::RecallDecided& d = given.decided;
    options.word(d.recall, "CODE", "the recall or drill")
        .one_of(d.decision, "--decision", {"recall", "withdrawal", "stock-only", "none"},
                "recall: from consumers; withdrawal: from customers; stock-only: what is here")
        .one_of(d.grade, "--class", {"I", "II", "III"}, "class (21 CFR 7.3(m))")
        .text(d.hazard, "--hazard", "TEXT", "what is feared, as it is known now");
    add_recording(options, given.recording, Need::wanted);
}

void set_up_narrow(Options& options, RecallDecideGiven& given) {
    record::RecallDecided& d = given.decided;
    options.word(d.recall, "CODE", "the recall or drill")
        .words(d.out, "LOT", "lots to leave out")
        .text(d.hazard, "--hazard", "TEXT", "the hazard that this decision is about", Need::wanted);
    add_recording(options, given.recording, Need::wanted);
}

struct RecallWidenGiven {
    record::RecallWidened widened;
    Recording recording;
};

void set_up_widen(Options& options, RecallWidenGiven& given) {
    options.word(given.widened.recall, "CODE", "the recall or drill")
        .words(given.widened.back, "LOT", "lots to take in, or back in where they were left out");
    add_recording(options, given.recording, Need::wanted);
}

template <bool drill> Result<Exit> widen(Context& context, const RecallWidenGiven& given) {
    if (auto checked = fits_family(given.widened.recall, drill, "widen"); !checked) return checked.refusal();
    auto says = given.widened;
    says.why = given.recording.why;
    return record(context, given.recording, std::move(says));
}

template <bool drill, bool narrow> Result<Exit> act(Context& context, const RecallDecideGiven& given) {
    if (auto checked = fits_family(given.decided.recall, drill, narrow ? "narrow" : "decide"); !checked) return checked.refusal();
    auto says = given.decided;
    says.why = given.recording.why;
    return record(context, given.recording, std::move(says));
}

constexpr std::string_view about_decide = "State what is decided: from whom it is taken back, class, hazard.";
constexpr std::string_view about_narrow = "Leave lots out, by a signed decision with hazard and reason; they stay on every list.";
constexpr std::string_view more_narrow =
    "A small share means nothing for a germ or a stone, so nothing is left out by itself. Also what signs "
    "off a lot that a\n"
    "correction cut off. What was made from the lots stays covered unless it is named too.";

constexpr std::string_view about_widen = "Take lots in, or back in where they were left out, with all that was made from them.";

}  // namespace

extern const Command recall_widen_command;
const Command recall_widen_command{
    .name = "recall widen",
    .group = Group::recall,
    .about = about_widen,
    .more = {},
    .examples = "peelbook recall widen RECALL-261120-1 MILL-1:W4472 --why 'the miller names this lot too' --by AB",
    .takes_at = true,
    .body = body<RecallWidenGiven, set_up_widen, widen<false>>()};

extern const Command drill_widen_command;
const Command drill_widen_command{.name = "drill widen",
                                  .group = Group::recall,
                                  .about = about_widen,
                                  .more = {},
                                  .examples = "peelbook drill widen DRILL-261120-1 PAN-1 --why 'played through' --by AB",
                                  .takes_at = true,
                                  .body = body<RecallWidenGiven, set_up_widen, widen<true>>()};

extern const Command recall_decide_command;
const Command recall_decide_command{.name = "recall decide",
                                    .group = Group::recall,
                                    .about = about_decide,
                                    .more = {},
                                    .examples =
                                        "peelbook recall decide RECALL-261120-1 --decision withdrawal "
                                        "--class II --why 'stones of 3 mm found' --by AB",
                                    .takes_at = true,
                                    .body = body<RecallDecideGiven, set_up_decide, act<false, false>>()};

extern const Command drill_decide_command;
const Command drill_decide_command{.name = "drill decide",
                                   .group = Group::recall,
                                   .about = about_decide,
                                   .more = {},
                                   .examples = "peelbook drill decide DRILL-261120-1 --decision recall --why 'played through' --by AB",
                                   .takes_at = true,
                                   .body = body<RecallDecideGiven, set_up_decide, act<true, false>>()};

extern const Command recall_narrow_command;
const Command recall_narrow_command{.name = "recall narrow",
                                    .group = Group::recall,
                                    .about = about_narrow,
                                    .more = more_narrow,
                                    .examples =
                                        "peelbook recall narrow RECALL-261120-1 PAN-1 --hazard 'stones' "
                                        "--why 'sieved at 1 mm, record 88' --by AB",
                                    .takes_at = true,
                                    .body = body<RecallDecideGiven, set_up_narrow, act<false, true>>()};

extern const Command drill_narrow_command;
const Command drill_narrow_command{
    .name = "drill narrow",
    .group = Group::recall,
    .about = about_narrow,
    .more = more_narrow,
    .examples = "peelbook drill narrow DRILL-261120-1 PAN-1 --hazard 'stones' --why 'played through' --by AB",
    .takes_at = true,
    .body = body<RecallDecideGiven, set_up_narrow, act<true, true>>()};

}  // namespace peelbook::cli
