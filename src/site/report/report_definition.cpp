#include "site/report/report_definition.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "base/text.h"
#include "plan/faults.h"
#include "plan/toml.h"
#include "plan/words.h"

namespace peelbook::site {
namespace {

using plan::TomlValue;
using Kind = TomlValue::Kind;

const std::vector<std::string> known_needs{"allergens", "charts", "limits", "owed", "recall", "trace"};
const std::vector<std::string> known_formats{"text", "integer", "0", "0.0", "0.00", "0.000", "0.0%", "0.00%", "count", "verdict"};
const std::vector<std::string> known_kinds{"line", "scatter", "column"};
constexpr std::int64_t narrowest = 3, widest = 120;  // characters of a column

// The part of a path that a person may choose: one name, no way out of the folder.
bool is_plain_name(std::string_view name) {
    return !name.empty() && name.front() != '.' &&
           name.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_.") == std::string_view::npos;
}

std::optional<std::string> embedded(const std::string& path) {
    for (const auto& file : report_files()) {
        if (file.path == path) return std::string(file.text);
    }
    return {};
}

std::optional<std::string> text_of(const Files& files, const std::filesystem::path& folder, const std::string& name,
                                   const std::string& file) {
    if (auto own = files.read(folder / "reports" / name / file)) return own;
    return embedded(name + "/" + file);
}

std::set<std::string> known_reports(const Files& files, const std::filesystem::path& folder) {
    std::set<std::string> names;
    for (const auto& file : report_files()) {
        if (file.path.ends_with("/workbook.toml")) names.emplace(file.path.substr(0, file.path.find('/')));
    }
    for (const auto& path : files.list(folder / "reports")) {
        const std::string name = path.filename().string();
        if (is_plain_name(name) && files.exists(path / "workbook.toml")) names.insert(name);
    }
    return names;
}

class Reader {
  public:
    Reader(const Files& files, const std::filesystem::path& folder, ReportDefinition& report, std::string text)
        : files_(files),
          folder_(folder),
          report_(report),
          documents_{plan::parse_toml("reports/" + report.name + "/workbook.toml", std::move(text))},
          faults_(documents_) {}

    std::vector<plan::Fault> read() {
        const auto& document = documents_.front();
        if (document.broken) {
            faults_.error({0, document.broken->at}, document.broken->what, "TOML 1.0", "mend this line, then run the report again");
            return faults_.in_order();
        }
        const TomlValue& root = document.root;
        only_keys(root, {"title", "subtitle", "about", "signatures", "judges_safety", "needs", "parameter", "sheet"});
        report_.title = text(root, "title", true);
        report_.subtitle = text(root, "subtitle", false);
        report_.about = text(root, "about", false);
        report_.signatures = texts(root, "signatures");
        report_.needs = texts(root, "needs", &known_needs);
        report_.judges_safety = flag(root, "judges_safety", true);
        for (const TomlValue* parameter : tables(root, "parameter")) {
            only_keys(*parameter, {"name", "what", "otherwise"});
            const std::string name = text(*parameter, "name", true), what = text(*parameter, "what", false);
            if (parameter->find("otherwise"))
                report_.otherwise.emplace_back(name, text(*parameter, "otherwise", false));
            else
                report_.parameters.emplace_back(name, what);
        }
        const auto sheets = tables(root, "sheet");
        if (sheets.empty()) error(root.at, "no [[sheet]]", "at least one sheet", "add [[sheet]] with name, sql and columns");
        for (const TomlValue* sheet : sheets) read_sheet(*sheet);
        return faults_.in_order();
    }

  private:
    void error(plan::Position at, std::string found, std::string wanted, std::string remedy) {
        if (at.line == 0) at = {1, 1};
        faults_.error({0, at}, std::move(found), std::move(wanted), std::move(remedy));
    }

    void only_keys(const TomlValue& table, const std::vector<std::string>& known) {
        for (const auto& entry : table.entries) {
            if (std::find(known.begin(), known.end(), entry.key) != known.end()) continue;
            error(entry.at, "key " + plan::quoted(entry.key), "one of " + joined(known, ", "),
                  plan::remedy_with(nearest(entry.key, known), "leave it out"));
        }
    }

    const TomlValue* of_kind(const TomlValue& table, std::string_view key, Kind kind, bool needed) {
        const TomlValue* value = table.find(key);
        if (value == nullptr && needed) {
            error(table.at, "no '" + std::string(key) + "'", "'" + std::string(key) + "', " + std::string(name_of(kind)),
                  "add " + std::string(key) + " = ... here");
        }
        if (value == nullptr || value->is(kind)) return value;
        error(value->at, std::string(key) + " is " + std::string(name_of(value->kind)), std::string(name_of(kind)), "write it so");
        return nullptr;
    }

