#include "cli/recall/recall.h"

namespace peelbook::cli {
namespace {

struct RecallOpenGiven {
    record::RecallOpened recall;
    std::string from, until, aware;
    Recording recording;
};

void set_up(Options& options, RecallOpenGiven& given) {
    record::RecallOpened& r = given.recall;
    options.words(r.lots, "LOT", "lots, printed codes, or supplier's lot codes (MILL-1:W4471)", Need::optional)
        .text(r.hazard, "--hazard", "TEXT", "what is feared", Need::wanted)
        .text(r.material, "--material", "ITEM", "lots of this material or product, in a time")
        .text(r.supplier, "--supplier", "PARTNER", "what this supplier brought, all or of --material, in a time")
        .text(r.vessel, "--vessel", "VESSEL", "what was taken out of this vessel, in a time")
        .text(given.from, "--from", "TIME", "beginning of that time; a date is its whole day")
        .text(given.until, "--until", "TIME", "end of that time")
        .one_of(r.grade, "--class", {"I", "II", "III"}, "class of the recall (21 CFR 7.3(m))")
        .one_of(r.decision, "--decision", {"recall", "withdrawal", "stock-only", "none"}, "what is decided so far")
        .one_of(r.check_level, "--level", {"A", "B", "C", "D", "E"},
                "effectiveness check: A all customers, B --percent of them, C 10 %, D 2 %, E none")
        .measure(r.check_percent, "--percent", "of level B: more than 10%, less than 100%")
        .pieces(r.seed, "--seed", "of the sample; without it, the number of the entry")
        .text(given.aware, "--aware", "TIME", "when word came; without it, now");
    add_recording_now(options, given.recording, Need::wanted);
}

template <bool drill> Result<Exit> act(Context& context, const RecallOpenGiven& given) {
    const auto site = context.site(given.recording.site);
    if (!site) return site.refusal();
    auto says = given.recall;
    says.drill = drill;
    says.why = given.recording.why;
    const auto from = span_end(context, **site, given.from, false);
    if (!from) return from.refusal();
    const auto until = span_end(context, **site, given.until, true);
    if (!until) return until.refusal();
    const auto aware = when(context, **site, given.aware);
    if (!aware) return aware.refusal();
    says.from = *from;
    says.until = *until;
    says.aware = *aware;
    return record(context, **site, given.recording, std::move(says));
}

constexpr std::string_view more_open =
    "Freezes what the book knows now: every lot that may hold some of it, and who has what, by the code "
    "printed on the\n"
    "packs. Of lots, water and a vessel the time is of what was taken out, as in trace forward; of --material and\n"
    "--supplier it is of what came in. What later entries add is covered and held too. Then: status, contact,\n"
    "tell, count, widen, narrow, close.";

}  // namespace

extern const Command recall_open_command;
const Command recall_open_command{.name = "recall open",
                                  .group = Group::recall,
                                  .about = "Open a recall: freeze what is covered, hold everything on hand at once.",
                                  .more = more_open,
                                  .examples =
                                      "peelbook recall open MILL-1:W4471 --hazard 'stones' --class II --level A --why 'the miller called' "
                                      "--by AB\n"
                                      "peelbook recall open --material wheat-flour --from 2026-11-13 --until 2026-11-15 --hazard 'stones' "
                                      "--why 'the miller called' --by AB\n"
                                      "peelbook recall open --vessel silo-1 --from '2026-11-13 08:00' --hazard 'pests' --why 'found at "
                                      "cleaning' --by AB",
                                  .takes_at = false,
                                  .body = body<RecallOpenGiven, set_up, act<false>>()};

extern const Command drill_open_command;
const Command drill_open_command{.name = "drill open",
                                 .group = Group::recall,
                                 .about = "Open a drill: all of a recall, without holding anything.",
                                 .more = more_open,
                                 .examples =
                                     "peelbook drill open MILL-1:W4471 --hazard 'stones' --level B --percent "
                                     "50% --why 'yearly drill' --by AB",
                                 .takes_at = false,
                                 .body = body<RecallOpenGiven, set_up, act<true>>()};

}  // namespace peelbook::cli
