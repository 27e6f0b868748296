#include <ostream>

#include "base/text.h"
#include "cli/command.h"
#include "cli/recording.h"
#include "output/json.h"
#include "plan/changes.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Json;

// --- check

struct Checking {
    Asking asking;
};
void set_up_check(Options& options, Checking& given) { add_asking(options, given.asking); }

Json faults_json(const std::vector<plan::Fault>& faults) {
    auto list = Json::array();
    for (const auto& fault : faults) {
        auto json = Json::object();
        json.set("file", fault.file).set("line", fault.line).set("column", fault.column);
        json.set("severity", fault.warning ? "warning" : "error").set("found", fault.found).set("wanted", fault.wanted);
        json.set("remedy", fault.remedy);
        list.add(std::move(json));
    }
    return list;
}

Result<Exit> check(Context& context, const Checking& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const plan::Outcome outcome = (*site)->check_plan();
    std::size_t warnings = 0;
    for (const auto& fault : outcome.faults) warnings += fault.warning ? 1 : 0;
    if (given.asking.json) {
        auto json = Json::object();
        json.set("usable", outcome.usable()).set("faults", faults_json(outcome.faults)).set("caution", caution);
        context.out << json.text() << '\n';
    } else {
        for (const auto& fault : outcome.faults) context.out << plan::to_text(fault) << '\n';
        context.out << (outcome.usable() ? "the plan can be adopted" : "the plan cannot be adopted") << ": "
                    << outcome.faults.size() - warnings << " errors, " << warnings << " warnings\n"
                    << caution << '\n';
    }
    return outcome.usable() ? Exit::done : Exit::not_within;
}

// --- adopt

struct Adopt {
    Recording recording;
};
void set_up_adopt(Options& options, Adopt& given) {
    options.common_from_here()
        .text(given.recording.by, "--by", "INITIALS", "who puts it in force; else PEELBOOK_BY")
        .text(given.recording.site, "--site", "DIR", "the site's folder; else PEELBOOK_SITE, else upward from here")
        .flag(given.recording.json, "--json", "answer in JSON");
}
Result<Exit> adopt(Context& context, const Adopt& given) {
    const auto by = who(context, given.recording);
    if (!by) return by.refusal();
    const auto site = context.site(given.recording.site);
    if (!site) return site.refusal();
    const auto receipt = (*site)->adopt_plan(*by);
    if (!receipt) return receipt.refusal();
    return tell(context, **site, *receipt, given.recording.json);
}

// --- show

struct Show {
    std::string only;
    std::string at;
    Asking asking;
};
void set_up_show(Options& options, Show& given) {
    options.word(given.only, "WHAT", "one id (bake-core) or kind of thing (points); else the whole plan", Need::optional)
        .text(given.at, "--at", "TIME", "the version in force then; else now");
    add_asking(options, given.asking, false);
}
Result<Exit> show(Context& context, const Show& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const auto at = when(context, **site, given.at);
    if (!at) return at.refusal();
    const auto plan = (*site)->plan_in_force(*at);
    if (!plan) return plan.refusal();
    const std::string text = plan::shown(*plan, given.only);
    if (text.empty())
        return Refusal{"'" + shown(given.only) + "'", "an id or a kind of thing of the plan",
                       "`peelbook plan show` shows all of it", {}};
    context.out << text << caution << '\n';
    return Exit::done;
}

// --- changes

struct Changes {
    Asking asking;
};
void set_up_changes(Options& options, Changes& given) { add_asking(options, given.asking); }
Result<Exit> changes(Context& context, const Changes& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const auto lines = (*site)->plan_changes();
    if (!lines) return lines.refusal();
    if (given.asking.json) {
        context.out << Json(*lines).text() << '\n';
        return Exit::done;
    }
    for (const std::string& line : *lines) context.out << line << '\n';
    if (lines->empty()) context.out << "the files say the same as the version in force\n";
    return Exit::done;
}

}  // namespace

extern const Command plan_check_command;
const Command plan_check_command{.name = "plan check",
                                 .group = Group::plan,
                                 .about = "Read the plan's files and show everything that is wrong with them at once.",
                                 .more = {},
                                 .examples = "peelbook plan check",
                                 .takes_at = false,
                                 .body = body<Checking, set_up_check, check>()};

extern const Command plan_adopt_command;
const Command plan_adopt_command{
    .name = "plan adopt",
    .group = Group::plan,
    .about = "Put the plan's files in force from now on, signed by a person.",
    .more = "The whole text goes into the book. Records keep the version that was in force when they happened.",
    .examples = "peelbook plan adopt --by AB",
    .takes_at = false,
    .body = body<Adopt, set_up_adopt, adopt>()};

extern const Command plan_show_command;
const Command plan_show_command{.name = "plan show",
                                .group = Group::plan,
                                .about = "Show the plan in force in words, or one thing of it.",
                                .more = {},
                                .examples = "peelbook plan show\npeelbook plan show bake-core",
                                .takes_at = false,
                                .body = body<Show, set_up_show, show>()};

extern const Command plan_changes_command;
const Command plan_changes_command{.name = "plan changes",
                                   .group = Group::plan,
                                   .about = "Show in words how the files differ from the plan in force.",
                                   .more = {},
                                   .examples = "peelbook plan changes",
                                   .takes_at = false,
                                   .body = body<Changes, set_up_changes, changes>()};

}  // namespace peelbook::cli
