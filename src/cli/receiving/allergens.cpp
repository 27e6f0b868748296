#include <iomanip>
#include <ostream>
#include <sstream>

#include "base/text.h"
#include "base/words.h"
#include "cli/frame/command.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct AllergensGiven {
    std::string lot;
    Asking asking;
};

void set_up(Options& options, AllergensGiven& given) {
    options.word(given.lot, "LOT", "the lot");
    add_asking(options, given.asking);
}

std::string number_or_blank(const std::optional<double>& value) {
    if (!value) return "";
    std::ostringstream text;
    text << std::setprecision(3) << *value;
    return text.str();
}

void print_text(std::ostream& out, const site::LotAllergens& lot) {
    out << "allergens of " << lot.lot << ", over the lots really used, through every depth\n";
    if (lot.allergens.empty()) out << "  none declared\n";
    Table table{{"allergen", "level", "reason", "protein", "action"}, {}};
    bool action = false;
    for (const auto& a : lot.allergens) {
        action = action || a.action_level_mg_per_kg;
        table.rows.push_back(
            {a.allergen, in_words(a.level), a.reason, number_or_blank(a.protein_mg_per_kg), number_or_blank(a.action_level_mg_per_kg)});
    }
    if (!table.rows.empty())
        out << output::text_table(table, {"allergen", "how", "from", "protein mg/kg", "action level mg/kg"},
                                  output::TextTableStyle{.indent = 2});
    if (action)
        out << "action level: reference dose over the portion, for residue only; a decision aid that a qualified person validates\n";
    out << caution << '\n';
}

Result<Exit> act(Context& context, const AllergensGiven& given) {
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const auto lot = (*site)->allergens_of(given.lot);
    if (!lot) return lot.refusal();
    if (!given.asking.json) {
        print_text(context.out, *lot);
        return Exit::done;
    }
    auto list = output::Json::array();
    for (const auto& a : lot->allergens)
        list.add(output::Json::object()
                     .set("allergen", a.allergen)
                     .set("level", word(a.level))
                     .set("source", a.source)
                     .set("reason", a.reason)
                     .set("protein_mg_per_kg", a.protein_mg_per_kg)
                     .set("action_level_mg_per_kg", a.action_level_mg_per_kg)
                     .set("dose_source", a.dose_source));
    auto json = output::Json::object();
    json.set("lot", lot->lot).set("allergens", std::move(list)).set("caution", caution);
    context.out << json.text() << '\n';
    return Exit::done;
}

}  // namespace

extern const Command allergens_command;
const Command allergens_command{.name = "allergens",
                                .group = Group::receiving,
                                .about = "Show the allergens of a lot, and what brought each.",
                                .more = "Not stated is not the same as free: it shows as not-stated.",
                                .examples = "peelbook allergens PAN-1",
                                .takes_at = false,
                                .body = body<AllergensGiven, set_up, act>()};

}  // namespace peelbook::cli
