#include <ostream>

#include "base/text.h"
#include "cli/command.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct Given {
    std::string lot;
    Asking asking;
};

void set_up(Options& options, Given& given) {
    options.word(given.lot, "LOT", "the lot");
    add_asking(options, given.asking);
}

Result<Exit> act(Context& context, const Given& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const auto lot = (*site)->lot(given.lot);
    if (!lot) return lot.refusal();
    const auto table =
        (*site)->ask("SELECT allergen, level FROM lot_allergen WHERE lot = " + std::to_string(lot->id) +
                     " ORDER BY level, allergen");
    if (!table) return table.refusal();
    if (given.asking.json) {
        auto json = output::Json::object();
        json.set("lot", lot->code).set("allergens", output::to_json(*table)).set("caution", caution);
        context.out << json.text() << '\n';
        return Exit::done;
    }
    context.out << "allergens of " << lot->code << ", over the lots really used, through every depth\n";
    if (table->rows.empty()) context.out << "  none declared\n";
    if (!table->rows.empty()) context.out << output::text_table(*table, output::TextTableStyle{.indent = 2});
    context.out << caution << '\n';
    return Exit::done;
}

}  // namespace

extern const Command allergens_command;
const Command allergens_command{.name = "allergens",
                                .group = Group::receiving,
                                .about = "Show the allergens of a lot.",
                                .more = "Not stated is not the same as free: it shows as not-stated.",
                                .examples = "peelbook allergens PAN-1",
                                .takes_at = false,
                                .body = body<Given, set_up, act>()};

}  // namespace peelbook::cli
