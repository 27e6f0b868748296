#include <ostream>

#include "base/measure.h"
#include "base/text.h"
#include "base/words.h"
#include "cli/frame/command.h"
#include "cli/frame/finding_text.h"
#include "cli/frame/waiting_text.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Json;

struct StatusGiven {
    Asking asking;
};

void set_up(Options& options, StatusGiven& given) { add_asking(options, given.asking); }

std::string plan_text(const site::Status& status, const Zone& zone) {
    if (!status.plan) return "none adopted yet";
    return "entry " + std::to_string(status.plan->seq) + ", in force from " + to_text(zone, Instant{status.plan->from_ms}) +
           ", adopted by " + status.plan->by;
}

std::string heading(std::string_view what, std::size_t count) {
    return "\n" + std::string(what) + ": " + (count == 0 ? "none" : std::to_string(count)) + "\n";
}

// What is open stands before everything else.
std::string recalls_text(const site::Site& site, const Zone& zone) {
    std::string text;
    for (const auto& r : site.recalls())
        if (!r.closed_seq)
            text += std::string(r.drill != 0 ? "DRILL OPEN: " : "RECALL OPEN: ") + r.code + ", " + r.hazard + ", since " +
                    to_text(zone, Instant{r.happened}) + "; peelbook " + (r.drill != 0 ? "drill" : "recall") + " status " + r.code + "\n";
    return text;
}

std::string batches_text(const site::Status& status, const Zone& zone) {
    Table table{{"batch", "product", "started", "by"}, {}};
    for (const auto& lot : status.open_batches) table.rows.push_back({lot.code, lot.item, to_text(zone, Instant{lot.happened}), lot.by});
    const std::string list = table.rows.empty() ? "" : output::text_table(table, output::TextTableStyle{.indent = 2});
    return heading("open batches", table.rows.size()) + list;
}

std::string holds_text(const site::Status& status, const Zone& zone) {
    Table table{{"lot", "since", "entry", "why"}, {}};
    for (const auto& [hold, code] : status.open_holds)
        table.rows.push_back({code, to_text(zone, Instant{hold.happened}), hold.seq, hold.why});
    const std::string list =
        table.rows.empty() ? "" : output::text_table(table, output::TextTableStyle{.indent = 2, .most_width = 70, .headings = true});
    return heading("on hold", table.rows.size()) + list;
}

std::string findings_text(const site::Status& status) {
    Table table{{"finding", "verdict", "of", "measured", "limit"}, {}};
    for (const auto& told : status.open_findings) {
        const book::Finding& f = told.finding;
        table.rows.push_back({key_text(f), in_words(f.verdict), told.lot_code.empty() ? f.place : told.lot_code, f.measured, f.limit_text});
    }
    const std::string list =
        table.rows.empty() ? "" : output::text_table(table, output::TextTableStyle{.indent = 2, .most_width = 50, .headings = true});
    return heading("open findings", table.rows.size()) + list;
}

std::string owed_text(const site::Status& status, const Zone& zone) {
    Table table{{"since", "due", "of", "point", "what"}, {}};
    for (const auto& item : status.owed_not_done)
        table.rows.push_back({to_text(zone, Instant{item.owed.opens}), to_text(zone, Instant{item.owed.due}), item.owed.subject,
                              item.owed.point, item.owed.what});
    const std::string list =
        table.rows.empty() ? "" : output::text_table(table, output::TextTableStyle{.indent = 2, .most_width = 50, .headings = true});
    return heading("owed and not done", table.rows.size()) + list;
}

std::string waiting_text(const site::Status& status) {
    Table table{{"entry", "by", "what", "before", "after"}, {}};
    for (const auto& one : status.waiting)
        table.rows.push_back({one.entry, one.by, one.what, one.before, one.alone ? "decided alone: " + one.after : one.after});
    const std::string list =
        table.rows.empty() ? "" : output::text_table(table, output::TextTableStyle{.indent = 2, .most_width = 40, .headings = true});
    return heading("waiting for another person", table.rows.size()) + list;
}

Json status_json(const site::Status& status, const Zone& zone) {
    auto batches = Json::array();
    for (const auto& lot : status.open_batches)
        batches.add(Json::object().set("code", lot.code).set("product", lot.item).set("started", to_iso(zone, Instant{lot.happened})));
    auto findings = Json::array();
    for (const auto& told : status.open_findings) findings.add(finding_json(told, zone));
    auto owed = Json::array();
    for (const auto& item : status.owed_not_done)
        owed.add(Json::object()
                     .set("subject", item.owed.subject)
                     .set("point", item.owed.point)
                     .set("what", item.owed.what)
                     .set("class", word(item.grade))
                     .set("due", to_iso(zone, Instant{item.owed.due}))
                     .set("never", item.never));
    auto holds = Json::array();
    for (const auto& [hold, code] : status.open_holds)
        holds.add(Json::object().set("lot", code).set("entry", hold.seq).set("why", hold.why));
    auto json = Json::object();
    if (status.practice) json.set("practice", true);
    json.set("site", status.site_name).set("entries", status.entries).set("head", status.head);
    json.set("plan", status.plan ? Json(status.plan->seq) : Json());
    json.set("open_batches", std::move(batches)).set("open_findings", std::move(findings));
    json.set("owed_and_not_done", std::move(owed)).set("waiting", waiting_json(status.waiting, zone));
    json.set("open_holds", std::move(holds)).set("caution", caution);
    return json;
}

Result<Exit> act(Context& context, const StatusGiven& given) {
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const site::Status status = (*site)->status();
    const Zone& zone = (*site)->zone();
    if (given.asking.json) {
        context.out << status_json(status, zone).text() << '\n';
    } else {
        context.out << recalls_text(**site, zone)
                    << output::text_pairs({{"site", status.site_name},
                                           {"folder", (*site)->folder().string()},
                                           {"entries", std::to_string(status.entries)},
                                           {"head", status.head},
                                           {"plan", plan_text(status, zone)}})
                    << batches_text(status, zone) << holds_text(status, zone) << findings_text(status) << waiting_text(status)
                    << owed_text(status, zone) << caution << '\n';
    }
    return status.open_findings.empty() && status.owed_not_done.empty() ? Exit::done : Exit::not_within;
}

}  // namespace

extern const Command status_command;
const Command status_command{.name = "status",
                             .group = Group::bench,
                             .about = "Show open batches, holds, findings and checks not done, and the head of the book.",
                             .more = {},
                             .examples = "peelbook status",
                             .takes_at = false,
                             .body = body<StatusGiven, set_up, act>()};

}  // namespace peelbook::cli
