#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "base/text.h"
#include "output/xlsx/cell_text.h"
#include "output/xlsx/parts.h"

namespace peelbook::xlsx {
namespace {

// Told apart in print without colour: every series has its own mark, and the dash changes after each round of colours.
constexpr std::array<lxw_color_t, 8> colors{0x1f5a7a, 0xb4622a, 0x4f7a3a, 0x7d4b8f, 0x9a7b1e, 0x2f8f86, 0x8a3b4c, 0x5a5a5a};
constexpr std::array<std::uint8_t, 7> marks{LXW_CHART_MARKER_CIRCLE,  LXW_CHART_MARKER_SQUARE, LXW_CHART_MARKER_TRIANGLE,
                                            LXW_CHART_MARKER_DIAMOND, LXW_CHART_MARKER_X,      LXW_CHART_MARKER_PLUS,
                                            LXW_CHART_MARKER_STAR};
constexpr std::array<std::uint8_t, 3> dashes{LXW_CHART_LINE_DASH_SOLID, LXW_CHART_LINE_DASH_DASH, LXW_CHART_LINE_DASH_LONG_DASH_DOT};
constexpr lxw_color_t limit_color = 0xa31515, centre_color = 0x404040, grid_color = 0xdcd7d0;

struct Run {  // rows [first, last] of the table
    std::size_t first = 0, last = 0;
    std::string name;
};

struct Rows {  // those a chart shows, of the table
    std::size_t first = 0, last = 0;
};

std::optional<double> number_in(const Cell& cell) {
    if (const auto* whole = std::get_if<std::int64_t>(&cell)) return static_cast<double>(*whole);
    if (const auto* real = std::get_if<double>(&cell); real != nullptr && std::isfinite(*real)) return *real;
    return {};
}

class ChartMaker {
  public:
    ChartMaker(lxw_workbook* book, const std::string& sheet_name, const Sheet& from, const SheetChart& chart, Row first, Rows rows)
        : book_(book), sheet_name_(sheet_name), from_(from), asked_(chart), first_(first), rows_(rows) {}

    lxw_chart* make() {
        const auto y = column(asked_.y);
        if (!y || !column(asked_.x)) return nullptr;
        const auto series = runs(asked_.y, true);
        if (series.empty()) return nullptr;
        chart_ = workbook_add_chart(book_, type());
        for (std::size_t i = 0; i < series.size(); ++i) {
            const std::string name = series[i].name.empty() ? heading(asked_.y) : series[i].name;
            add(series[i], asked_.y, name);
            style(i, series.size());
        }
        if (!asked_.centre.empty()) add_limit(asked_.centre, true);
        for (const auto& key : asked_.also) add_limit(key, false);
        if (!hidden_.empty()) {
            hidden_.push_back(-1);
            chart_legend_delete_series(chart_, hidden_.data());
        }
        dress(series.size());
        return chart_;
    }

  private:
    std::uint8_t type() const {
        if (asked_.kind == "column") return LXW_CHART_COLUMN;
        return asked_.kind == "line" ? LXW_CHART_LINE : LXW_CHART_SCATTER_STRAIGHT_WITH_MARKERS;
    }

    std::optional<std::size_t> column(const std::string& key) const {
        for (std::size_t i = 0; i < from_.columns.size(); ++i) {
            if (from_.columns[i].key == key) return i;
        }
        return {};
    }

    const std::string& heading(const std::string& key) const { return from_.columns[*column(key)].heading; }

    const Cell& cell(std::size_t row, const std::string& key) const {
        const auto& names = from_.table.columns;
        const auto at = std::find(names.begin(), names.end(), key);
        return from_.table.rows[row].at(static_cast<std::size_t>(at - names.begin()));
    }

    // Neighbouring rows that belong together. With `gaps` a row without a number stays inside its run (a gap in the line), and
    // runs without any number are left out; else such a row ends the run.
    std::vector<Run> runs(const std::string& key, bool gaps) const {
        std::vector<Run> out;
        bool open = false, any = false;
        const auto close = [&] {
            if (open && !any) out.pop_back();
            open = any = false;
        };
        for (std::size_t row = rows_.first; row <= rows_.last; ++row) {
            const bool has = number_in(cell(row, key)).has_value();
            const std::string name = asked_.series_by.empty() ? "" : to_text(cell(row, asked_.series_by));
            if (open && (name != out.back().name || (!gaps && !has))) close();
            if (!open && (gaps || has)) {
                out.push_back({row, row, name});
                open = true;
            }
            if (open) out.back().last = row;
            any = any || (open && has);
        }
        close();
        return out;
    }

