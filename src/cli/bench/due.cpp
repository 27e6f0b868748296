#include <ostream>

#include "base/text.h"
#include "cli/frame/command.h"
#include "cli/frame/receipt_text.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Json;

constexpr Duration a_shift = hours(8);

struct DueGiven {
    std::optional<Duration> within;
    Asking asking;
};

void set_up(Options& options, DueGiven& given) {
    options.duration(given.within, "--within", "how far to look ahead: 2h, 30min; else 8h");
    add_asking(options, given.asking);
}

Json to_json(const site::DueItem& item, const Zone& zone) {
    auto json = Json::object();
    json.set("subject", item.owed.subject).set("point", item.owed.point).set("name", item.name).set("what", item.owed.what);
    json.set("opens", to_iso(zone, Instant{item.owed.opens})).set("due", to_iso(zone, Instant{item.owed.due}));
    json.set("class", word(item.grade)).set("overdue", item.overdue).set("never", item.never);
    auto outlook = Json::array();
    for (const auto& one : item.outlook) outlook.add(outlook_json(one, zone));
    if (!item.outlook.empty()) json.set("expected", std::move(outlook));
    return json;
}

void print_json(std::ostream& out, const std::vector<site::DueItem>& items, const Zone& zone) {
    auto list = Json::array();
    for (const auto& item : items) list.add(to_json(item, zone));
    auto json = Json::object();
    json.set("due", std::move(list)).set("caution", caution);
    out << json.text() << '\n';
}

void print_text(std::ostream& out, const std::vector<site::DueItem>& items, const Zone& zone, Duration ahead) {
    if (items.empty()) {
        out << "nothing is due within " << to_text(ahead) << "\n";
        return;
    }
    Table table{{"due", "", "of", "point", "what"}, {}};
    for (const auto& item : items)
        table.rows.push_back({to_text(zone, Instant{item.owed.due}), std::string(item.overdue ? "OVERDUE" : ""), item.owed.subject,
                              item.owed.point, item.owed.what.empty() ? item.name : item.owed.what});
    std::string expected;
    for (const auto& item : items)
        for (const auto& one : item.outlook) expected += "  " + one.lot + ": " + one.text + "\n";
    out << output::text_table(table, output::TextTableStyle{.indent = 0, .most_width = 60, .headings = true});
    if (!expected.empty()) out << "expected, if it goes on cooling so; the readings decide:\n" << expected;
    out << caution << '\n';
}

Result<Exit> act(Context& context, const DueGiven& given) {
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const Duration ahead = given.within.value_or(a_shift);
    const auto items = (*site)->due(context.clock.now() + ahead);
    if (given.asking.json)
        print_json(context.out, items, (*site)->zone());
    else
        print_text(context.out, items, (*site)->zone(), ahead);
    for (const auto& item : items)
        if (item.overdue) return Exit::not_within;
    return Exit::done;
}

}  // namespace

extern const Command due_command;
const Command due_command{.name = "due",
                          .group = Group::bench,
                          .about = "Show which checks are owed next, and which are overdue.",
                          .more = {},
                          .examples = "peelbook due\npeelbook due --within 2h",
                          .takes_at = false,
                          .body = body<DueGiven, set_up, act>()};

}  // namespace peelbook::cli
