#include <ostream>

#include "cli/frame/command.h"
#include "output/json.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct PlanChangesGiven {
    Asking asking;
};

void set_up(Options& options, PlanChangesGiven& given) { add_asking(options, given.asking); }

Result<Exit> act(Context& context, const PlanChangesGiven& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const auto lines = (*site)->plan_changes();
    if (!lines) return lines.refusal();
    if (given.asking.json) {
        context.out << output::Json(*lines).text() << '\n';
        return Exit::done;
    }
    for (const std::string& line : *lines) context.out << line << '\n';
    if (lines->empty()) context.out << "the files say the same as the version in force\n";
    return Exit::done;
}

}  // namespace

extern const Command plan_changes_command;
const Command plan_changes_command{.name = "plan changes",
                                   .group = Group::plan,
                                   .about = "Show in words how the files differ from the plan in force.",
                                   .more = {},
                                   .examples = "peelbook plan changes",
                                   .takes_at = false,
                                   .body = body<PlanChangesGiven, set_up, act>()};

}  // namespace peelbook::cli