    void add(const Run& run, const std::string& y, const std::string& name) {
        series_ = chart_add_series(chart_, nullptr, nullptr);
        const auto x_col = static_cast<Col>(*column(asked_.x));
        const auto y_col = static_cast<Col>(*column(y));
        const Row top = first_ + static_cast<Row>(run.first), end = first_ + static_cast<Row>(run.last);
        chart_series_set_categories(series_, sheet_name_.c_str(), top, x_col, end, x_col);
        chart_series_set_values(series_, sheet_name_.c_str(), top, y_col, end, y_col);
        chart_series_set_name(series_, cell_text(name).c_str());
        for (std::size_t row = run.first; row <= run.last; ++row) {
            if (const auto value = number_in(cell(row, y))) {
                least_ = std::min(least_, *value);
                most_ = std::max(most_, *value);
            }
        }
        ++count_;
    }

    void style(std::size_t index, std::size_t of) {
        const lxw_color_t color = colors[index % colors.size()];
        lxw_chart_fill fill{};
        fill.color = color;
        lxw_chart_line line{};
        line.color = color;
        line.width = 1.5F;
        line.dash_type = dashes[(index / colors.size()) % dashes.size()];
        if (asked_.kind == "column") {
            chart_series_set_fill(series_, &fill);
            return;
        }
        lxw_chart_line dots = line;
        dots.width = 0.75F;
        if (asked_.kind == "line" && of == 1) line.width = 0.5F;  // the marks speak, the line leads the eye
        chart_series_set_line(series_, &line);
        chart_series_set_marker_type(series_, marks[index % marks.size()]);
        chart_series_set_marker_size(series_, 5);
        chart_series_set_marker_fill(series_, &fill);
        dots.dash_type = LXW_CHART_LINE_DASH_SOLID;
        chart_series_set_marker_line(series_, &dots);
    }

    void add_limit(const std::string& key, bool centre) {
        if (!column(key)) return;
        bool named = false;
        for (const auto& run : limit_runs(key)) {
            add(run, key, heading(key));
            lxw_chart_line line{};
            line.color = centre ? centre_color : limit_color;
            line.width = centre ? 1.0F : 2.0F;
            line.dash_type = centre ? LXW_CHART_LINE_DASH_SOLID : LXW_CHART_LINE_DASH_DASH;
            chart_series_set_line(series_, &line);
            chart_series_set_marker_type(series_, LXW_CHART_MARKER_NONE);
            if (named) hidden_.push_back(static_cast<std::int16_t>(count_ - 1));
            named = true;
        }
    }

    // On a category axis every line begins at the first category, so a limit there is one line over all rows, with gaps.
    std::vector<Run> limit_runs(const std::string& key) const {
        if (asked_.kind == "scatter") return runs(key, false);
        auto whole = runs(key, true);
        if (whole.empty()) return whole;
        return {{rows_.first, rows_.last, ""}};
    }

