#pragma once
// The parts of a workbook file that share libxlsxwriter: formats, page geometry, and one function a kind of sheet. Used by
// workbook_file.cpp only. Every sheet is written in the library's constant-memory mode, so rows go strictly downward.
#include <map>
#include <string>
#include <vector>

#include "base/workbook.h"
#include "output/xlsx/library.h"

namespace peelbook::xlsx {

using Row = lxw_row_t;
using Col = lxw_col_t;

// One colour family for ink, greys for rules; the fills are light enough to print and to write on.
struct Formats {
    explicit Formats(lxw_workbook* book);

    lxw_format *title, *subtitle, *section, *note, *link, *fact_name, *fact_value, *heading, *heading_number, *text, *general, *none,
        *sign_name, *sign_line, *sign_word, *caution;
    lxw_format* number(const std::string& format);       // "integer", "0.00", ...; anything else: as typed
    lxw_format* verdict(const std::string& word) const;  // within, unproven, missing, deviation; else plain
    // For how often something was so: 0 is a dash; more is marked when `key` is the word of a bad verdict.
    lxw_format* count(const std::string& key, std::int64_t value) const;

  private:
    lxw_workbook* book_;
    std::map<std::string, lxw_format*> numbers_;
    lxw_format *unproven_, *missing_, *deviation_;
    lxw_format *count_, *unproven_count_, *missing_count_, *deviation_count_;
};

// What fits on a printed page, in pixels of 1/96 inch, between the margins this program sets.
struct Page {
    double width = 0, height = 0;
};
Page page_of(const std::string& paper, bool landscape);

// Pixels of a column of so many characters (Calibri 11, as the format counts).
int column_pixels(int characters);
inline constexpr int row_pixels = 20;

// Lines a text needs in a space of so many pixels, at least 1. Row heights are written, because not every reader fits rows by itself.
int lines_needed(const std::string& text, double pixels);

// Paper, orientation, margins, one page wide, header (title, sheet) and footer (caution, mark, page n of m).
void set_up_page(lxw_worksheet* sheet, const Workbook& workbook, const std::string& name, bool landscape);

// Merges when there is more than one cell; constant-memory mode wants all cells of a merge in the row being written.
void write_across(lxw_worksheet* sheet, Row row, Col first, Col last, const std::string& text, lxw_format* format);

// The heading row and the rows below it, filtered; the row after the last. An empty table says "none".
Row write_table(lxw_worksheet* sheet, Row top, const Sheet& from, Formats& formats);

struct Listed {  // for the list of sheets on the first page
    std::string name, note;
    std::size_t rows = 0;
};
// `own`: the report's own summary table, or null.
void write_summary(lxw_worksheet* sheet, const Workbook& workbook, const Sheet* own, const std::vector<Listed>& sheets, Formats& formats);
void write_table_sheet(lxw_workbook* book, lxw_worksheet* sheet, const std::string& name, const Workbook& workbook, const Sheet& from,
                       Formats& formats);

// A title, a note, and the sheet's picture, made smaller to fit a page as far as it stays readable, then over several.
void write_picture_sheet(lxw_worksheet* sheet, const std::string& name, const Workbook& workbook, const Sheet& from, Formats& formats);

// The chart over the rows [first, first + table rows) of the sheet, or one for each value of its column `each`; none when there is
// nothing to draw.
std::vector<lxw_chart*> make_charts(lxw_workbook* book, const std::string& sheet_name, const Sheet& from, const SheetChart& chart,
                                    Row first);

}  // namespace peelbook::xlsx
