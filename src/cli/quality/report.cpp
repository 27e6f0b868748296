#include <ostream>

#include "base/text.h"
#include "cli/frame/command.h"
#include "output/json.h"
#include "output/text_table.h"
#include "output/workbook_file.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Json;

struct ReportGiven {
    std::string name, out, week, lot;
    std::optional<Date> from, until;
    std::vector<std::string> settings;
    Asking asking;
};

void set_up(Options& options, ReportGiven& given) {
    options.word(given.name, "REPORT", "the report; without one, the list of reports", Need::optional)
        .text(given.week, "--week", "WEEK", "the week it is about: 2026-W47")
        .date(given.from, "--from", "the first day it is about")
        .date(given.until, "--until", "the last day it is about")
        .text(given.lot, "--lot", "CODE", "the lot it is about")
        .each(given.settings, "--set", "NAME=VALUE", "another parameter of the report")
        .text(given.out, "--out", "FILE.xlsx", "the workbook to write; else the report is shown here");
    add_asking(options, given.asking);
}

Cell value_of(const std::string& text) {
    const bool number = !text.empty() && text.size() < 16 && text.find_first_not_of("0123456789") == std::string::npos;
    if (number) return std::stoll(text);
    return text;
}

// Weeks are stored as ISO year x 100 + week.
Result<std::vector<book::Book::Parameter>> parameters(const ReportGiven& given) {
    std::vector<book::Book::Parameter> all;
    if (!given.week.empty()) {
        const auto week = parse_iso_week(given.week);
        if (!week) return week.refusal();
        all.push_back({"week", std::int64_t{week->year} * 100 + week->week});
    }
    if (given.from) all.push_back({"from", to_text(*given.from)});
    if (given.until) all.push_back({"until", to_text(*given.until)});
    if (!given.lot.empty()) all.push_back({"lot", given.lot});
    for (const std::string& setting : given.settings) {
        const std::size_t sign = setting.find('=');
        if (sign == std::string::npos || sign == 0)
            return Refusal{"--set: '" + shown(setting) + "'", "a parameter of the report and its value", "type it as --set NAME=VALUE", {}};
        all.push_back({setting.substr(0, sign), value_of(setting.substr(sign + 1))});
    }
    return all;
}

Exit list_reports(Context& context, const site::Site& site) {
    context.out << output::text_pairs(site.report_names()) << "next: peelbook report NAME --out FILE.xlsx\n";
    return Exit::done;
}

std::vector<std::string> headings(const Sheet& sheet) {
    std::vector<std::string> texts;
    for (const SheetColumn& column : sheet.columns)
        texts.push_back(column.unit.empty() ? column.heading : column.heading + " [" + column.unit + "]");
    return texts;
}

// The columns of a sheet in its order; a sheet may show fewer than its table has.
Table shown_columns(const Sheet& sheet) {
    Table shown;
    std::vector<std::size_t> from;
    for (const SheetColumn& column : sheet.columns)
        for (std::size_t i = 0; i < sheet.table.columns.size(); ++i)
            if (sheet.table.columns[i] == column.key) {
                shown.columns.push_back(column.key);
                from.push_back(i);
            }
    for (const auto& row : sheet.table.rows) {
        auto& cells = shown.rows.emplace_back();
        for (const std::size_t i : from) cells.push_back(row[i]);
    }
    return shown;
}

void print_text(std::ostream& out, const Workbook& workbook) {
    out << workbook.title << '\n';
    if (!workbook.subtitle.empty()) out << workbook.subtitle << '\n';
    out << output::text_pairs(workbook.facts);
    for (const Sheet& sheet : workbook.sheets) {
        const Table table = shown_columns(sheet);
        out << '\n' << sheet.name << ": " << table.rows.size() << " rows\n";
        if (table.columns.size() == sheet.columns.size() && !table.rows.empty())
            out << output::text_table(table, headings(sheet), output::TextTableStyle{.indent = 2, .most_width = 40, .headings = true});
    }
    if (workbook.judges_safety) out << caution << '\n';
}

Json workbook_json(const Workbook& workbook) {
    auto facts = Json::object();
    for (const auto& [name, value] : workbook.facts) facts.set(name, value);
    auto sheets = Json::object();
    for (const Sheet& sheet : workbook.sheets) sheets.set(sheet.name, output::to_json(sheet.table));
    auto json = Json::object();
    json.set("title", workbook.title).set("facts", std::move(facts)).set("sheets", std::move(sheets));
    if (workbook.judges_safety) json.set("caution", caution);
    return json;
}

void tell_written(std::ostream& out, const std::string& file, const Workbook& workbook) {
    out << "wrote " << file << ": " << workbook.title << '\n';
    for (const Sheet& sheet : workbook.sheets) out << "  " << sheet.name << ": " << sheet.table.rows.size() << " rows\n";
    if (workbook.judges_safety) out << caution << '\n';
}

Result<Exit> act(Context& context, const ReportGiven& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    if (given.name.empty()) return list_reports(context, **site);
    const auto asked = parameters(given);
    if (!asked) return asked.refusal();
    const auto workbook = (*site)->report(given.name, *asked);
    if (!workbook) return workbook.refusal();
    if (!given.out.empty()) {
        output::write_workbook(*workbook, context.here / given.out);
        tell_written(context.out, given.out, *workbook);
    } else if (given.asking.json) {
        context.out << workbook_json(*workbook).text() << '\n';
    } else {
        print_text(context.out, *workbook);
    }
    return Exit::done;
}

}  // namespace

extern const Command report_command;
const Command report_command{.name = "report",
                             .group = Group::quality,
                             .about = "Write a report as a workbook to print, sign and file, or show it here.",
                             .more = {},
                             .examples =
                                 "peelbook report\npeelbook report weekly --week 2026-W47 --out weekly.xlsx\n"
                                 "peelbook report traceability --from 2026-11-16 --until 2026-11-22 --out sheet.xlsx",
                             .takes_at = false,
                             .body = body<ReportGiven, set_up, act>()};

}  // namespace peelbook::cli
