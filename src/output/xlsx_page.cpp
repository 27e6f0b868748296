#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "output/cell_text.h"
#include "output/utf8.h"
#include "output/xlsx.h"

namespace peelbook::output::xlsx {
namespace {

constexpr double side_inch = 0.5, top_inch = 0.75, bottom_inch = 0.85;
constexpr double pixels_per_inch = 96;
constexpr double a4_short_mm = 210, a4_long_mm = 297;        // ISO 216
constexpr double letter_short_inch = 8.5, letter_long_inch = 11;  // ANSI/ASME Y14.1
constexpr double mm_per_inch = 25.4;
constexpr std::uint8_t paper_letter = 1, paper_a4 = 9;       // ECMA-376 part 1, 18.3.1.63 pageSetup, paperSize

bool is_letter(const std::string& paper) { return lowered(paper) == "letter"; }

}  // namespace

Page page_of(const std::string& paper, bool landscape) {
    double across = is_letter(paper) ? letter_short_inch : a4_short_mm / mm_per_inch;
    double down = is_letter(paper) ? letter_long_inch : a4_long_mm / mm_per_inch;
    if (landscape) std::swap(across, down);
    return {(across - 2 * side_inch) * pixels_per_inch, (down - top_inch - bottom_inch) * pixels_per_inch};
}

int column_pixels(int characters) { return characters * 7 + 5; }

int lines_needed(const std::string& text, double pixels) {
    // A character of running text in Calibri 11 takes about 6.2 pixels; a tenth more for words kept whole and other fonts.
    const double characters = std::max(1.0, pixels / (6.2 * 1.1));
    int lines = 0;
    for (const auto& paragraph : split(text, '\n')) {
        double cells = 0;
        for (std::size_t at = 0; at < paragraph.size();) {
            const auto c = code_point(paragraph, at);
            cells += c.value ? static_cast<double>(cells_of(*c.value)) : 1;
            at += c.length;
        }
        lines += std::max(1, static_cast<int>(std::ceil(cells / characters)));
    }
    return lines;
}

void set_up_page(lxw_worksheet* sheet, const Workbook& workbook, const std::string& name, bool landscape) {
    worksheet_set_paper(sheet, is_letter(workbook.paper) ? paper_letter : paper_a4);
    if (landscape) worksheet_set_landscape(sheet);
    worksheet_set_margins(sheet, side_inch, side_inch, top_inch, bottom_inch);
    worksheet_fit_to_pages(sheet, 1, 0);
    worksheet_gridlines(sheet, LXW_HIDE_ALL_GRIDLINES);
    // A header and a footer hold 255 bytes each. A blank after a font size keeps a digit of the text from joining it.
    const std::string header = "&L&9 " + page_text(workbook.title, 90) + "  " + page_text(workbook.subtitle, 60) + "&R&9 " +
                               page_text(name, 62);
    std::string foot = "&L&7 ";
    if (workbook.judges_safety) foot += page_text(caution, 130);
    if (!workbook.mark.empty()) foot += (workbook.judges_safety ? "\n" : "") + page_text(workbook.mark, 90);
    foot += "&R&8 page &P of &N";
    worksheet_set_header(sheet, header.c_str());
    worksheet_set_footer(sheet, foot.c_str());
}

void write_across(lxw_worksheet* sheet, Row row, Col first, Col last, const std::string& text, lxw_format* format) {
    if (first == last) {
        worksheet_write_string(sheet, row, first, text.c_str(), format);
        if (text.empty()) worksheet_write_blank(sheet, row, first, format);
    } else {
        worksheet_merge_range(sheet, row, first, row, last, text.c_str(), format);
    }
}

}  // namespace peelbook::output::xlsx
