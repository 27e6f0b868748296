#pragma once
// Runs a report of reports/ (site/report/report_definition.h) over the derived tables and hands back a workbook as values.
#include <filesystem>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "base/calendar.h"
#include "base/clock.h"
#include "base/result.h"
#include "base/workbook.h"
#include "book/book.h"
#include "site/report/report_definition.h"

namespace peelbook::site {

struct ReportSetting {
    std::string site_name, paper = "A4";
    Instant created;                                         // the injected clock's now
    std::vector<std::pair<std::string, std::string>> facts;  // for the first page: plan version, entries, head of the chain, ...
    std::string mark;                                        // at the foot of every page
    // When a week begins and ends: the site's zone and production day. Absent: :from_ms and :until_ms are not offered.
    std::function<std::pair<Instant, Instant>(IsoWeek)> span_of_week;
    // When a calendar day of the site begins. Absent: :from and :until are not offered as instants.
    std::function<Instant(Date)> day_begins;
    // Fills the temporary tables of one need ("limits", "trace") before the first query; a refusal ends the report. Called once
    // for each need the report states.
    std::function<Check(const std::string& need)> provide;
};

// Parameters stand in the SQL as :NAME and in titles, subtitle and notes as {NAME}. These are added when they are not given:
//   :week_text  "2026-W47", from :week (202647); a :week that is no ISO week is refused
//   :from_ms, :until_ms  when that week begins and ends (not included)
//   :site       the site's name
//   :from_ms, :until_ms, :asked   when :from or :until is a day (2026-11-24) or empty: from the beginning of the first to the end of the
//               last, without one from or until any time; and in words with :lot: "2026-11-16 to 2026-11-22, lot B-20"
// Refused: a report that is not known (the nearest are offered); a fault in its files, with file, line, what is wanted and the
// remedy; a parameter that the report wants and was not given; a query that cannot be run or does more than read.
Result<Workbook> run_report(const book::Book& book, const Files& files, const std::filesystem::path& folder, const std::string& name,
                            const std::vector<book::Book::Parameter>& parameters, const ReportSetting& setting);

}  // namespace peelbook::site
