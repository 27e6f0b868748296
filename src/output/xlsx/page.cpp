#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.h"
#include "base/utf8.h"
#include "output/xlsx/cell_text.h"
#include "output/xlsx/parts.h"

namespace peelbook::xlsx {
namespace {

constexpr double side_inch = 0.5, top_inch = 0.75, bottom_inch = 0.85;
constexpr double pixels_per_inch = 96;
constexpr double a4_short_mm = 210, a4_long_mm = 297;             // ISO 216
constexpr double letter_short_inch = 8.5, letter_long_inch = 11;  // ANSI/ASME Y14.1
constexpr double mm_per_inch = 25.4;
constexpr std::uint8_t paper_letter = 1, paper_a4 = 9;  // ECMA-376 part 1, 18.3.1.63 pageSetup, paperSize

// Advance widths of Carlito, the metric twin of Calibri, in units of 1/2048 em, from its hmtx table: U+0020 to U+007E.
constexpr std::array<int, 95> advances{463,  667,  821,  1020, 1038, 1464, 1397, 452,  621,  621,  1020, 1020, 511,  627,  517,  791,
                                       1038, 1038, 1038, 1038, 1038, 1038, 1038, 1038, 1038, 1038, 548,  548,  1020, 1020, 1020, 949,
                                       1831, 1185, 1114, 1092, 1260, 1000, 941,  1292, 1276, 516,  653,  1064, 861,  1751, 1322, 1356,
                                       1058, 1378, 1112, 941,  998,  1314, 1162, 1822, 1063, 998,  959,  628,  791,  628,  1020, 1020,
                                       596,  981,  1076, 866,  1076, 1019, 625,  964,  1076, 470,  490,  931,  470,  1636, 1076, 1080,
                                       1076, 1076, 714,  801,  686,  1076, 925,  1464, 887,  927,  809,  644,  943,  644,  1020};
constexpr double pixels_per_unit = 11.0 / 72 * pixels_per_inch / 2048;  // at 11 points
constexpr int other_advance = 1080;                                     // of letters beyond ASCII, for each terminal cell
constexpr double blank_pixels = advances[0] * pixels_per_unit;
constexpr double digit_pixels = 1038 * pixels_per_unit;

double text_pixels(const std::string& word) {
    double units = 0;
    for (std::size_t at = 0; at < word.size();) {
        const auto byte = static_cast<unsigned char>(word[at]);
        if (byte >= 0x20 && byte < 0x7f) {
            units += advances[byte - 0x20u];
            ++at;
            continue;
        }
        const auto c = code_point(word, at);
        units += other_advance * static_cast<double>(c.value ? cells_of(*c.value) : 1);
        at += c.length;
    }
    return units * pixels_per_unit;
}

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
    if (text.find('\n') == std::string::npos &&
        (static_cast<double>(text.size()) * digit_pixels * 1.2 <= pixels || text_pixels(text) <= pixels))
        return 1;
    int lines = 0;
    for (const auto& paragraph : split(text, '\n')) {
        double used = 0;
        ++lines;
        for (const auto& word : split(paragraph, ' ')) {
            const double width = text_pixels(word);
            if (used > 0 && used + width > pixels) {
                ++lines;
                used = 0;
            }
            lines += static_cast<int>(width / std::max(pixels, 1.0));  // a word longer than a line is broken
            used = std::fmod(used + width, std::max(pixels, 1.0)) + blank_pixels;
        }
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
    const std::string header =
        "&L&9 " + page_text(workbook.title, 90) + "  " + page_text(workbook.subtitle, 60) + "&R&9 " + page_text(name, 62);
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

}  // namespace peelbook::xlsx
