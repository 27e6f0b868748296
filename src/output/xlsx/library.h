#pragma once
// libxlsxwriter, loaded by the first workbook that a process writes. Linked, it and libcrypto behind it would cost every command a
// quarter more processor time (DEVELOPERS.md, "What speed is worth"). Its header is compiled in, and the same version is found by its
// soname (src/CMakeLists.txt). Here alone stands what is called: each name below is an object of this namespace that hides the function
// it stands for, so a call reads as ever, and one that is not listed does not link.
#include <xlsxwriter.h>

namespace peelbook::xlsx {

// Throws MachineFailed when the library, or that function in it, is not there.
void* library_function(const char* name);

template <class Function> class Loaded;
template <class Answer, class... Given> class Loaded<Answer (*)(Given...)> {
  public:
    constexpr explicit Loaded(const char* name) : name_(name) {}
    Answer operator()(Given... given) {
        if (function_ == nullptr) function_ = reinterpret_cast<Answer (*)(Given...)>(library_function(name_));
        return function_(given...);
    }

  private:
    const char* name_;
    Answer (*function_)(Given...) = nullptr;
};

// clang-format off
#define LOADED(name) inline constinit Loaded<decltype(&::name)> name{#name};
LOADED(chart_add_series) LOADED(chart_axis_major_gridlines_set_line) LOADED(chart_axis_major_gridlines_set_visible)
LOADED(chart_axis_set_crossing_min) LOADED(chart_axis_set_label_position) LOADED(chart_axis_set_major_unit) LOADED(chart_axis_set_max)
LOADED(chart_axis_set_min) LOADED(chart_axis_set_name) LOADED(chart_axis_set_name_font) LOADED(chart_axis_set_num_font)
LOADED(chart_axis_set_num_format) LOADED(chart_chartarea_set_line) LOADED(chart_legend_delete_series) LOADED(chart_legend_set_font)
LOADED(chart_legend_set_position) LOADED(chart_series_set_categories) LOADED(chart_series_set_fill) LOADED(chart_series_set_line)
LOADED(chart_series_set_marker_fill) LOADED(chart_series_set_marker_line) LOADED(chart_series_set_marker_size)
LOADED(chart_series_set_marker_type) LOADED(chart_series_set_name) LOADED(chart_series_set_values) LOADED(chart_show_blanks_as)
LOADED(chart_title_set_name) LOADED(chart_title_set_name_font)
LOADED(format_set_align) LOADED(format_set_bg_color) LOADED(format_set_bold) LOADED(format_set_border) LOADED(format_set_border_color)
LOADED(format_set_bottom) LOADED(format_set_bottom_color) LOADED(format_set_font_color) LOADED(format_set_font_size)
LOADED(format_set_indent) LOADED(format_set_italic) LOADED(format_set_num_format) LOADED(format_set_text_wrap)
LOADED(format_set_underline)
LOADED(lxw_strerror) LOADED(lxw_workbook_free)
LOADED(workbook_add_chart) LOADED(workbook_add_format) LOADED(workbook_add_worksheet) LOADED(workbook_close) LOADED(workbook_new_opt)
LOADED(workbook_set_properties)
LOADED(worksheet_autofilter) LOADED(worksheet_fit_to_pages) LOADED(worksheet_freeze_panes) LOADED(worksheet_gridlines)
LOADED(worksheet_insert_chart_opt) LOADED(worksheet_insert_image_buffer_opt) LOADED(worksheet_merge_range) LOADED(worksheet_repeat_rows)
LOADED(worksheet_set_column) LOADED(worksheet_set_footer) LOADED(worksheet_set_h_pagebreaks) LOADED(worksheet_set_header)
LOADED(worksheet_set_landscape) LOADED(worksheet_set_margins) LOADED(worksheet_set_paper) LOADED(worksheet_set_row)
LOADED(worksheet_write_blank) LOADED(worksheet_write_number) LOADED(worksheet_write_string) LOADED(worksheet_write_url_opt)
#undef LOADED
// clang-format on

}  // namespace peelbook::xlsx
