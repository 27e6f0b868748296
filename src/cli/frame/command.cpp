#include "cli/frame/command.h"

namespace peelbook::cli {

void add_asking(Options& options, Asking& asking, bool with_json) {
    options.common_from_here().text(asking.site, "--site", "DIR", "the site's folder; else PEELBOOK_SITE, else upward from here");
    if (with_json) options.flag(asking.json, "--json", "answer in JSON");
}

}  // namespace peelbook::cli
