#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/text.h"
#include "output/xlsx/cell_text.h"
#include "output/xlsx/parts.h"

namespace peelbook::xlsx {
namespace {

constexpr std::int64_t largest_whole = std::int64_t{1} << 53;  // whole numbers up to here are exact in a double

// Which column of the table a sheet's column shows; a key the table lacks is our own bug or was refused before.
std::vector<std::size_t> places(const Sheet& from) {
    std::vector<std::size_t> out;
    for (const auto& column : from.columns) {
        const auto& names = from.table.columns;
        const auto found = std::find(names.begin(), names.end(), column.key);
        if (found == names.end()) {
            throw std::logic_error("sheet '" + from.name + "' shows column '" + column.key + "', which its table does not have");
        }
        out.push_back(static_cast<std::size_t>(found - names.begin()));
    }
    return out;
}

bool is_number(const SheetColumn& column) { return column.format != "text" && column.format != "verdict"; }

std::string heading_text(const SheetColumn& column) {
    return cell_text(column.unit.empty() ? column.heading : column.heading + "\n" + column.unit);
}

constexpr double line_points = 15;
constexpr double cell_padding = 14;  // pixels: the indent and the margins of a cell
constexpr int most_lines = 27;       // a row is at most 409 points high; "Excel specifications and limits", Microsoft

int lines_of_row(const std::vector<Cell>& cells, const std::vector<std::size_t>& place, const std::vector<SheetColumn>& columns) {
    int lines = 1;
    for (std::size_t i = 0; i < place.size(); ++i) {
        const auto* text = std::get_if<std::string>(&cells[place[i]]);
        if (text == nullptr) continue;
        lines = std::max(lines, lines_needed(*text, column_pixels(columns[i].width) - cell_padding));
    }
    return std::min(lines, most_lines);
}

void write_headings(lxw_worksheet* sheet, Row row, const Sheet& from, Formats& formats) {
    constexpr double bold = 1.06;  // how much wider than plain text
    int lines = 1;
    for (const auto& column : from.columns) {
        const int own = lines_needed(column.heading, (column_pixels(column.width) - cell_padding) / bold) + (column.unit.empty() ? 0 : 1);
        lines = std::max(lines, own);
    }
    worksheet_set_row(sheet, row, lines * line_points + 6, nullptr);
    for (std::size_t i = 0; i < from.columns.size(); ++i) {
        const auto& column = from.columns[i];
        worksheet_write_string(sheet, row, static_cast<Col>(i), heading_text(column).c_str(),
                               is_number(column) ? formats.heading_number : formats.heading);
    }
}

// `number` is the column's format for numbers, found once.
void write_cell(lxw_worksheet* sheet, Row row, Col col, const Cell& cell, const SheetColumn& column, lxw_format* number,
                const Formats& formats) {
    if (const auto* whole = std::get_if<std::int64_t>(&cell)) {
        if (column.format == "count") number = formats.count(column.key, *whole);
        if (*whole >= -largest_whole && *whole <= largest_whole) {
            worksheet_write_number(sheet, row, col, static_cast<double>(*whole), number);
        } else {
            worksheet_write_string(sheet, row, col, std::to_string(*whole).c_str(), formats.text);
        }
    } else if (const auto* real = std::get_if<double>(&cell)) {
        if (std::isfinite(*real)) {
            worksheet_write_number(sheet, row, col, *real, number);
        } else {
            worksheet_write_string(sheet, row, col, "not a number", formats.text);
        }
    } else if (const auto* text = std::get_if<std::string>(&cell); text != nullptr && !text->empty()) {
        lxw_format* format = column.format == "verdict" ? formats.verdict(*text) : formats.text;
        worksheet_write_string(sheet, row, col, cell_text(*text).c_str(), format);
    } else {
        worksheet_write_blank(sheet, row, col, formats.text);
    }
}

double table_pixels(const Sheet& from) {
    double pixels = 0;
    for (const auto& column : from.columns) pixels += column_pixels(column.width);
    return pixels;
}

// Charts stand beside a table that leaves room on the page, else below it, each on a printed page of its own.
struct ChartPlaces {
    bool beside = false;
    int width = 0, height = 0;  // pixels
};

ChartPlaces places_of_charts(const Sheet& from, const Page& page) {
    constexpr double gap = 24, least_beside = 560;
    const double table = table_pixels(from);
    if (table + gap + least_beside <= page.width) {
        const double width = page.width - table - gap;
        return {true, static_cast<int>(width), static_cast<int>(std::min(width * 0.62, page.height * 0.9))};
    }
    const double width = std::max(table, page.width) * 0.99;
    const double scale = page.width / std::max(table, page.width);
    const double below_heading = page.height / scale - 4 * row_pixels;  // the heading row is repeated, a section line stands above
    return {false, static_cast<int>(width), static_cast<int>(std::min(below_heading, width * 0.62))};
}

void insert(lxw_worksheet* sheet, Row row, Col col, lxw_chart* chart, const ChartPlaces& at) {
    constexpr double default_width = 480, default_height = 288;  // of the library
    lxw_chart_options options{};
    options.x_scale = at.width / default_width;
    options.y_scale = at.height / default_height;
    options.y_offset = 6;  // clear of a page break
    options.object_position = LXW_OBJECT_MOVE_DONT_SIZE;
    worksheet_insert_chart_opt(sheet, row, col, chart, &options);
}

}  // namespace

Row write_table(lxw_worksheet* sheet, Row top, const Sheet& from, Formats& formats) {
    const auto place = places(from);
    const auto last_col = static_cast<Col>(from.columns.size() - 1);
    write_headings(sheet, top, from, formats);
    std::vector<lxw_format*> numbers;
    for (const auto& column : from.columns) numbers.push_back(formats.number(column.format));
    Row row = top + 1;
    for (const auto& cells : from.table.rows) {
        if (cells.size() != from.table.columns.size()) {
            throw std::logic_error("sheet '" + from.name + "' has a row that is not as long as its columns");
        }
        const int lines = lines_of_row(cells, place, from.columns);
        if (lines > 1) worksheet_set_row(sheet, row, lines * line_points, nullptr);
        for (std::size_t i = 0; i < place.size(); ++i) {
            write_cell(sheet, row, static_cast<Col>(i), cells[place[i]], from.columns[i], numbers[i], formats);
        }
        ++row;
    }
    if (from.table.rows.empty()) worksheet_write_string(sheet, row++, 0, "none", formats.none);
    worksheet_autofilter(sheet, top, 0, row - 1, last_col);
    return row;
}

void write_table_sheet(lxw_workbook* book, lxw_worksheet* sheet, const std::string& name, const Workbook& workbook, const Sheet& from,
                       Formats& formats) {
    constexpr Row heading_row = 3;
    const Page page = page_of(workbook.paper, from.landscape);
    const auto last_col = static_cast<Col>(from.columns.size() - 1);
    set_up_page(sheet, workbook, name, from.landscape);
    for (std::size_t i = 0; i < from.columns.size(); ++i) {
        const auto col = static_cast<Col>(i);
        worksheet_set_column(sheet, col, col, from.columns[i].width, nullptr);
    }
    std::vector<lxw_chart*> charts;
    for (const auto& chart : from.charts) {
        const auto made = make_charts(book, name, from, chart, heading_row + 1);
        charts.insert(charts.end(), made.begin(), made.end());
    }
    const auto rows = std::max<std::size_t>(1, from.table.rows.size());
    const auto below = static_cast<Row>(heading_row + rows + 2);
    const auto where = places_of_charts(from, page);

    worksheet_set_row(sheet, 0, 26, nullptr);
    worksheet_write_string(sheet, 0, 0, cell_text(from.name).c_str(), formats.title);
    if (!from.note.empty()) {
        worksheet_set_row(sheet, 1, lines_needed(from.note, std::max(300.0, table_pixels(from))) * 14.0 + 3, nullptr);
        write_across(sheet, 1, 0, last_col, cell_text(from.note), formats.note);
    }
    if (!charts.empty() && !where.beside) {
        const std::string target = "internal:'" + name + "'!A" + std::to_string(below + 1);
        worksheet_write_url_opt(sheet, 2, 0, target.c_str(), formats.link, charts.size() > 1 ? "To the charts" : "To the chart", nullptr);
    }
    write_table(sheet, heading_row, from, formats);
    worksheet_freeze_panes(sheet, heading_row + 1, 1);
    worksheet_repeat_rows(sheet, heading_row, heading_row);

    const auto tall = static_cast<Row>(where.height / row_pixels + 2);
    std::vector<Row> breaks;
    for (std::size_t i = 0; i < charts.size(); ++i) {
        const auto step = static_cast<Row>(i) * tall;
        if (where.beside) {
            insert(sheet, heading_row + 1 + step, static_cast<Col>(last_col + 2), charts[i], where);
        } else {
            breaks.push_back(below + step);
            insert(sheet, below + step, 0, charts[i], where);
        }
    }
    if (where.beside && !charts.empty()) worksheet_set_column(sheet, last_col + 1, last_col + 1, 2, nullptr);
    breaks.push_back(0);  // the list ends with 0
    if (breaks.size() > 1) worksheet_set_h_pagebreaks(sheet, breaks.data());
}

}  // namespace peelbook::xlsx
