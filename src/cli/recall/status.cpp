#include <algorithm>
#include <ostream>

#include "base/text.h"
#include "base/told_table.h"
#include "cli/recall/recall.h"
#include "output/text_table.h"
#include "output/workbook_file.h"
#include "site/report/recall_tables.h"

namespace peelbook::cli {
namespace {

using output::Json;

struct RecallStatusGiven {
    std::string code, out;
    Asking asking;
};

void set_up_status(Options& options, RecallStatusGiven& given) {
    options.word(given.code, "CODE", "which; without it, the one opened last", Need::optional)
        .text(given.out, "--out", "FILE.xlsx", "write the workbook too");
    add_asking(options, given.asking);
}
void set_up_asking(Options& options, RecallStatusGiven& given) { add_asking(options, given.asking); }

// The one opened last of its family; `code` itself when there is none, so that the refusal names what is
// wanted.
std::string code_or_last(const site::Site& site, const std::string& code, bool drill) {
    if (!code.empty()) return code;
    for (const auto& recall : site.recalls())
        if ((recall.drill != 0) == drill) return recall.code;
    return code;
}

template <bool drill> Result<Exit> status(Context& context, const RecallStatusGiven& given) {
    if (auto checked = fits_family(given.code, drill, "status"); !checked) return checked.refusal();
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const auto view = (*site)->recall(code_or_last(**site, given.code, drill));
    if (!view) return view.refusal();
    if (!given.out.empty()) {
        const auto workbook = (*site)->recall_workbook(*view);
        if (!workbook) return workbook.refusal();
        output::write_workbook(*workbook, context.here / given.out);
    }
    if (given.asking.json) {
        context.out << recall_json(*view, (*site)->zone()).text() << '\n';
        return Exit::done;
    }
    context.out << recall_text(*view, (*site)->zone());
    if (!given.out.empty()) context.out << "wrote " << given.out << '\n';
    return Exit::done;
}

std::string duration_of(const book::Recall& r) { return r.closed ? elapsed_text(*r.closed - r.aware) : "open"; }

Json recall_line_json(const book::Recall& r, const Zone& zone) {
    return Json::object()
        .set("code", r.code)
        .set("drill", r.drill != 0)
        .set("hazard", r.hazard)
        .set("class", r.grade)
        .set("decision", r.decision)
        .set("scope", r.scope)
        .set("aware", to_iso(zone, Instant{r.aware}))
        .set("opened", to_iso(zone, Instant{r.happened}))
        .set("closed", r.closed ? Json(to_iso(zone, Instant{*r.closed})) : Json())
        .set("by", r.by)
        .set("minutes", r.closed ? Json((*r.closed - r.aware) / 60'000) : Json())
        .set("placed_percent", r.closed ? Json(static_cast<double>(r.placed) / 1000) : Json())
        .set("found_percent", r.closed ? Json(static_cast<double>(r.found) / 1000) : Json())
        .set("missing_mg", r.missing_mg)
        .set("missing_pieces", r.missing_pieces)
        .set("why", r.closed_why);
}

template <bool drill> Result<Exit> list(Context& context, const RecallStatusGiven& given) {
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const Zone& zone = (*site)->zone();
    auto recalls = (*site)->recalls();
    std::erase_if(recalls, [](const auto& r) { return (r.drill != 0) != drill; });
    auto json = Json::array();
    for (const auto& r : recalls) json.add(recall_line_json(r, zone));
    const Table table = table_of(recalls, [&](TableRow& row, const book::Recall& r) {
        row("code", r.code)("opened", to_text(zone, Instant{r.happened}))("hazard", r.hazard)("class", r.grade)("by", r.by);
        row("closed after", duration_of(r))("in the records", r.closed ? site::percent_of_thousandths(r.placed) : "");
        row("accounted for", r.closed ? site::percent_of_thousandths(r.found) : "");
        row("not accounted for", (r.missing_pieces != 0 ? std::to_string(r.missing_pieces) + " pieces, " : "") +
                                     (r.missing_mg != 0 ? mass_text(r.missing_mg) : ""));
    });
    if (given.asking.json) {
        context.out << json.text() << '\n';
    } else if (table.rows.empty()) {
        context.out << (drill ? "no drill in the book\n" : "no recall in the book\n");
    } else {
        context.out << (drill ? "DRILLS, newest first\n" : "recalls, newest first\n")
                    << output::text_table(table, {.indent = 2, .most_width = 40, .headings = true});
    }
    return Exit::done;
}

Json callee_json(const site::Callee& one, const Zone& zone) {
    const auto iso = [&](const std::optional<std::int64_t>& at) { return at ? Json(to_iso(zone, Instant{*at})) : Json(); };
    const auto& p = one.partner;
    return Json::object()
        .set("code", p.code)
        .set("name", p.name)
        .set("roles", p.roles)
        .set("phone", p.phone)
        .set("email", p.email)
        .set("address", p.address)
        .set("tried", iso(one.tried))
        .set("reached", iso(one.reached))
        .set("overdue", one.overdue);
}

Result<Exit> calls(Context& context, const RecallStatusGiven& given) {
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const Zone& zone = (*site)->zone();
    const auto called = (*site)->call_list();
    auto json = Json::array();
    for (const auto& one : called) json.add(callee_json(one, zone));
    const auto time = [&](const std::optional<std::int64_t>& at) { return at ? to_text(zone, Instant{*at}) : "never"; };
    const Table table = table_of(called, [&](TableRow& row, const site::Callee& one) {
        const auto& p = one.partner;
        row("code", p.code)("name", p.name)("telephone", p.phone)("e-mail", p.email);
        row("last tried", time(one.tried))("last reached", time(one.reached))("", one.overdue ? "OVERDUE" : "");
    });
    if (given.asking.json)
        context.out << json.text() << '\n';
    else
        context.out << output::text_table(table, {.indent = 0, .most_width = 40, .headings = true});
    return Exit::done;
}

constexpr std::string_view about_status = "Where it stands: steps and deadlines, who was reached, what adds up, what changed since.";

}  // namespace

extern const Command recall_status_command;
const Command recall_status_command{.name = "recall status",
                                    .group = Group::recall,
                                    .about = about_status,
                                    .more = {},
                                    .examples = "peelbook recall status\npeelbook recall status RECALL-261120-1 --out recall.xlsx",
                                    .takes_at = false,
                                    .body = body<RecallStatusGiven, set_up_status, status<false>>()};

extern const Command drill_status_command;
const Command drill_status_command{.name = "drill status",
                                   .group = Group::recall,
                                   .about = about_status,
                                   .more = {},
                                   .examples = "peelbook drill status DRILL-261120-1 --out drill.xlsx",
                                   .takes_at = false,
                                   .body = body<RecallStatusGiven, set_up_status, status<true>>()};

extern const Command recall_list_command;
const Command recall_list_command{.name = "recall list",
                                  .group = Group::recall,
                                  .about = "Every recall, how long it took and how much was accounted for.",
                                  .more = {},
                                  .examples = "peelbook recall list",
                                  .takes_at = false,
                                  .body = body<RecallStatusGiven, set_up_asking, list<false>>()};

extern const Command drill_list_command;
const Command drill_list_command{.name = "drill list",
                                 .group = Group::recall,
                                 .about = "Every drill, how long it took and how much was accounted for.",
                                 .more = {},
                                 .examples = "peelbook drill list",
                                 .takes_at = false,
                                 .body = body<RecallStatusGiven, set_up_asking, list<true>>()};

extern const Command recall_calls_command;
const Command recall_calls_command{.name = "recall calls",
                                   .group = Group::recall,
                                   .about = "The call list: customers and authorities, and when each number was last tried.",
                                   .more = {},
                                   .examples = "peelbook recall calls",
                                   .takes_at = false,
                                   .body = body<RecallStatusGiven, set_up_asking, calls>()};

}  // namespace peelbook::cli
