#include <ostream>

#include "cli/command.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct Given {
    Asking asking;
};

void set_up(Options& options, Given& given) {
    add_asking(options, given.asking, false);
}

Result<Exit> act(Context& context, const Given& given) {
    const auto site = context.site(given.asking.site);
    if (!site) return site.refusal();
    const Seq entries = (*site)->rebuild();
    context.out << "made the derived tables anew from " << entries << " entries\n";
    return Exit::done;
}

}  // namespace

extern const Command rebuild_command;
const Command rebuild_command{.name = "rebuild",
                              .group = Group::keeping,
                              .about = "Throw the derived tables away and make them anew from the entries.",
                              .more = {},
                              .examples = "peelbook rebuild",
                              .takes_at = false,
                              .body = body<Given, set_up, act>()};

}  // namespace peelbook::cli