    std::string text(const TomlValue& table, std::string_view key, bool needed) {
        const TomlValue* value = of_kind(table, key, Kind::text, needed);
        if (value != nullptr && needed && trimmed(value->text).empty()) {
            error(value->at, std::string(key) + " is empty", "some text", "fill it in");
        }
        return value == nullptr ? "" : value->text;
    }

    std::string chosen(const TomlValue& table, std::string_view key, const std::vector<std::string>& known, std::string otherwise) {
        const TomlValue* value = of_kind(table, key, Kind::text, false);
        if (value == nullptr) return otherwise;
        check_known(*value, key, known);
        return value->text;
    }

    void check_known(const TomlValue& value, std::string_view key, const std::vector<std::string>& known) {
        if (std::find(known.begin(), known.end(), value.text) != known.end()) return;
        error(value.at, std::string(key) + " " + plan::quoted(value.text), plan::any_of(known),
              plan::remedy_with(nearest(value.text, known), "choose one of these"));
    }

    std::vector<std::string> texts(const TomlValue& table, std::string_view key, const std::vector<std::string>* known = nullptr) {
        std::vector<std::string> out;
        const TomlValue* list = of_kind(table, key, Kind::array, false);
        if (list == nullptr) return out;
        for (const auto& item : list->items) {
            if (!item.is(Kind::text)) {
                error(item.at, std::string(key) + " holds " + std::string(name_of(item.kind)), "texts", "put it in quotes");
                continue;
            }
            if (known != nullptr) check_known(item, key, *known);
            out.push_back(item.text);
        }
        return out;
    }

    bool flag(const TomlValue& table, std::string_view key, bool otherwise) {
        const TomlValue* value = of_kind(table, key, Kind::flag, false);
        return value == nullptr ? otherwise : value->flag;
    }

    std::vector<const TomlValue*> tables(const TomlValue& table, std::string_view key) {
        std::vector<const TomlValue*> out;
        const TomlValue* list = of_kind(table, key, Kind::array, false);
        if (list == nullptr) return out;
        for (const auto& item : list->items) {
            if (item.is(Kind::table)) {
                out.push_back(&item);
            } else {
                error(item.at, std::string(key) + " holds " + std::string(name_of(item.kind)), "tables",
                      "write [[" + std::string(key) + "]]");
            }
        }
        return out;
    }

    void read_sheet(const TomlValue& from) {
        only_keys(from, {"name", "sql", "note", "landscape", "columns", "charts"});
        ReportSheet sheet;
        sheet.layout.name = text(from, "name", true);
        check_sheet_name(from, sheet.layout.name);
        sheet.layout.note = text(from, "note", false);
        sheet.layout.landscape = flag(from, "landscape", true);
        read_sql(from, sheet);
        const auto columns = tables(from, "columns");
        if (columns.empty()) error(from.at, "no columns", "columns = [{ key = \"...\", heading = \"...\" }]", "list what to show");
        for (const TomlValue* column : columns) read_column(*column, sheet);
        for (const TomlValue* chart : tables(from, "charts")) read_chart(*chart, sheet);
        report_.sheets.push_back(std::move(sheet));
    }

    void check_sheet_name(const TomlValue& from, const std::string& name) {
        const TomlValue* at = from.find("name");
        if (name.empty() || at == nullptr) return;
        if (name.size() > 31 || name.find_first_of("[]:*?/\\") != std::string::npos || name.front() == '\'' || name.back() == '\'') {
            error(at->at, "sheet name " + plan::quoted(name), "at most 31 characters, none of []:*?/\\ and no ' at an end",
                  "choose a shorter or plainer name");
        }
        for (const auto& other : report_.sheets) {
            if (lowered(other.layout.name) == lowered(name)) {
                error(at->at, "a second sheet " + plan::quoted(name), "a name of its own for each sheet", "rename one of the two");
            }
        }
    }

    void read_sql(const TomlValue& from, ReportSheet& sheet) {
        const std::string file = text(from, "sql", true);
        if (file.empty()) return;
        const auto at = from.find("sql")->at;
        if (!is_plain_name(file) || !file.ends_with(".sql")) {
            error(at, "sql " + plan::quoted(file), "the name of an .sql file in the same folder", "write it without a path");
            return;
        }
        sheet.file = "reports/" + report_.name + "/" + file;
        if (auto sql = text_of(files_, folder_, report_.name, file)) {
            sheet.sql = *std::move(sql);
        } else {
            error(at, "there is no file " + plan::quoted(sheet.file), "the query of this sheet", "add the file or correct its name");
        }
    }

