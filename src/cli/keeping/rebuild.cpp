#include <ostream>

#include "cli/frame/command.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct RebuildGiven {
    Asking asking;
};

void set_up(Options& options, RebuildGiven& given) { add_asking(options, given.asking, false); }

Result<Exit> act(Context& context, const RebuildGiven& given) {
    const auto site = context.site(given.asking.site, Context::Mode::rebuild);
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
                              .body = body<RebuildGiven, set_up, act>()};

}  // namespace peelbook::cli
