// Reports, tables and SQL of one's own, all read-only.
#include <algorithm>

#include "base/text.h"
#include "base/told_table.h"
#include "site/ask/control_chart.h"
#include "site/ask/one_step.h"
#include "site/ask/owed_now.h"
#include "site/ask/trace_answer.h"
#include "site/impl.h"
#include "site/report/allergen_tables.h"
#include "site/report/chart_tables.h"
#include "site/report/limit_table.h"
#include "site/report/recall_tables.h"
#include "site/report/report.h"
#include "site/report/report_definition.h"
#include "site/report/trace_tables.h"
#include "trace/picture.h"

namespace peelbook::site {
namespace {

void set_local(fold::Ledger& ledger) {
    const Zone zone = ledger.zone();
    ledger.book.set_local([zone](std::int64_t ms) { return to_text(zone, Instant{ms}); });
}

void provide_limits(fold::Ledger& ledger) {
    std::vector<std::pair<Seq, const plan::Plan*>> versions;
    std::vector<fold::GoverningPlan> kept;
    for (const auto& version : ledger.rows().plan_versions()) kept.push_back(ledger.plan_version(version.seq));
    for (const auto& one : kept) versions.emplace_back(one.seq, one.plan.get());
    ledger.book.set_temporary("plan_limit", limit_table(versions));
}

using Parameters = std::vector<book::Book::Parameter>;

void provide(fold::Ledger& ledger, const NamedTables& tables) {
    for (const auto& [name, rows] : tables) ledger.book.set_temporary(name, rows);
}

std::optional<IsoWeek> week_asked(const Parameters& parameters) {
    for (const auto& one : parameters) {
        const auto* week = std::get_if<std::int64_t>(&one.value);
        if (one.name == "week" && week) return IsoWeek{static_cast<int>(*week / 100), static_cast<int>(*week % 100)};
    }
    return std::nullopt;
}

// What the week still lacks at its end, or now while it runs.
Check provide_owed(fold::Ledger& ledger, const Parameters& parameters, Instant now) {
    const auto week = week_asked(parameters);
    if (!week) return Refusal{"what is owed without a week", "the week at whose end it is asked", "give it with --week 2026-W47", {}};
    const auto tell = [](TableRow& row, const fold::Duty& gap) {
        row("place", gap.place)("point", gap.point)("name", gap.name)("what", gap.what)("grade", word(gap.grade));
        row("since", gap.since)("due", gap.due)("never", gap.never)("closed", gap.closed);
    };
    ledger.book.set_temporary("owed_now", table_of(gaps_of_week(ledger, *week, now), tell));
    return {};
}

// Charts end with the report's week and begin three weeks before it, so that their lines rest on more than a week.
Check provide_charts(fold::Ledger& ledger, const Parameters& parameters) {
    constexpr int weeks_before = 3;
    const auto week = week_asked(parameters);
    if (!week) return Refusal{"charts without a week", "the week they end with", "give it with --week 2026-W47", {}};
    const auto [from, until] = ledger.span_of_week(*week);
    provide(ledger, chart_tables(ledger, from - days(7 * weeks_before), until));
    return {};
}

// On the first sheet, and at the foot of every page.
void mark_practice(ReportSetting& setting, const std::string& words) {
    setting.facts.emplace(setting.facts.begin(), "PRACTICE", words);
    setting.mark = "PRACTICE  " + setting.mark;
}

ReportSetting setting_of(const Site& site, fold::Ledger& ledger, Instant now) {
    const auto status = site.status();
    const auto plan = site.plan_in_force();
    ReportSetting out;
    out.site_name = status.site_name;
    if (plan) out.paper = plan->site.paper;
    out.created = now;
    out.facts = {{"Site", status.site_name}};
    if (plan && !plan->site.address.empty()) out.facts.emplace_back("Address", plan->site.address);
    out.facts.emplace_back("Printed", to_text(site.zone(), now));
    out.facts.emplace_back("Time zone", site.zone().name());
    if (status.plan) {
        out.facts.emplace_back("Plan in force", "entry " + std::to_string(status.plan->seq) + ", adopted by " + status.plan->by + " on " +
                                                    to_text(site.zone(), Instant{status.plan->from_ms}));
    }
    out.facts.emplace_back("Entries in the book", std::to_string(status.entries));
    out.facts.emplace_back("Head of the chain", status.head);
    out.mark = "entry " + std::to_string(status.entries) + "  " + status.head.substr(0, 16);
    const Zone zone = ledger.zone();
    out.day_begins = [zone](Date day) { return zone.day_start(day, 0, 0); };
    out.span_of_week = [&ledger](IsoWeek week) { return ledger.span_of_week(week); };
    if (status.practice) mark_practice(out, "all is judged, nothing is held by itself, and the gate only warns");
    return out;
}

Check provide_allergens(const Site& site, fold::Ledger& ledger, const Parameters& parameters) {
    const auto week = week_asked(parameters);
    if (!week) return Refusal{"a report of allergens without a week", "the week it is about", "give it with --week 2026-W47", {}};
    const auto [from, until] = ledger.span_of_week(*week);
    provide(ledger, allergen_report_tables(site.allergen_matrix(from, until)));
    return {};
}

Refusal no_answer(const std::string& report, const std::string& need) {
    const bool recall = need == "recall";
    return {"report " + report + " without a " + need,
            "the answer it prints",
            recall ? "run it with: peelbook recall status CODE --out FILE.xlsx" : "run it with: peelbook trace forward LOT --out FILE.xlsx",
            {}};
}

// Of a report that answers no question but its parameters. They must outlive it.
ReportSetting setting_of(const Site& site, fold::Ledger& ledger, Instant now, const std::string& name,
                         const std::vector<book::Book::Parameter>& parameters) {
    auto setting = setting_of(site, ledger, now);
    const auto& versions = ledger.plan_versions();
    const auto earnest = std::find_if(versions.begin(), versions.end(), [](const auto& v) { return v.practice == 0; });
    const auto week = week_asked(parameters);
    if (earnest != versions.begin() && earnest != versions.end() && week && ledger.span_of_week(*week).first.ms < earnest->from_ms)
        mark_practice(setting, "until " + to_text(site.zone(), Instant{earnest->from_ms}) + ", before the plan of entry " +
                                   std::to_string(earnest->seq));
    setting.provide = [&, now](const std::string& need) -> Check {
        if (need == "limits") {
            provide_limits(ledger);
            return {};
        }
        if (need == "owed") return provide_owed(ledger, parameters, now);
        if (need == "charts") return provide_charts(ledger, parameters);
        if (need == "allergens") return provide_allergens(site, ledger, parameters);
        return no_answer(name, need);
    };
    return setting;
}

// Of a report that prints one answer: `tables` of it where it needs `wanted`, and the limits.
template <class Tables> std::function<Check(const std::string&)> provider(fold::Ledger& ledger, std::string wanted, const Tables& tables) {
    return [&ledger, wanted, tables](const std::string& need) -> Check {
        if (need == "limits") provide_limits(ledger);
        if (need == wanted) provide(ledger, tables());
        return {};
    };
}

std::string asked_for(const TraceAnswer& answer) {
    std::vector<std::string> codes;
    for (const auto& lot : answer.start) codes.push_back(lot.code);
    return joined(codes, ", ");
}

std::string direction(const TraceAnswer& answer) { return answer.forward ? "forward" : "back"; }

}  // namespace

Result<Workbook> Site::report(const std::string& name, const std::vector<book::Book::Parameter>& parameters) const {
    auto& ledger = impl_->ledger;
    set_local(ledger);
    const auto snapshot = ledger.book.snapshot();
    return run_report(ledger.book, impl_->files, impl_->folder, name, parameters,
                      setting_of(*this, ledger, impl_->clock.now(), name, parameters));
}

std::pair<Instant, Instant> Site::span_of_week(IsoWeek week) const { return impl_->ledger.span_of_week(week); }

Result<ChartAnswer> Site::chart(const ChartQuestion& question) const { return control_chart(impl_->ledger, question); }

Result<Workbook> Site::trace_workbook(const TraceAnswer& answer) const {
    auto& ledger = impl_->ledger;
    set_local(ledger);
    const auto snapshot = ledger.book.snapshot();
    auto setting = setting_of(*this, ledger, impl_->clock.now());
    setting.provide =
        provider(ledger, "trace", [&] { return trace_report_tables(answer, one_step_of(ledger, answer.start), ledger.rows().partners()); });
    const Parameters parameters{{"lot", asked_for(answer)}, {"direction", direction(answer)}};
    return run_report(ledger.book, impl_->files, impl_->folder, "trace", parameters, setting);
}

std::string Site::genealogy_dot(const TraceAnswer& answer, std::size_t most_groups) const {
    trace::PictureOptions options;
    options.most_gathered = most_groups;
    options.most_single = std::min(options.most_single, most_groups);
    for (const auto& lot : answer.start) options.start.push_back(lot.id);
    options.title = impl_->ledger.plan_at(impl_->clock.now()).plan->site.name + ": trace " + direction(answer) + " of " + asked_for(answer);
    options.day = [&](std::int64_t ms) { return impl_->ledger.production_day({ms}).day; };
    return trace::genealogy_dot(answer.graph, options);
}

Result<Workbook> Site::recall_workbook(const RecallView& view) const {
    auto& ledger = impl_->ledger;
    set_local(ledger);
    const auto snapshot = ledger.book.snapshot();
    auto setting = setting_of(*this, ledger, impl_->clock.now());
    setting.provide = provider(ledger, "recall", [&] { return recall_report_tables(view, zone()); });
    const std::string stamp = view.stamp();
    if (!stamp.empty()) setting.mark = view.stamp(false) + "  " + setting.mark;
    const Parameters parameters{{"code", view.recall.code},
                                {"word", std::string(view.recall.drill != 0 ? "DRILL" : "RECALL")},
                                {"stamp", stamp.empty() ? stamp : stamp + ". "}};
    return run_report(ledger.book, impl_->files, impl_->folder, "recall", parameters, setting);
}

std::vector<std::pair<std::string, std::string>> Site::report_names() const { return report_titles(impl_->files, impl_->folder); }

Result<Table> Site::ask(const std::string& sql) const {
    set_local(impl_->ledger);
    return impl_->ledger.book.query(sql, {});
}

namespace {

// The book itself: whoever has SHA-256 checks the chain from this alone.
Table entry_table(const book::Book& book) {
    Table table{{"seq", "hash", "body"}, {}};
    record::Hash head = record::no_hash;
    for (Seq seq = 1; seq < book.next_seq(); ++seq) {
        const std::string body = book.body(seq);
        head = record::chained(head, body);
        table.rows.push_back({seq, record::to_hex(head), body});
    }
    return table;
}

}  // namespace

// Ids are the book's own business: where a table names lots by id, their codes stand beside them.
std::vector<std::pair<std::string, Table>> Site::tables() const {
    auto& ledger = impl_->ledger;
    std::vector<std::pair<std::string, Table>> out;
    for (const auto& name : book::Book::derived_tables()) {
        Table table = ledger.book.whole_table(name);
        for (const std::string column : {"into_lot", "from_lot", "lot"}) {
            const auto at = std::find(table.columns.begin(), table.columns.end(), column);
            if (at == table.columns.end() || name == "lot") continue;
            const auto index = static_cast<std::size_t>(at - table.columns.begin());
            for (auto& row : table.rows) {
                const auto* id = std::get_if<std::int64_t>(&row[index]);
                if (!id) continue;
                if (const auto lot = ledger.rows().lot(*id)) row[index] = lot->code;
            }
        }
        out.emplace_back(name, std::move(table));
    }
    out.emplace_back("entry", entry_table(ledger.book));
    return out;
}

}  // namespace peelbook::site
