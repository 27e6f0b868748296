// The written file is read by other programs: openpyxl for values and print set-up, LibreOffice and poppler for the printed page.
#include "output/workbook_file.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <tuple>

#include "base/result.h"
#include "base/text.h"
#include "output/run_program.h"
#include "output/sample_workbook.h"

using namespace peelbook;
using namespace peelbook::output;
using namespace peelbook::output::test;
using Value = nlohmann::json;
namespace fs = std::filesystem;

namespace {

struct Folder {  // of one test, empty at first
    fs::path path;
    explicit Folder(const std::string& name) : path(fs::path(PEELBOOK_BINARY_DIR) / "workbook-test" / name) {
        fs::remove_all(path);
        fs::create_directories(path);
    }
    ~Folder() { fs::remove_all(path); }
};

std::string bytes_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

struct ReadBack {
    Value about;
    std::map<std::tuple<std::string, int, int>, std::pair<std::string, Value>> cells;  // sheet, row, column (from 1)

    const Value& sheet(const std::string& name) const {
        for (const auto& sheet : about["sheets"]) {
            if (sheet["name"] == name) return sheet;
        }
        throw std::runtime_error("no sheet " + name);
    }
};

ReadBack read_back(const fs::path& file) {
    const std::string script = std::string(PEELBOOK_SOURCE_DIR) + "/tests/output/read_workbook.py";
    const auto [status, text] = run_program("/usr/bin/python3 '" + script + "' '" + file.string() + "'");
    REQUIRE(status == 0);
    std::istringstream lines(text);
    std::string line;
    std::getline(lines, line);
    ReadBack back{Value::parse(line), {}};
    while (std::getline(lines, line)) {
        const auto cell = Value::parse(line);
        back.cells[{cell[0], cell[1], cell[2]}] = {cell[3], cell[4]};
    }
    return back;
}

// What a cell must read as; `text_as` says which texts cannot be kept as they are.
using Changed = std::map<std::string, std::string>;

void check_cell(const ReadBack& back, const std::string& sheet, int row, int column, const Cell& cell, const Changed& changed) {
    INFO(sheet << " row " << row << " column " << column);
    const auto found = back.cells.find({sheet, row, column});
    const auto* text = std::get_if<std::string>(&cell);
    const bool empty = std::holds_alternative<std::monostate>(cell) || (text != nullptr && text->empty());
    if (empty) {
        CHECK(found == back.cells.end());
        return;
    }
    REQUIRE(found != back.cells.end());
    const auto& [type, value] = found->second;
    const auto other = changed.find(to_text(cell));
    if (text != nullptr || other != changed.end()) {
        CHECK(type == "s");
        CHECK(value.get<std::string>() == (other == changed.end() ? *text : other->second));
    } else {
        CHECK(type == "n");
        const auto* whole = std::get_if<std::int64_t>(&cell);
        CHECK(value.get<double>() == (whole != nullptr ? static_cast<double>(*whole) : std::get<double>(cell)));
    }
}

void check_table(const ReadBack& back, const Sheet& sheet, const std::string& name, int heading_row, const Changed& changed) {
    for (std::size_t c = 0; c < sheet.columns.size(); ++c) {
        const auto& column = sheet.columns[c];
        const int at = static_cast<int>(c) + 1;
        const std::string heading = column.unit.empty() ? column.heading : column.heading + "\n" + column.unit;
        check_cell(back, name, heading_row, at, heading, changed);
        const auto& names = sheet.table.columns;
        const auto from = static_cast<std::size_t>(std::find(names.begin(), names.end(), column.key) - names.begin());
        for (std::size_t r = 0; r < sheet.table.rows.size(); ++r) {
            check_cell(back, name, heading_row + 1 + static_cast<int>(r), at, sheet.table.rows[r].at(from), changed);
        }
    }
}

const Changed changed_texts{
    {std::string("caf\xe9 \xc3"), "caf\xef\xbf\xbd \xef\xbf\xbd"},
    {"_x0041_", "_x005F_x0041_"},  // openpyxl shows the escape that ECMA-376 asks for; LibreOffice (below) the text
    {std::string("bell\a nul\0 end", 14), "bell\xef\xbf\xbd nul\xef\xbf\xbd end"},
    {"\xef\xbf\xbe", "\xef\xbf\xbd"},
    {std::string(32'768, 'y'), std::string(32'727, 'y') + " [cut: 41 characters more]"},
    {"nan", "not a number"},
    {"inf", "not a number"},
    {"9007199254740993", "9007199254740993"},
};

}  // namespace

