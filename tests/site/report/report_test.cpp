#include "site/report/report.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "fold/ledger.h"
#include "plan/reader.h"
#include "site/ask/control_chart.h"
#include "site/report/chart_tables.h"
#include "site/report/report_definition.h"

using namespace peelbook;
using namespace peelbook::site;

namespace {

class FilesInMemory final : public Files {
  public:
    std::map<std::filesystem::path, std::string> texts;

    std::optional<std::string> read(const std::filesystem::path& file) const override {
        const auto found = texts.find(file);
        return found == texts.end() ? std::nullopt : std::optional(found->second);
    }
    bool exists(const std::filesystem::path& path) const override { return texts.count(path) > 0; }
    std::vector<std::filesystem::path> list(const std::filesystem::path& folder) const override {
        std::vector<std::filesystem::path> out;
        for (const auto& [path, text] : texts) {
            const auto child = folder / *path.lexically_relative(folder).begin();
            if (*path.lexically_relative(folder).begin() != ".." && (out.empty() || out.back() != child)) out.push_back(child);
        }
        return out;
    }
    void create(const std::filesystem::path& file, std::string_view text) override { texts[file] = std::string(text); }
    void make_folder(const std::filesystem::path&) override {}
};

const std::string small_report = R"(title = "Lots of {week_text} at {site}"
signatures = ["Read by"]
judges_safety = false
[[parameter]]
name = "week"
what = "the week"
[[sheet]]
name = "Lots"
sql = "lots.sql"
note = "week {week}, {unknown}"
columns = [
    { key = "code", heading = "Lot", width = 20 },
    { key = "week", heading = "Week", format = "integer" },
]
)";

struct Bench {
    FilesInMemory files;
    book::Book book = book::Book::in_memory();
    ReportSetting setting;

    Bench() {
        files.texts["site/reports/small/workbook.toml"] = small_report;
        files.texts["site/reports/small/lots.sql"] = "SELECT 'A-1' AS code, :week AS week, :week_text AS text";
        setting.site_name = "Brook";
        setting.paper = "Letter";
        setting.facts = {{"Site", "Brook"}};
        setting.mark = "entry 1";
        book.set_local([](std::int64_t ms) { return "at " + std::to_string(ms); });
    }
    Result<Workbook> run(const std::string& name, const std::vector<book::Book::Parameter>& parameters) const {
        return run_report(book, files, "site", name, parameters, setting);
    }
    Refusal refused(const std::string& changed_toml) {
        files.texts["site/reports/small/workbook.toml"] = changed_toml;
        return run("small", {{"week", std::int64_t{202647}}}).refusal();
    }
};

std::string replaced(std::string text, const std::string& what, const std::string& with) {
    return text.replace(text.find(what), what.size(), with);
}

}  // namespace

TEST_CASE("A site's own report is run with its parameters") {
    const Bench bench;
    const auto workbook = bench.run("small", {{"week", std::int64_t{202647}}});
    REQUIRE(workbook.ok());
    CHECK(workbook->title == "Lots of 2026-W47 at Brook");
    CHECK(workbook->paper == "Letter");
    CHECK(workbook->mark == "entry 1");
    CHECK_FALSE(workbook->judges_safety);
    CHECK(workbook->signatures == std::vector<std::string>{"Read by"});
    REQUIRE(workbook->sheets.size() == 1);
    CHECK(workbook->sheets[0].note == "week 202647, {unknown}");
    CHECK(workbook->sheets[0].columns[0].width == 20);
    CHECK(workbook->sheets[0].table.rows == std::vector<std::vector<Cell>>{{"A-1", std::int64_t{202647}, "2026-W47"}});
}

TEST_CASE("A site's file takes the place of the program's, the others stay") {
    Bench bench;
    bench.files.texts["site/reports/weekly/reviews.sql"] =
        "SELECT 'own' AS what, 'x' AS reviewed, 'AB' AS who, 'n' AS note, 's' AS standing";
    const auto read = read_report(bench.files, "site", "weekly");
    REQUIRE(read.faults.empty());
    const auto& sheets = read.report.sheets;
    const auto reviews = std::find_if(sheets.begin(), sheets.end(), [](const auto& sheet) { return sheet.layout.name == "Reviews"; });
    REQUIRE(reviews != sheets.end());
    CHECK(reviews->sql.substr(0, 12) == "SELECT 'own'");
    CHECK(sheets.front().sql.find("FROM finding") != std::string::npos);
}

