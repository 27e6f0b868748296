#include "site/report/report.h"

#include <algorithm>
#include <limits>

#include "base/text.h"

namespace peelbook::site {
namespace {

using Parameter = book::Book::Parameter;

// The first fault in full; the others by number, so that a person mends them in one go.
Refusal refusal_of(const std::string& name, const std::vector<plan::Fault>& faults) {
    const plan::Fault& first = faults.front();
    if (first.file.empty()) return {first.found, first.wanted, first.remedy, {}};
    std::vector<std::string> texts;
    for (const auto& fault : faults) texts.push_back(plan::to_text(fault));
    return {joined(texts, "\n"), "report '" + name + "' without faults in its files", first.remedy, {}};
}

const Cell* value_of(const std::vector<Parameter>& parameters, const std::string& name) {
    for (const auto& parameter : parameters) {
        if (parameter.name == name) return &parameter.value;
    }
    return nullptr;
}

std::string text_of(const std::vector<Parameter>& parameters, const std::string& name) {
    const Cell* value = value_of(parameters, name);
    return value == nullptr ? "" : to_text(*value);
}

// "2026-11-16 to 2026-11-22, lot B-20"
std::string asked_in_words(const std::string& from, const std::string& until, const std::string& lot) {
    std::string days = from.empty() ? "until " + until : until.empty() ? "from " + from : from + " to " + until;
    if (from.empty() && until.empty()) days = lot.empty() ? "all of the book" : "";
    return days + (days.empty() || lot.empty() ? "" : ", ") + (lot.empty() ? "" : "lot " + lot);
}

Check add_days_asked(std::vector<Parameter>& parameters, const ReportSetting& setting) {
    const bool days = value_of(parameters, "from") != nullptr || value_of(parameters, "until") != nullptr;
    if (!days || !setting.day_begins || value_of(parameters, "from_ms") != nullptr) return {};
    const std::string from = text_of(parameters, "from"), until = text_of(parameters, "until");
    std::int64_t from_ms = std::numeric_limits<std::int64_t>::min(), until_ms = std::numeric_limits<std::int64_t>::max();
    if (!from.empty()) {
        const auto day = parse_date(from);
        if (!day) return day.refusal();
        from_ms = setting.day_begins(*day).ms;
    }
    if (!until.empty()) {
        const auto day = parse_date(until);
        if (!day) return day.refusal();
        until_ms = setting.day_begins(add_days(*day, 1)).ms;
    }
    if (from_ms >= until_ms)
        return Refusal{"from " + from + " until " + until, "a first day that is not after the last", "change the two days over", {}};
    parameters.push_back({"from_ms", from_ms});
    parameters.push_back({"until_ms", until_ms});
    parameters.push_back({"asked", asked_in_words(from, until, text_of(parameters, "lot"))});
    return {};
}

Check add_derived_parameters(std::vector<Parameter>& parameters, const ReportSetting& setting) {
    if (value_of(parameters, "site") == nullptr) parameters.push_back({"site", setting.site_name});
    const Cell* week = value_of(parameters, "week");
    if (week == nullptr || value_of(parameters, "week_text") != nullptr) return {};
    const auto* number = std::get_if<std::int64_t>(week);
    const IsoWeek iso = number == nullptr ? IsoWeek{0, 0} : IsoWeek{static_cast<int>(*number / 100), static_cast<int>(*number % 100)};
    if (iso.year < 1970 || iso.year > 9999 || iso.week < 1 || iso.week > weeks_in_iso_year(iso.year)) {
        return Refusal{"week '" + to_text(*week) + "'", "an ISO week such as 2026-W47", "name a week that exists", {}};
    }
    parameters.push_back({"week_text", to_text(iso)});
    if (setting.span_of_week && value_of(parameters, "from_ms") == nullptr) {
        const auto [from, until] = setting.span_of_week(iso);
        parameters.push_back({"from_ms", from.ms});
        parameters.push_back({"until_ms", until.ms});
    }
    return {};
}

Check check_parameters(const ReportDefinition& report, const std::vector<Parameter>& parameters) {
    for (const auto& [name, what] : report.parameters) {
        if (value_of(parameters, name) != nullptr) continue;
        return Refusal{"report '" + report.name + "' without '" + name + "'",
                       what.empty() ? "a value for it" : what,
                       name == "week" ? "give it with --week 2026-W47" : "give it with --set " + name + "=...",
                       {}};
    }
    return {};
}

// "{week_text}" becomes the parameter's value; braces around anything else stay.
std::string filled(const std::string& text, const std::vector<Parameter>& parameters) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = text[at] == '{' ? text.find('}', at) : std::string::npos;
        const Cell* value = end == std::string::npos ? nullptr : value_of(parameters, text.substr(at + 1, end - at - 1));
        if (value == nullptr) {
            out.push_back(text[at++]);
        } else {
            out.append(to_text(*value));
            at = end + 1;
        }
    }
    return out;
}