TEST_CASE("Every value of a workbook reads back the same") {
    const Folder folder("values");
    const auto workbook = sample_workbook();
    write_workbook(workbook, folder.path / "week.xlsx");
    const auto back = read_back(folder.path / "week.xlsx");
    check_table(back, workbook.sheets[1], "Cooling curves", 4, {});
    check_table(back, workbook.sheets[2], "Bake cores", 4, {});
    check_table(back, workbook.sheets[3], "Awkward- values - all-", 4, changed_texts);
    // The summary: title, subtitle, a blank, the facts, a blank, two lines to sign, the caution, the note, the headings.
    check_cell(back, "Summary", 1, 1, workbook.title, {});
    check_cell(back, "Summary", 2, 1, workbook.subtitle, {});
    for (int i = 0; i < 6; ++i) {
        check_cell(back, "Summary", 4 + i, 1, workbook.facts[static_cast<std::size_t>(i)].first, {});
        check_cell(back, "Summary", 4 + i, 2, workbook.facts[static_cast<std::size_t>(i)].second, {});
    }
    check_cell(back, "Summary", 11, 1, "Reviewed by", {});
    check_cell(back, "Summary", 13, 1, "Approved by", {});
    check_cell(back, "Summary", 16, 1, std::string(caution), {});
    check_table(back, workbook.sheets[0], "Summary", 19, {});
    check_cell(back, "Missing and late", 5, 1, "none", {});
    for (const auto& [where, cell] : back.cells) CHECK(cell.first != "f");
}

TEST_CASE("Every sheet is set up for print") {
    const Folder folder("print");
    auto workbook = sample_workbook();
    SECTION("A4") {}
    SECTION("Letter") { workbook.paper = "Letter"; }
    write_workbook(workbook, folder.path / "week.xlsx");
    const auto back = read_back(folder.path / "week.xlsx");
    CHECK(back.about["title"] == "Week 2026-W47");
    CHECK(back.about["created"] == "2026-11-18T11:06:40");  // date -u -d @1795000000 (GNU coreutils)
    REQUIRE(back.about["sheets"].size() == 5);
    for (const auto& sheet : back.about["sheets"]) {
        INFO(sheet["name"]);
        CHECK(sheet["paper"] == (workbook.paper == "A4" ? 9 : 1));  // ECMA-376 part 1, 18.3.1.63
        CHECK(sheet["fit"] == true);
        CHECK((sheet["fit_width"].is_null() || sheet["fit_width"] == 1));  // absent means 1, as ECMA-376 has it
        CHECK(sheet["fit_height"].get<int>() == 0);                        // as many pages down as it takes
        CHECK(sheet["footer"].get<std::string>().find(std::string(caution)) != std::string::npos);
        CHECK(sheet["footer"].get<std::string>().find(workbook.mark) != std::string::npos);
        CHECK(sheet["footer"].get<std::string>().find("page &P of &N") != std::string::npos);
        CHECK(sheet["header"].get<std::string>().find("Week 2026-W47  Brook && Stone Bakehouse") != std::string::npos);
        CHECK(!sheet["frozen"].is_null());
        CHECK(!sheet["filter"].is_null());
        CHECK(!sheet["repeated"].is_null());
    }
    CHECK(back.sheet("Summary")["repeated"] == "$19:$19");
    const auto& curves = back.sheet("Cooling curves");
    CHECK(curves["orientation"] == "landscape");
    CHECK(curves["repeated"] == "$4:$4");
    CHECK(curves["frozen"] == "B5");
    CHECK(curves["filter"] == "A4:G129");
    CHECK(curves["charts"] == 1);
    CHECK(curves["breaks"] == Value::array({130}));
    CHECK(back.sheet("Bake cores")["charts"] == 1);
    CHECK(back.sheet("Bake cores")["breaks"] == Value::array());
}

TEST_CASE("The same workbook gives the same bytes") {
    const Folder folder("bytes");
    write_workbook(sample_workbook(), folder.path / "one.xlsx");
    write_workbook(sample_workbook(), folder.path / "two.xlsx");
    CHECK(bytes_of(folder.path / "one.xlsx") == bytes_of(folder.path / "two.xlsx"));
}