    void dress(std::size_t series) {
        lxw_chart_font title{}, axis{}, numbers{}, small{};
        title.size = 13;
        title.bold = LXW_TRUE;
        axis.size = 10;
        numbers.size = 9;
        small.size = series > 12 ? 8 : 9;
        chart_title_set_name(chart_, cell_text(asked_.title).c_str());
        chart_title_set_name_font(chart_, &title);
        lxw_chart_line grid{};
        grid.color = grid_color;
        grid.width = 0.5F;
        chart_axis_set_name(chart_->x_axis, cell_text(asked_.x_title).c_str());
        chart_axis_set_name(chart_->y_axis, cell_text(asked_.y_title).c_str());
        for (lxw_chart_axis* one : {chart_->x_axis, chart_->y_axis}) {
            chart_axis_set_name_font(one, &axis);
            chart_axis_set_num_font(one, &numbers);
            chart_axis_set_label_position(one, LXW_CHART_AXIS_LABEL_POSITION_LOW);
        }
        chart_axis_major_gridlines_set_visible(chart_->y_axis, LXW_TRUE);
        chart_axis_major_gridlines_set_line(chart_->y_axis, &grid);
        if (asked_.kind == "scatter") {
            chart_axis_major_gridlines_set_visible(chart_->x_axis, LXW_TRUE);
            chart_axis_major_gridlines_set_line(chart_->x_axis, &grid);
            chart_axis_set_num_format(chart_->x_axis, "General");
            chart_axis_set_crossing_min(chart_->x_axis);  // the y axis stands at the left even when x begins below 0
        }
        if (asked_.kind != "column") bound_y_axis();
        const bool many = series > 6;
        chart_legend_set_position(chart_, many ? LXW_CHART_LEGEND_RIGHT : LXW_CHART_LEGEND_BOTTOM);
        chart_legend_set_font(chart_, &small);
        chart_show_blanks_as(chart_, LXW_CHART_BLANKS_AS_GAP);
        lxw_chart_line border{};
        border.color = grid_color;
        chart_chartarea_set_line(chart_, &border);
    }

    // From a round number below the least value to one above the largest: programs differ in what they choose themselves.
    void bound_y_axis() {
        if (!(least_ < most_)) return;
        const double span = most_ - least_;
        const double power = std::pow(10, std::floor(std::log10(span / 4)));
        double step = power;
        for (const double factor : {1.0, 2.0, 5.0, 10.0}) {
            step = factor * power;
            if (span / step <= 8) break;
        }
        chart_axis_set_min(chart_->y_axis, std::floor((least_ - span * 0.02) / step) * step);
        chart_axis_set_max(chart_->y_axis, std::ceil((most_ + span * 0.02) / step) * step);
        chart_axis_set_major_unit(chart_->y_axis, step);
        chart_axis_set_num_format(chart_->y_axis, step < 1 ? "0.0" : "0");
    }

    lxw_workbook* book_;
    const std::string& sheet_name_;
    const Sheet& from_;
    const SheetChart& asked_;
    Row first_;
    Rows rows_;
    lxw_chart* chart_ = nullptr;
    lxw_chart_series* series_ = nullptr;
    std::size_t count_ = 0;
    std::vector<std::int16_t> hidden_;  // limit lines after the first of a column: one entry in the legend is enough
    double least_ = std::numeric_limits<double>::infinity(), most_ = -std::numeric_limits<double>::infinity();
};

// A title with {each} and the {KEY} of any column as that row has them.
std::string with_values(std::string text, const Table& table, std::size_t row, const std::string& each) {
    const auto put = [&](const std::string& key, const std::string& value) {
        const std::string mark = "{" + key + "}";
        if (const auto at = text.find(mark); at != std::string::npos) text.replace(at, mark.size(), value);
    };
    put("each", each);
    for (std::size_t i = 0; i < table.columns.size(); ++i) put(table.columns[i], to_text(table.rows[row][i]));
    return text;
}

}  // namespace

std::vector<lxw_chart*> make_charts(lxw_workbook* book, const std::string& sheet_name, const Sheet& from, const SheetChart& chart,
                                    Row first) {
    std::vector<lxw_chart*> made;
    const auto& names = from.table.columns;
    const auto each = std::find(names.begin(), names.end(), chart.each);
    const std::size_t count = from.table.rows.size();
    for (std::size_t row = 0; row < count;) {
        Rows rows{row, count - 1};
        SheetChart one = chart;
        if (each != names.end()) {
            const auto index = static_cast<std::size_t>(each - names.begin());
            const std::string value = to_text(from.table.rows[row][index]);
            rows.last = row;
            while (rows.last + 1 < count && to_text(from.table.rows[rows.last + 1][index]) == value) ++rows.last;
            one.title = with_values(one.title, from.table, row, value);
            one.y_title = with_values(one.y_title, from.table, row, value);
        }
        if (lxw_chart* chart_made = ChartMaker(book, sheet_name, from, one, first, rows).make()) made.push_back(chart_made);
        row = rows.last + 1;
    }
    return made;
}

}  // namespace peelbook::xlsx
