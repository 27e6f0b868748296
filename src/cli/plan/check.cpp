#include <ostream>

#include "base/text.h"
#include "cli/frame/command.h"
#include "output/json.h"
#include "plan/load.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct PlanCheckGiven {
    Asking asking;
};

void set_up(Options& options, PlanCheckGiven& given) { add_asking(options, given.asking); }

output::Json faults_json(const std::vector<plan::Fault>& faults) {
    auto list = output::Json::array();
    for (const auto& fault : faults) {
        auto json = output::Json::object();
        json.set("file", fault.file).set("line", fault.line).set("column", fault.column);
        json.set("severity", fault.warning ? "warning" : "error").set("found", fault.found).set("wanted", fault.wanted);
        json.set("remedy", fault.remedy);
        list.add(std::move(json));
    }
    return list;
}

output::Json load_json(const plan::Load& load) {
    auto points = output::Json::array();
    for (const auto& one : load.points)
        points.add(
            output::Json::object().set("point", one.point).set("checks_a_week", one.checks).set("seconds_a_week", one.time.ms / 1000));
    return output::Json::object().set("open_days", load.days).set("people", load.people).set("points", std::move(points));
}

Result<Exit> act(Context& context, const PlanCheckGiven& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const plan::Outcome outcome = (*site)->check_plan();
    std::size_t warnings = 0;
    for (const auto& fault : outcome.faults) warnings += fault.warning ? 1 : 0;
    if (given.asking.json) {
        auto json = output::Json::object();
        json.set("usable", outcome.usable()).set("faults", faults_json(outcome.faults));
        if (outcome.usable()) json.set("load", load_json(plan::load_of(outcome.plan)));
        json.set("caution", caution);
        context.out << json.text() << '\n';
    } else {
        for (const auto& fault : outcome.faults) context.out << plan::to_text(fault) << '\n';
        context.out << (outcome.usable() ? "the plan can be adopted" : "the plan cannot be adopted") << ": "
                    << outcome.faults.size() - warnings << " errors, " << warnings << " warnings\n";
        if (outcome.usable()) context.out << to_text(plan::load_of(outcome.plan));
        context.out << caution << '\n';
    }
    return outcome.usable() ? Exit::done : Exit::not_within;
}

}  // namespace

extern const Command plan_check_command;
const Command plan_check_command{.name = "plan check",
                                 .group = Group::plan,
                                 .about = "Show all that is wrong with the plan's files at once, and the work that its checks are.",
                                 .more = {},
                                 .examples = "peelbook plan check",
                                 .takes_at = false,
                                 .body = body<PlanCheckGiven, set_up, act>()};

}  // namespace peelbook::cli
