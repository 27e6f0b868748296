#include <ostream>

#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "cli/recall/genealogy.h"
#include "cli/recall/trace_text.h"
#include "output/workbook_file.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct TraceGiven {
    std::string lot, material, out, picture, from, until;
    Asking asking;
};

void add_files(Options& options, TraceGiven& given) {
    options.text(given.out, "--out", "FILE.xlsx", "write a workbook too")
        .text(given.picture, "--picture", "FILE", "draw the genealogy too: a .svg or .png, by Graphviz");
    add_asking(options, given.asking);
}

void set_up_back(Options& options, TraceGiven& given) {
    options.word(given.lot, "LOT", "one of our codes, a printed code, or a supplier's lot code (MILL-1:W4471)");
    add_files(options, given);
}

void set_up_forward(Options& options, TraceGiven& given) {
    options.word(given.lot, "LOT", "one of our codes, a printed code, a supplier's lot code (MILL-1:W4471), a vessel, or a supply (water)")
        .text(given.material, "--material", "MATERIAL", "only lots of this one, where a supplier's code was used for several")
        .text(given.from, "--from", "TIME", "only what left the lot from then on")
        .text(given.until, "--until", "TIME", "only what left the lot up to then");
    add_files(options, given);
}

Result<Exit> print(Context& context, const site::Site& site, const TraceGiven& given, const Result<site::TraceAnswer>& answer) {
    if (!answer) return answer.refusal();
    if (!given.out.empty()) {
        auto workbook = site.trace_workbook(*answer);
        if (!workbook) return workbook.refusal();
        if (auto sheet = genealogy_sheet(site, *answer))
            workbook->sheets.push_back(*std::move(sheet));
        else
            context.err << "no picture in the workbook: " << sheet.refusal().wanted << "; " << sheet.refusal().next << '\n';
        output::write_workbook(*workbook, context.here / given.out);
    }
    if (!given.picture.empty()) {
        if (auto checked = write_genealogy(context, site, *answer, given.picture); !checked) return checked.refusal();
    }
    if (given.asking.json)
        context.out << trace_json(*answer, site.zone()).text() << '\n';
    else
        write_trace(context.out, *answer, site.zone());
    for (const std::string& file : {given.out, given.picture})
        if (!file.empty() && !given.asking.json) context.out << "wrote " << file << '\n';
    return Exit::done;
}

Result<Exit> forward(Context& context, const TraceGiven& given) {
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const auto from = when(context, **site, given.from);
    if (!from) return from.refusal();
    const auto until = when(context, **site, given.until);
    if (!until) return until.refusal();
    return print(context, **site, given, (*site)->trace_forward(given.lot, given.material, {*from, *until}));
}

Result<Exit> back(Context& context, const TraceGiven& given) {
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    return print(context, **site, given, (*site)->trace_back(given.lot));
}

}  // namespace

extern const Command trace_forward_command;
const Command trace_forward_command{
    .name = "trace forward",
    .group = Group::recall,
    .about = "Where did this lot go: every batch, pack and customer, through any depth.",
    .more = "A vessel stands for all that was drawn from it, a supply for all that was used of it; --from and --until narrow that.",
    .examples =
        "peelbook trace forward FLOUR-1\n"
        "peelbook trace forward MILL-1:W4471 --material wheat-flour --out trace.xlsx --picture trace.svg\n"
        "peelbook trace forward water --from '2026-11-18 14:00' --until '2026-11-20 09:00'",
    .takes_at = false,
    .body = body<TraceGiven, set_up_forward, forward>()};

extern const Command trace_back_command;
const Command trace_back_command{.name = "trace back",
                                 .group = Group::recall,
                                 .about = "What is in this lot: every lot behind it, through any depth.",
                                 .more = {},
                                 .examples = "peelbook trace back PACK-1",
                                 .takes_at = false,
                                 .body = body<TraceGiven, set_up_back, back>()};

}  // namespace peelbook::cli