TEST_CASE("The program's own reports have no fault, and run on an empty book") {
    const Bench bench;
    for (const std::string name : {"weekly", "trace"}) {
        INFO(name);
        const auto read = read_report(FilesInMemory(), "nowhere", name);
        for (const auto& fault : read.faults) FAIL_CHECK(plan::to_text(fault));
        for (const auto& sheet : read.report.sheets) {
            INFO(sheet.file);
            CHECK(sheet.sql.starts_with("-- question: "));
            CHECK(sheet.sql.find("\n-- parameters: ") != std::string::npos);
            CHECK(sheet.sql.find("\n-- columns: ") != std::string::npos);
        }
    }
    bench.book.set_temporary("plan_limit", {{"plan_seq", "point", "kind", "dimension", "stage", "start", "least", "most", "by_ms"}, {}});
    bench.book.set_temporary("owed_now", {{"place", "point", "name", "what", "grade", "since", "due", "never", "closed"}, {}});
    fold::Ledger empty(book::Book::in_memory());
    for (const auto& [name, table] : chart_tables(empty, Instant{0}, Instant{1})) bench.book.set_temporary(name, table);
    const auto workbook =
        bench.run("weekly", {{"week", std::int64_t{202647}}, {"from_ms", std::int64_t{0}}, {"until_ms", std::int64_t{1}}});
    if (!workbook) FAIL(workbook.refusal().given + ": " + workbook.refusal().wanted);
    CHECK(workbook->title == "Week 2026-W47");
    for (const auto& sheet : workbook->sheets) CHECK(sheet.table.rows.empty());
}

TEST_CASE("A parameter with a value of its own need not be given; days become instants, and words") {
    Bench bench;
    bench.files.texts["site/reports/small/workbook.toml"] = R"(title = "Lots, {asked}"
judges_safety = false
[[parameter]]
name = "from"
what = "the first day"
otherwise = ""
[[parameter]]
name = "until"
what = "the last day"
otherwise = ""
[[sheet]]
name = "Lots"
sql = "lots.sql"
columns = [ { key = "from_ms", heading = "From" } ]
)";
    bench.files.texts["site/reports/small/lots.sql"] = "SELECT :from_ms AS from_ms, :until_ms AS until_ms";
    bench.setting.day_begins = [](Date day) { return Instant{to_days(day) * 86'400'000 - 3'600'000}; };  // UTC+1, no daylight saving
    const auto all = bench.run("small", {});
    REQUIRE(all);
    CHECK(all->title == "Lots, all of the book");
    const auto days = bench.run("small", {{"from", "2026-11-16"}, {"until", "2026-11-17"}});
    REQUIRE(days);
    CHECK(days->title == "Lots, 2026-11-16 to 2026-11-17");
    // 2026-11-15T23:00Z and 2026-11-17T23:00Z, by `date -d ... +%s`
    CHECK(days->sheets[0].table.rows[0] == std::vector<Cell>{std::int64_t{1'794'783'600'000}, std::int64_t{1'794'956'400'000}});
    CHECK(bench.run("small", {{"from", "2026-11-17"}})->title == "Lots, from 2026-11-17");
    CHECK(bench.run("small", {{"until", "2026-11-17"}})->title == "Lots, until 2026-11-17");
    CHECK(bench.run("small", {{"from", "17.11."}}).refusal().given == "date '17.11.'");
    CHECK(bench.run("small", {{"from", "2026-11-18"}, {"until", "2026-11-17"}}).refusal().wanted ==
          "a first day that is not after the last");
}

TEST_CASE("Reports are listed by name, the site's own among them") {
    const Bench bench;
    const auto titles = report_titles(bench.files, "site");
    CHECK(std::is_sorted(titles.begin(), titles.end()));
    const auto listed = [&](const std::string& name) {
        return std::count_if(titles.begin(), titles.end(), [&](const auto& one) { return one.first == name; });
    };
    CHECK(std::count(titles.begin(), titles.end(), std::pair<std::string, std::string>{"small", "Lots of {week_text} at {site}"}) == 1);
    for (const char* own : {"allergens", "trace", "traceability", "weekly"}) CHECK(listed(own) == 1);
}

TEST_CASE("A need is provided for before the first query, or ends the report") {
    Bench bench;
    bench.files.texts["site/reports/small/workbook.toml"] = "needs = [\"limits\"]\n" + small_report;
    std::vector<std::string> asked;
    bench.setting.provide = [&](const std::string& need) -> Check {
        asked.push_back(need);
        return Refusal{"no limits", "limits", "adopt a plan", {}};
    };
    CHECK(bench.run("small", {{"week", std::int64_t{202647}}}).refusal().given == "no limits");
    CHECK(asked == std::vector<std::string>{"limits"});
}