TEST_CASE("LibreOffice prints a page number, the chain and the caution on every page") {
    const Folder folder("printed");
    auto workbook = sample_workbook();
    auto& awkward = workbook.sheets[3].table.rows;
    std::erase_if(awkward, [](const auto& row) { return to_text(row.back()).size() > 1000; });  // pages of one letter
    write_workbook(workbook, folder.path / "week.xlsx");
    const std::string at = "cd '" + folder.path.string() + "' && ";
    REQUIRE(run_program(at + "HOME=\"$PWD\" soffice --headless --convert-to pdf week.xlsx 2>&1").first == 0);
    const auto [status, text] = run_program(at + "pdftotext -layout week.pdf -");
    REQUIRE(status == 0);
    const auto pages = split(text, '\f');
    REQUIRE(pages.size() > 6);  // five sheets, a chart on a page of its own, and what stands after the last form feed
    for (std::size_t i = 0; i + 1 < pages.size(); ++i) {
        INFO("page " << i + 1);
        CHECK(pages[i].find("page " + std::to_string(i + 1) + " of " + std::to_string(pages.size() - 1)) != std::string::npos);
        CHECK(pages[i].find("Follow the local food code") != std::string::npos);
        CHECK(pages[i].find("ba7816bf8f01cfea414140de5dae2223") != std::string::npos);
    }
    CHECK(pages[0].find("Reviewed by") != std::string::npos);
    CHECK(text.find("_x0041_") != std::string::npos);
    CHECK(text.find("_x005F") == std::string::npos);
    CHECK(pages[2].find("Measured") != std::string::npos);  // the heading row again
}

TEST_CASE("Without a judgement of safety there is no caution") {
    const Folder folder("plain");
    auto workbook = sample_workbook();
    workbook.judges_safety = false;
    write_workbook(workbook, folder.path / "plain.xlsx");
    const auto back = read_back(folder.path / "plain.xlsx");
    for (const auto& sheet : back.about["sheets"]) {
        CHECK(sheet["footer"].get<std::string>().find("Follow") == std::string::npos);
    }
    for (const auto& [where, cell] : back.cells) CHECK(cell.second != std::string(caution));
}

TEST_CASE("A workbook without sheets of its own still has its first page") {
    const Folder folder("first-page");
    Workbook workbook;
    workbook.title = "Nothing yet";
    workbook.signatures = {"Reviewed by"};
    write_workbook(workbook, folder.path / "empty.xlsx");
    const auto back = read_back(folder.path / "empty.xlsx");
    CHECK(back.about["sheets"].size() == 1);
    check_cell(back, "Summary", 1, 1, "Nothing yet", {});
}

TEST_CASE("Sheet names that would be equal or forbidden are made to differ") {
    const Folder folder("names");
    auto workbook = sample_workbook();
    workbook.sheets[1].name = "A name that is much longer than a tab takes";
    workbook.sheets[2].name = "a name that is much longer than a tab takes";
    write_workbook(workbook, folder.path / "names.xlsx");
    const auto back = read_back(folder.path / "names.xlsx");
    CHECK(back.about["sheets"][1]["name"] == "A name that is much longer than");
    CHECK(back.about["sheets"][2]["name"] == "a name that is much longer th 2");
    CHECK(back.about["sheets"][2]["charts"] == 1);
}

TEST_CASE("What cannot be written leaves nothing behind") {
    const Folder folder("failing");
    SECTION("no such folder") {
        const auto file = folder.path / "absent" / "week.xlsx";
        CHECK_THROWS_AS(write_workbook(sample_workbook(), file), MachineFailed);
        CHECK_THROWS_WITH(write_workbook(sample_workbook(), file),
                          "cannot write the workbook '" + file.string() +
                              "': No such file or directory; name a folder that exists and may be written to");
    }
    SECTION("a folder stands where the file should be") {
        fs::create_directories(folder.path / "week.xlsx" / "inside");
        CHECK_THROWS_AS(write_workbook(sample_workbook(), folder.path / "week.xlsx"), MachineFailed);
        CHECK(std::distance(fs::directory_iterator(folder.path), fs::directory_iterator{}) == 1);
    }
    SECTION("a row shorter than its table: our own bug, and an older file stays as it was") {
        std::ofstream(folder.path / "week.xlsx") << "older";
        auto workbook = sample_workbook();
        workbook.sheets[1].table.rows[3].pop_back();
        CHECK_THROWS_AS(write_workbook(workbook, folder.path / "week.xlsx"), std::logic_error);
        CHECK(bytes_of(folder.path / "week.xlsx") == "older");
        CHECK(std::distance(fs::directory_iterator(folder.path), fs::directory_iterator{}) == 1);
    }
    SECTION("an older file is replaced whole") {
        std::ofstream(folder.path / "week.xlsx") << "older";
        write_workbook(sample_workbook(), folder.path / "week.xlsx");
        CHECK(bytes_of(folder.path / "week.xlsx").substr(0, 2) == "PK");
        CHECK(std::distance(fs::directory_iterator(folder.path), fs::directory_iterator{}) == 1);
    }
}
