#include "cli/frame/command.h"

#include <ostream>

#include "cli/frame/receipt_text.h"
#include "site/site.h"

namespace peelbook::cli {

void add_asking(Options& options, Asking& asking, bool with_json) {
    options.common_from_here().text(asking.site, "--site", "DIR", "the site's folder; else PEELBOOK_SITE, else upward from here");
    if (with_json) options.flag(asking.json, "--json", "answer in JSON");
}

Result<site::Site*> open_page(Context& context, const Asking& asking) {
    auto site = context.site(asking.site, Context::Mode::read);
    if (site && !asking.json && (*site)->in_practice()) context.out << practice_line << '\n';
    return site;
}

}  // namespace peelbook::cli
