#include <algorithm>

#include "base/measure.h"
#include "cli/trace_text.h"

namespace peelbook::cli {
namespace {

// A column of the sheet; those in mg are shown in kilograms.
SheetColumn column(const std::string& key) {
    std::string heading = key;
    for (char& c : heading)
        if (c == '_') c = ' ';
    SheetColumn shown{.key = key, .heading = heading, .unit = "", .format = "text", .width = 14};
    if (key.ends_with("_mg")) {
        shown.heading.resize(heading.size() - 3);
        shown.unit = "kg";
        shown.format = "0.000";
    } else if (key.ends_with("pieces") || key == "depth" || key == "entry") {
        shown.format = "integer";
        shown.width = 10;
    } else if (key == "share_expected") {
        shown.heading = "share of inputs";
        shown.format = "0.000";
    } else if (key == "name" || key == "item" || key == "happened" || key == "first" || key == "last") {
        shown.width = 18;
    }
    return shown;
}

Sheet sheet(std::string name, std::string note, Table table) {
    Sheet made{.name = std::move(name),
               .note = std::move(note),
               .columns = {},
               .table = std::move(table),
               .charts = {}};
    for (std::size_t i = 0; i < made.table.columns.size(); ++i) {
        made.columns.push_back(column(made.table.columns[i]));
        if (!made.table.columns[i].ends_with("_mg")) continue;
        for (auto& row : made.table.rows)
            if (const auto* mg = std::get_if<std::int64_t>(&row[i])) row[i] = in_unit(*mg, Unit::kg);
    }
    return made;
}

}  // namespace

Workbook trace_workbook(const site::TraceAnswer& answer, const site::Site& site, const std::string& asked,
                        Instant now) {
    const auto plan = site.plan_in_force();
    TraceTables tables = trace_tables(answer, site.zone(), plan ? plan->site.carry_over_ppm : 0);
    const site::Status status = site.status();
    const auto open = std::count_if(answer.balances.begin(), answer.balances.end(),
                                    [](const trace::Balance& balance) { return !balance.closes(); });
    Workbook workbook;
    workbook.title = std::string(answer.forward ? "Trace forward of " : "Trace back of ") + asked;
    workbook.subtitle = status.site_name;
    workbook.created = now;
    if (plan) workbook.paper = plan->site.paper;
    workbook.facts = {{"site", status.site_name},
                      {"asked", asked},
                      {"printed", to_text(site.zone(), now)},
                      {"lots", std::to_string(tables.lots.rows.size())},
                      {"deliveries", std::to_string(tables.customers.rows.size())},
                      {"balances that do not close", std::to_string(open)},
                      {"entries", std::to_string(status.entries)},
                      {"head of the chain", status.head}};
    for (const std::string& note : answer.notes) workbook.facts.emplace_back("note", note);
    workbook.signatures = {"Traced by", "Checked by"};
    workbook.sheets.push_back(
        sheet("Lots", "Every lot reached, through any depth, rework included.", std::move(tables.lots)));
    workbook.sheets.push_back(sheet("Customers",
                                    "Who has it, by the code printed on the pack: the unit of a recall.",
                                    std::move(tables.customers)));
    workbook.sheets.push_back(sheet("Uses", "What went into what.", std::move(tables.uses)));
    workbook.sheets.push_back(sheet("Balance",
                                    "made = used + out + on hand - gap; a gap comes from a stock count.",
                                    std::move(tables.balance)));
    workbook.sheets.push_back(sheet("Possible",
                                    "Batches with a missing use, made while the lot was in house.",
                                    std::move(tables.possible)));
    return workbook;
}

}  // namespace peelbook::cli
