#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct PlanAdoptGiven {
    std::string hazard;
    Recording recording;
};

void set_up(Options& options, PlanAdoptGiven& given) {
    options.common_from_here()
        .text(given.hazard, "--hazard", "WHY", "why it cannot wait: it also judges points that are still open")
        .text(given.recording.by, "--by", "INITIALS", "who puts it in force; else PEELBOOK_BY")
        .text(given.recording.site, "--site", "DIR", "the site's folder; else PEELBOOK_SITE, else upward from here")
        .flag(given.recording.json, "--json", "answer in JSON");
}

Result<Exit> act(Context& context, const PlanAdoptGiven& given) {
    const auto by = who(context, given.recording);
    if (!by) return by.refusal();
    const auto site = context.site(given.recording.site);
    if (!site) return site.refusal();
    const auto receipt = (*site)->adopt_plan(*by, given.hazard);
    if (!receipt) return receipt.refusal();
    return tell(context, **site, *receipt, given.recording.json);
}

}  // namespace

extern const Command plan_adopt_command;
const Command plan_adopt_command{
    .name = "plan adopt",
    .group = Group::plan,
    .about = "Put the plan's files in force from now on, signed by a person.",
    .more =
        "The whole text goes into the book. A batch keeps the version that was in force when it began; with --hazard\n"
        "what is still open of it is judged by the new one too, and the harder counts.",
    .examples =
        "peelbook plan adopt --by AB\n"
        "peelbook plan adopt --hazard 'raw flour of the mill recalled for Salmonella' --by AB",
    .takes_at = false,
    .body = body<PlanAdoptGiven, set_up, act>()};

}  // namespace peelbook::cli
