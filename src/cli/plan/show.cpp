#include <ostream>

#include "base/text.h"
#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "plan/changes.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct PlanShowGiven {
    std::string only;
    std::string at;
    Asking asking;
};

void set_up(Options& options, PlanShowGiven& given) {
    options.word(given.only, "WHAT", "one id (bake-core) or kind of thing (points); else the whole plan", Need::optional)
        .text(given.at, "--at", "TIME", "the version in force then; else now");
    add_asking(options, given.asking, false);
}

Result<Exit> act(Context& context, const PlanShowGiven& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const auto at = when(context, **site, given.at);
    if (!at) return at.refusal();
    const auto plan = (*site)->plan_in_force(*at);
    if (!plan) return plan.refusal();
    const std::string text = plan::shown(*plan, given.only);
    if (text.empty())
        return Refusal{"'" + shown(given.only) + "'", "an id or a kind of thing of the plan", "`peelbook plan show` shows all of it", {}};
    context.out << text;  // ends with the caution
    return Exit::done;
}

}  // namespace

extern const Command plan_show_command;
const Command plan_show_command{.name = "plan show",
                                .group = Group::plan,
                                .about = "Show the plan in force in words, or one thing of it.",
                                .more = {},
                                .examples = "peelbook plan show\npeelbook plan show bake-core",
                                .takes_at = false,
                                .body = body<PlanShowGiven, set_up, act>()};

}  // namespace peelbook::cli