TEST_CASE("What a person asks wrongly is refused in one clear sentence") {
    const Bench bench;
    const auto unknown = bench.run("weakly", {}).refusal();
    CHECK(unknown.given == "report 'weakly'");
    std::string names;
    const auto titles = report_titles(bench.files, "site");
    for (std::size_t i = 0; i < titles.size(); ++i)
        names += (i == 0 ? "'" : i + 1 == titles.size() ? " or '" : ", '") + titles[i].first + "'";
    CHECK(unknown.wanted == names);
    CHECK(unknown.next == "did you mean 'weekly'? If not: choose one of these, or add reports/NAME/workbook.toml to the site");
    CHECK(bench.run("../plan", {}).refusal().given == "report '../plan'");
    const auto missing = bench.run("small", {}).refusal();
    CHECK(missing.given == "report 'small' without 'week'");
    CHECK(missing.wanted == "the week");
    CHECK(missing.next == "give it with --week 2026-W47");
    // 2026 has 53 ISO weeks, 2027 has 52 (ISO 8601: 2026-01-01 is a Thursday).
    CHECK(bench.run("small", {{"week", std::int64_t{202653}}}).ok());
    CHECK(bench.run("small", {{"week", std::int64_t{202753}}}).refusal().given == "week '202753'");
}

TEST_CASE("A fault of a report's file is shown at its line with a remedy") {
    Bench bench;
    SECTION("a key that is not known") {
        CHECK(bench.refused(replaced(small_report, "signatures", "signature")).given ==
              "reports/small/workbook.toml:2:1: error: key 'signature'; wanted: one of title, subtitle, about, signatures, "
              "judges_safety, needs, parameter, sheet\n    signature = [\"Read by\"]\n    ^\n"
              "    [did you mean 'signatures'? If not: leave it out]");
    }
    SECTION("a format that is not known") {
        CHECK(bench.refused(replaced(small_report, "\"integer\"", "\"intger\"")).given ==
              "reports/small/workbook.toml:13:48: error: format 'intger'; wanted: 'text', 'integer', '0', '0.0', '0.00', '0.000', "
              "'0.0%', '0.00%', 'count' or 'verdict'\n        { key = \"week\", heading = \"Week\", format = \"intger\" },\n"
              "                                                   ^\n    [did you mean 'integer'? If not: choose one of these]");
    }
    SECTION("a path instead of a file's name") {
        const auto refusal = bench.refused(replaced(small_report, "\"lots.sql\"", "\"../../secret.sql\""));
        CHECK(refusal.given.find("9:7: error: sql '../../secret.sql'; wanted: the name of an .sql file in the same folder") !=
              std::string::npos);
        CHECK(refusal.next == "write it without a path");
    }
    SECTION("a file that is not there") {
        CHECK(bench.refused(replaced(small_report, "lots.sql", "lost.sql"))
                  .given.find("there is no file 'reports/small/lost.sql'; wanted: the query of this sheet") != std::string::npos);
    }
    SECTION("broken TOML") { CHECK(bench.refused("title = \"x\nsheet").given.find("reports/small/workbook.toml:1:") == 0); }
    SECTION("a column that the query does not give") {
        const auto refusal = bench.refused(replaced(small_report, "key = \"code\"", "key = \"cod\""));
        CHECK(refusal.given == "reports/small/workbook.toml:12: column 'cod'");
        CHECK(refusal.wanted == "a column that reports/small/lots.sql gives: code, week, text");
        CHECK(refusal.nearest == std::vector<std::string>{"code"});
    }
    SECTION("a query that writes") {
        bench.files.texts["site/reports/small/lots.sql"] = "DELETE FROM lot";
        const auto refusal = bench.run("small", {{"week", std::int64_t{202647}}}).refusal();
        CHECK(refusal.given == "reports/small/lots.sql, the query of sheet 'Lots'");
        CHECK(refusal.wanted == "a question that only reads");
    }
    SECTION("a query that cannot be run") {
        bench.files.texts["site/reports/small/lots.sql"] = "SELECT absent FROM lot";
        CHECK(bench.run("small", {{"week", std::int64_t{202647}}}).refusal().wanted == "SQL that can be run: no such column: absent");
    }
    SECTION("a chart over a column that is not shown") {
        const std::string chart = small_report + "charts = [{ title = \"c\", x = \"code\", y = \"weak\" }]\n";
        CHECK(bench.refused(chart).given.find("column 'weak' is not shown on this sheet; wanted: the key of one of its columns") !=
              std::string::npos);
    }
}
