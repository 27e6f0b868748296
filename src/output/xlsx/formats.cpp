#include "output/xlsx/parts.h"

namespace peelbook::xlsx {
namespace {

constexpr lxw_color_t ink = 0x2b2118;    // headings and titles
constexpr lxw_color_t quiet = 0x6b6259;  // notes, units
constexpr lxw_color_t rule = 0xd8d2ca;   // lines between rows
constexpr lxw_color_t band = 0xefe9e1;   // heading row
constexpr lxw_color_t linked = 0x1f4e79;

lxw_format* plain(lxw_workbook* book) {
    lxw_format* f = workbook_add_format(book);
    format_set_align(f, LXW_ALIGN_VERTICAL_TOP);
    return f;
}

lxw_format* in_table(lxw_workbook* book) {
    lxw_format* f = plain(book);
    format_set_bottom(f, LXW_BORDER_HAIR);
    format_set_bottom_color(f, rule);
    return f;
}

lxw_format* text_in_table(lxw_workbook* book) {
    lxw_format* f = in_table(book);
    format_set_text_wrap(f);
    format_set_align(f, LXW_ALIGN_LEFT);
    format_set_indent(f, 1);
    return f;
}

lxw_format* words(lxw_workbook* book, double size, lxw_color_t color) {
    lxw_format* f = plain(book);
    format_set_font_size(f, size);
    format_set_font_color(f, color);
    return f;
}

lxw_format* heading_row(lxw_workbook* book, lxw_format_alignments align) {
    lxw_format* f = plain(book);
    format_set_bold(f);
    format_set_font_color(f, ink);
    format_set_bg_color(f, band);
    format_set_text_wrap(f);
    format_set_align(f, static_cast<std::uint8_t>(align));
    format_set_align(f, LXW_ALIGN_VERTICAL_CENTER);
    format_set_indent(f, 1);
    format_set_bottom(f, LXW_BORDER_THIN);
    format_set_bottom_color(f, ink);
    return f;
}

struct Mark {
    lxw_color_t fill, font;
};
constexpr Mark unproven_mark{0xfdf0d2, ink}, missing_mark{0xe4e4ea, ink}, deviation_mark{0xf4cfc6, 0x7a1709};

lxw_format* marked(lxw_format* f, Mark mark) {
    format_set_bold(f);
    format_set_bg_color(f, mark.fill);
    format_set_font_color(f, mark.font);
    return f;
}

lxw_format* number_in_table(lxw_workbook* book, const char* format) {
    lxw_format* f = in_table(book);
    format_set_num_format(f, format);
    format_set_align(f, LXW_ALIGN_RIGHT);
    format_set_indent(f, 1);
    return f;
}

constexpr const char* counted = "0;-0;\"\xe2\x80\x93\"";  // 0 as a dash, so that what is not 0 stands out

}  // namespace

Formats::Formats(lxw_workbook* book)
    : title(words(book, 18, ink)),
      subtitle(words(book, 12, quiet)),
      section(words(book, 12, ink)),
      note(words(book, 10, quiet)),
      link(words(book, 10, linked)),
      fact_name(in_table(book)),
      heading(heading_row(book, LXW_ALIGN_LEFT)),
      heading_number(heading_row(book, LXW_ALIGN_RIGHT)),
      text(text_in_table(book)),
      general(in_table(book)),
      none(words(book, 11, quiet)),
      sign_name(plain(book)),
      sign_line(plain(book)),
      sign_word(words(book, 8, quiet)),
      caution(words(book, 10, ink)),
      book_(book),
      unproven_(marked(text_in_table(book), unproven_mark)),
      missing_(marked(text_in_table(book), missing_mark)),
      deviation_(marked(text_in_table(book), deviation_mark)),
      count_(number_in_table(book, counted)),
      unproven_count_(marked(number_in_table(book, counted), unproven_mark)),
      missing_count_(marked(number_in_table(book, counted), missing_mark)),
      deviation_count_(marked(number_in_table(book, counted), deviation_mark)) {
    fact_value = text;  // one format twice would be looked up by its every property for each cell
    format_set_bold(title);
    format_set_bold(section);
    format_set_text_wrap(note);
    format_set_underline(link, LXW_UNDERLINE_SINGLE);
    format_set_font_color(fact_name, quiet);
    format_set_italic(none);
    format_set_indent(none, 1);
    format_set_indent(fact_name, 1);
    format_set_indent(caution, 1);
    format_set_bold(sign_name);
    format_set_bottom(sign_line, LXW_BORDER_THIN);
    format_set_text_wrap(caution);
    format_set_bold(caution);
    format_set_border(caution, LXW_BORDER_THIN);
    format_set_border_color(caution, ink);
    format_set_align(caution, LXW_ALIGN_VERTICAL_CENTER);
}

lxw_format* Formats::number(const std::string& format) {
    if (format.find_first_of("0#") == std::string::npos && format != "integer") return general;
    lxw_format*& f = numbers_[format];
    if (f == nullptr) f = number_in_table(book_, format == "integer" ? "0" : format.c_str());
    return f;
}

lxw_format* Formats::verdict(const std::string& word) const {
    if (word == "deviation") return deviation_;
    if (word == "missing") return missing_;
    if (word == "unproven") return unproven_;
    return text;
}

lxw_format* Formats::count(const std::string& key, std::int64_t value) const {
    if (value == 0) return count_;
    if (key == "deviation") return deviation_count_;
    if (key == "missing") return missing_count_;
    return key == "unproven" ? unproven_count_ : count_;
}

}  // namespace peelbook::xlsx