Check check_columns(const ReportDefinition& report, const ReportSheet& sheet, const Table& table) {
    for (std::size_t i = 0; i < sheet.layout.columns.size(); ++i) {
        const auto& key = sheet.layout.columns[i].key;
        if (std::find(table.columns.begin(), table.columns.end(), key) != table.columns.end()) continue;
        return Refusal{"reports/" + report.name + "/workbook.toml:" + std::to_string(sheet.column_lines[i]) + ": column '" + key + "'",
                       "a column that " + sheet.file + " gives: " + joined(table.columns, ", "), "name it in the query or here alike",
                       nearest(key, table.columns)};
    }
    return {};
}

Sheet without_table(const ReportSheet& from, const std::vector<Parameter>& parameters) {
    Sheet sheet = from.layout;
    sheet.note = filled(sheet.note, parameters);
    for (auto& chart : sheet.charts) chart.title = filled(chart.title, parameters);
    return sheet;
}

Result<Table> table_of_sheet(const book::Book& book, const ReportDefinition& report, const ReportSheet& sheet,
                             const std::vector<Parameter>& parameters) {
    auto table = book.query(sheet.sql, parameters);
    if (!table) {
        const Refusal& why = table.refusal();
        return Refusal{sheet.file + ", the query of sheet '" + sheet.layout.name + "'", why.wanted, why.next, why.nearest};
    }
    if (auto checked = check_columns(report, sheet, *table); !checked) return checked.refusal();
    return table;
}

}  // namespace

Result<Workbook> run_report(const book::Book& book, const Files& files, const std::filesystem::path& folder, const std::string& name,
                            const std::vector<Parameter>& given, const ReportSetting& setting) {
    const auto read = read_report(files, folder, name);
    if (!read.faults.empty()) return refusal_of(name, read.faults);
    const ReportDefinition& report = read.report;
    auto parameters = given;
    for (const auto& [parameter, value] : report.otherwise)
        if (value_of(parameters, parameter) == nullptr) parameters.push_back({parameter, value});
    if (auto checked = add_derived_parameters(parameters, setting); !checked) return checked.refusal();
    if (auto checked = add_days_asked(parameters, setting); !checked) return checked.refusal();
    if (auto checked = check_parameters(report, parameters); !checked) return checked.refusal();
    for (const auto& need : report.needs) {
        if (!setting.provide) continue;
        if (auto checked = setting.provide(need); !checked) return checked.refusal();
    }
    Workbook workbook;
    workbook.title = filled(report.title, parameters);
    workbook.subtitle = filled(report.subtitle, parameters);
    workbook.paper = setting.paper;
    workbook.created = setting.created;
    workbook.facts = setting.facts;
    workbook.mark = setting.mark;
    workbook.signatures = report.signatures;
    workbook.judges_safety = report.judges_safety;
    for (const ReportSheet& from : report.sheets) {
        auto table = table_of_sheet(book, report, from, parameters);
        if (!table) return table.refusal();
        workbook.sheets.push_back(without_table(from, parameters));
        workbook.sheets.back().table = *std::move(table);
    }
    return workbook;
}

}  // namespace peelbook::site
