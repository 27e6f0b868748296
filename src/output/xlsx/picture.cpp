// A sheet that is one picture.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <stdexcept>

#include "output/xlsx/cell_text.h"
#include "output/xlsx/parts.h"

namespace peelbook::xlsx {
namespace {

// Letters of 10 points stay letters of 6, the least that is read on paper without a glass; a larger picture takes more pages.
constexpr double least_scale = 0.6;

struct Size {
    double width = 0, height = 0;
};

// Width and height stand in the first chunk of a PNG (ISO/IEC 15948, 11.2.2), four bytes each from byte 16.
Size size_of(const std::string& png) {
    const auto four = [&](std::size_t at) {
        std::uint32_t n = 0;
        for (std::size_t i = at; i < at + 4; ++i) n = n << 8 | static_cast<unsigned char>(png[i]);
        return static_cast<double>(n);
    };
    if (png.size() < 24 || png.compare(1, 3, "PNG") != 0) throw std::logic_error("a picture that is no PNG");
    return {four(16), four(20)};
}

}  // namespace

void write_picture_sheet(lxw_worksheet* sheet, const std::string& name, const Workbook& workbook, const Sheet& from, Formats& formats) {
    constexpr Row picture_row = 3;
    constexpr Col last_col = 9;
    const Page page = page_of(workbook.paper, from.landscape);
    set_up_page(sheet, workbook, name, from.landscape);
    worksheet_set_row(sheet, 0, 26, nullptr);
    worksheet_write_string(sheet, 0, 0, cell_text(from.name).c_str(), formats.title);
    if (!from.note.empty()) {
        worksheet_set_row(sheet, 1, lines_needed(from.note, page.width * 0.7) * 14.0 + 3, nullptr);
        write_across(sheet, 1, 0, last_col, cell_text(from.note), formats.note);
    }
    const Size size = size_of(from.picture);
    const double room = page.height - 6 * row_pixels;
    const double scale = std::clamp(std::min(page.width / size.width, room / size.height), least_scale, 1.0);
    const auto pages = [](double pixels, double of_page) { return static_cast<std::uint16_t>(std::ceil(pixels / of_page)); };
    worksheet_fit_to_pages(sheet, pages(size.width * scale, page.width), pages(size.height * scale, room));
    lxw_image_options options{};
    options.x_scale = options.y_scale = scale;
    options.object_position = LXW_OBJECT_MOVE_DONT_SIZE;
    const auto* bytes = reinterpret_cast<const unsigned char*>(from.picture.data());
    if (worksheet_insert_image_buffer_opt(sheet, picture_row, 0, bytes, from.picture.size(), &options) != LXW_NO_ERROR)
        throw std::logic_error("a picture that the workbook does not take");
}

}  // namespace peelbook::xlsx
