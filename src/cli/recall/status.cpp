#include <algorithm>
#include <ostream>

#include "base/text.h"
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
void set_up_asking(Options& options, RecallStatusGiven& given) {
    add_asking(options, given.asking);
}

// The one opened last of its family; `code` itself when there is none, so that the refusal names what is
// wanted.
std::string code_or_last(const site::Site& site, const std::string& code, bool drill) {
    if (!code.empty()) return code;
    for (const auto& recall : site.recalls())
        if ((recall.drill != 0) == drill) return recall.code;
    return code;
}

template <bool drill>
Result<Exit> status(Context& context, const RecallStatusGiven& given) {
    if (const Check refused = fits_family(given.code, drill, "status")) return *refused;
    const auto site = context.site(given.asking.site, Context::Mode::read);
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

std::string duration_of(const book::Recall& r) {
    return r.closed ? elapsed_text(*r.closed - r.aware) : "open";
}

template <bool drill>
Result<Exit> list(Context& context, const RecallStatusGiven& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const Zone& zone = (*site)->zone();
    auto json = Json::array();
    Table table{{"code", "opened", "hazard", "class", "by", "closed after", "in the records", "accounted for",
                 "not accounted for"},
                {}};
    for (const auto& r : (*site)->recalls()) {
        if ((r.drill != 0) != drill) continue;
        json.add(Json::object()
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
                     .set("why", r.closed_why));
        const std::string missing =
            (r.missing_pieces != 0 ? std::to_string(r.missing_pieces) + " pieces, " : std::string()) +
            (r.missing_mg != 0 ? mass_text(r.missing_mg) : std::string());
        table.rows.push_back({r.code, to_text(zone, Instant{r.happened}), r.hazard, r.grade, r.by,
                              duration_of(r),
                              r.closed ? site::percent_of_thousandths(r.placed) : std::string(),
                              r.closed ? site::percent_of_thousandths(r.found) : std::string(), missing});
    }
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

Result<Exit> calls(Context& context, const RecallStatusGiven& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const Zone& zone = (*site)->zone();
    auto json = Json::array();
    Table table{{"code", "name", "telephone", "e-mail", "last tried", "last reached", ""}, {}};
    for (const auto& one : (*site)->call_list()) {
        const auto time = [&](const std::optional<std::int64_t>& at) {
            return at ? to_text(zone, Instant{*at}) : std::string("never");
        };
        const auto iso = [&](const std::optional<std::int64_t>& at) {
            return at ? Json(to_iso(zone, Instant{*at})) : Json();
        };
        const auto& p = one.partner;
        json.add(Json::object()
                     .set("code", p.code)
                     .set("name", p.name)
                     .set("roles", p.roles)
                     .set("phone", p.phone)
                     .set("email", p.email)
                     .set("address", p.address)
                     .set("tried", iso(one.tried))
                     .set("reached", iso(one.reached))
                     .set("overdue", one.overdue));
        table.rows.push_back({p.code, p.name, p.phone, p.email, time(one.tried), time(one.reached),
                              one.overdue ? std::string("OVERDUE") : std::string()});
    }
    if (given.asking.json)
        context.out << json.text() << '\n';
    else
        context.out << output::text_table(table, {.indent = 0, .most_width = 40, .headings = true});
    return Exit::done;
}

constexpr std::string_view about_status =
    "Where it stands: steps and deadlines, who was reached, what adds up, what changed since.";

}  // namespace

extern const Command recall_status_command;
const Command recall_status_command{
    .name = "recall status",
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
const Command recall_calls_command{
    .name = "recall calls",
    .group = Group::recall,
    .about = "The call list: customers and authorities, and when each number was last tried.",
    .more = {},
    .examples = "peelbook recall calls",
    .takes_at = false,
    .body = body<RecallStatusGiven, set_up_asking, calls>()};

}  // namespace peelbook::cli
