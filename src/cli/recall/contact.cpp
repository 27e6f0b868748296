#include "cli/recall/recall.h"

namespace peelbook::cli {
namespace {

struct RecallContactGiven {
    record::Contacted contacted;
    std::string reached;
    Recording recording;
};

void set_up_answer(Options& options, RecallContactGiven& given) {
    record::Contacted& c = given.contacted;
    options.word(c.partner, "PARTNER", "whom")
        .one_of(given.reached, "ANSWER", {"reached", "missed"}, "did someone answer?", Need::wanted)
        .text(c.person, "--person", "NAME", "who answered")
        .text(c.how, "--how", "TEXT", "by telephone, e-mail, visit")
        .text(c.note, "--note", "TEXT", "what was said");
}

void set_up_contact(Options& options, RecallContactGiven& given) {
    options.word(given.contacted.recall, "CODE", "the recall or drill");
    set_up_answer(options, given);
    options.each(given.contacted.codes, "--code", "PRINTED-CODE", "told of this code only; without it, of all that they had")
        .flag(given.contacted.check, "--check", "a call of the effectiveness check: did word arrive, was it acted on?");
    add_recording(options, given.recording);
}

void set_up_try(Options& options, RecallContactGiven& given) {
    set_up_answer(options, given);
    add_recording(options, given.recording);
}

template <bool drill> Result<Exit> act(Context& context, const RecallContactGiven& given) {
    if (auto checked = fits_family(given.contacted.recall, drill, "contact"); !checked) return checked.refusal();
    auto says = given.contacted;
    says.reached = given.reached == "reached";
    return record(context, given.recording, std::move(says));
}

constexpr std::string_view about_contact = "Record that a customer was called or written to, and whether someone answered.";
constexpr std::string_view more_contact = "They are told of the codes that they had by then: for one that comes later they are told again.";

}  // namespace

extern const Command recall_contact_command;
const Command recall_contact_command{.name = "recall contact",
                                     .group = Group::recall,
                                     .about = about_contact,
                                     .more = more_contact,
                                     .examples =
                                         "peelbook recall contact RECALL-261120-1 CAFE-1 reached --person "
                                         "'Ms Lund' --how telephone --note 'takes it off sale' --by AB\n"
                                         "peelbook recall contact RECALL-261120-1 CAFE-1 reached --check "
                                         "--note 'letter posted, 3 loaves binned' --by AB",
                                     .takes_at = true,
                                     .body = body<RecallContactGiven, set_up_contact, act<false>>()};

extern const Command drill_contact_command;
const Command drill_contact_command{.name = "drill contact",
                                    .group = Group::recall,
                                    .about = about_contact,
                                    .more = more_contact,
                                    .examples = "peelbook drill contact DRILL-261120-1 CAFE-1 missed --how telephone --by AB",
                                    .takes_at = true,
                                    .body = body<RecallContactGiven, set_up_contact, act<true>>()};

extern const Command recall_try_command;
const Command recall_try_command{.name = "recall try",
                                 .group = Group::recall,
                                 .about = "Record a test of the call list: whether someone answered.",
                                 .more = {},
                                 .examples = "peelbook recall try CAFE-1 reached --how telephone --by AB",
                                 .takes_at = true,
                                 .body = body<RecallContactGiven, set_up_try, act<false>>()};

}  // namespace peelbook::cli
