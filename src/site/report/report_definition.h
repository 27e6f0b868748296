#pragma once
// What a report is made of: reports/NAME/workbook.toml and one .sql a sheet. The program carries its own; a site's reports/
// folder adds to them and overrides them file by file, so that QA can change a sheet without a programmer.
//
// workbook.toml:
//   title = "Week {week_text}"            # {NAME}: a parameter, or site
//   subtitle = "{site}"
//   about = "one line for the list of reports"
//   signatures = ["Reviewed by", "Approved by"]
//   judges_safety = true                  # prints the caution; true when left out
//   needs = ["limits", "trace", "charts", "allergens", "recall", "owed"]  # temporary tables: site/report/limit_table.h, trace_tables.h,
//                                             # chart_tables.h, allergen_tables.h, recall_tables.h; of "owed" site/ask/owed_now.h
//   [[parameter]]
//   name = "week"
//   what = "the ISO week as year x 100 + week: 202647"
//   otherwise = ""                        # its value when it is not given; without this key it must be given
//   [[sheet]]
//   name = "Deviations"                   # at most 31 characters, none of []:*?/\ ; the sheet "Summary" goes on the first page
//   sql = "deviations.sql"                # one SELECT that only reads; the caller's parameters stand in it as :NAME
//   note = "..."
//   landscape = true
//   columns = [{ key = "lot", heading = "Lot", unit = "", format = "text", width = 18 }]
//   charts = [{ kind = "scatter", title = "...", x = "minutes", y = "celsius", x_title = "min", y_title = "C",
//               series_by = "lot", also = ["limit_c"], each = "point", centre = "mean_c" }]
//                                         # {each}, {KEY} in title and y_title: base/workbook.h
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "base/clock.h"
#include "base/embedded.h"
#include "base/result.h"
#include "base/workbook.h"
#include "plan/reader.h"

namespace peelbook {
const std::vector<EmbeddedFile>& report_files();  // reports/ as compiled in
}

namespace peelbook::site {

struct ReportSheet {
    Sheet layout;                   // without its table
    std::string sql;                // text of the file
    std::string file;               // "weekly/deviations.sql", for messages
    std::vector<int> column_lines;  // of workbook.toml, one a column
};

struct ReportDefinition {
    std::string name, title, subtitle, about;
    std::vector<std::pair<std::string, std::string>> parameters;  // name, what it is: those that must be given
    std::vector<std::pair<std::string, std::string>> otherwise;   // name, value when it is not given
    std::vector<std::string> signatures, needs;
    bool judges_safety = true;
    std::vector<ReportSheet> sheets;
};

struct ReportRead {
    ReportDefinition report;          // complete only without faults
    std::vector<plan::Fault> faults;  // in line order
};

// `folder` is the site's folder; a reports/ in it need not exist. A name that is not known gives one fault without a file, whose remedy
// names the nearest reports.
ReportRead read_report(const Files& files, const std::filesystem::path& folder, const std::string& name);

// Every report, sorted by name, with its `about` line (its title when it has none, or what is wrong with its file).
std::vector<std::pair<std::string, std::string>> report_titles(const Files& files, const std::filesystem::path& folder);

}  // namespace peelbook::site