    void read_column(const TomlValue& from, ReportSheet& sheet) {
        only_keys(from, {"key", "heading", "unit", "format", "width"});
        SheetColumn column;
        column.key = text(from, "key", true);
        column.heading = text(from, "heading", true);
        column.unit = text(from, "unit", false);
        column.format = chosen(from, "format", known_formats, "text");
        if (const TomlValue* width = of_kind(from, "width", Kind::whole, false)) {
            column.width = static_cast<int>(std::clamp(width->whole, narrowest, widest));
            if (width->whole < narrowest || width->whole > widest) {
                error(width->at, "width " + std::to_string(width->whole),
                      "from " + std::to_string(narrowest) + " to " + std::to_string(widest) + " characters", "choose one in that range");
            }
        }
        sheet.column_lines.push_back(from.find("key") != nullptr ? from.find("key")->at.line : from.at.line);
        sheet.layout.columns.push_back(std::move(column));
    }

    void read_chart(const TomlValue& from, ReportSheet& sheet) {
        only_keys(from, {"kind", "title", "x", "y", "x_title", "y_title", "series_by", "also", "each", "centre"});
        SheetChart chart;
        chart.kind = chosen(from, "kind", known_kinds, "line");
        chart.title = text(from, "title", true);
        chart.x = shown_column(from, "x", true, sheet);
        chart.y = shown_column(from, "y", true, sheet);
        chart.x_title = text(from, "x_title", false);
        chart.y_title = text(from, "y_title", false);
        chart.series_by = shown_column(from, "series_by", false, sheet);
        chart.each = shown_column(from, "each", false, sheet);
        chart.centre = shown_column(from, "centre", false, sheet);
        chart.also = texts(from, "also");
        for (const auto& key : chart.also) check_shown(from.find("also")->at, key, sheet);
        sheet.layout.charts.push_back(std::move(chart));
    }

    std::string shown_column(const TomlValue& from, std::string_view key, bool needed, const ReportSheet& sheet) {
        const std::string name = text(from, key, needed);
        if (!name.empty()) check_shown(from.find(key)->at, name, sheet);
        return name;
    }

    void check_shown(plan::Position at, const std::string& key, const ReportSheet& sheet) {
        std::vector<std::string> keys;
        for (const auto& column : sheet.layout.columns) keys.push_back(column.key);
        if (std::find(keys.begin(), keys.end(), key) != keys.end()) return;
        error(at, "column " + plan::quoted(key) + " is not shown on this sheet", "the key of one of its columns",
              plan::remedy_with(nearest(key, keys), "add it to columns"));
    }

    const Files& files_;
    const std::filesystem::path& folder_;
    ReportDefinition& report_;
    std::vector<plan::TomlDocument> documents_;
    plan::Faults faults_;
};

}  // namespace

ReportRead read_report(const Files& files, const std::filesystem::path& folder, const std::string& name) {
    ReportRead out;
    out.report.name = name;
    auto text = is_plain_name(name) ? text_of(files, folder, name, "workbook.toml") : std::nullopt;
    if (!text) {
        const auto known = known_reports(files, folder);
        const std::vector<std::string> names(known.begin(), known.end());
        plan::Fault fault;
        fault.found = "report " + plan::quoted(name);
        fault.wanted = names.empty() ? "a report" : plan::any_of(names);
        fault.remedy = plan::remedy_with(nearest(name, names), "choose one of these, or add reports/NAME/workbook.toml to the site");
        out.faults.push_back(std::move(fault));
        return out;
    }
    out.faults = Reader(files, folder, out.report, *std::move(text)).read();
    return out;
}

std::vector<std::pair<std::string, std::string>> report_titles(const Files& files, const std::filesystem::path& folder) {
    std::vector<std::pair<std::string, std::string>> out;
    for (const auto& name : known_reports(files, folder)) {
        const auto read = read_report(files, folder, name);
        if (!read.faults.empty()) {
            out.emplace_back(name, "cannot be run: " + read.faults.front().found);
        } else {
            out.emplace_back(name, read.report.about.empty() ? read.report.title : read.report.about);
        }
    }
    return out;
}

}  // namespace peelbook::site
