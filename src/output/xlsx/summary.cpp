#include <algorithm>

#include "base/text.h"
#include "output/xlsx/cell_text.h"
#include "output/xlsx/parts.h"

namespace peelbook::xlsx {
namespace {

constexpr int least_columns = 6;
constexpr int plain_width = 15;  // characters, of a column without a table column over it
constexpr int first_width = 26;

std::vector<int> widths_of(const Sheet* own) {
    std::vector<int> widths;
    if (own != nullptr) {
        for (const auto& column : own->columns) widths.push_back(column.width);
    }
    while (widths.size() < least_columns) widths.push_back(plain_width);
    widths[0] = std::max(widths[0], first_width);
    return widths;
}

double pixels_of(const std::vector<int>& widths, std::size_t first, std::size_t last) {
    double pixels = 0;
    for (std::size_t i = first; i <= last; ++i) pixels += column_pixels(widths[i]);
    return pixels;
}

// Column ranges for name, date and signature: two fifths, a fifth, two fifths of the columns after the first.
struct Spans {
    Col name_last, date_last, last;
};

Spans spans_of(std::size_t columns) {
    const std::size_t rest = columns - 1;
    const std::size_t name = std::max<std::size_t>(1, rest * 2 / 5);
    const std::size_t date = std::max<std::size_t>(1, rest / 5);
    return {static_cast<Col>(name), static_cast<Col>(name + date), static_cast<Col>(rest)};
}

class SummaryWriter {
  public:
    SummaryWriter(lxw_worksheet* sheet, const Workbook& workbook, const Sheet* own, Formats& formats)
        : sheet_(sheet),
          workbook_(workbook),
          own_(own),
          formats_(formats),
          widths_(widths_of(own)),
          last_(static_cast<Col>(widths_.size() - 1)) {}

    void write(const std::vector<Listed>& sheets) {
        for (std::size_t i = 0; i < widths_.size(); ++i) {
            worksheet_set_column(sheet_, static_cast<Col>(i), static_cast<Col>(i), widths_[i], nullptr);
        }
        write_title();
        write_facts();
        write_signatures();
        write_caution();
        write_own();
        write_contents(sheets);
    }

  private:
    void write_title() {
        worksheet_set_row(sheet_, 0, 26, nullptr);
        write_across(sheet_, 0, 0, last_, cell_text(workbook_.title), formats_.title);
        write_across(sheet_, 1, 0, last_, cell_text(workbook_.subtitle), formats_.subtitle);
        worksheet_freeze_panes(sheet_, 2, 0);
        worksheet_repeat_rows(sheet_, 0, 1);
        row_ = 3;
    }

    void write_facts() {
        const double room = pixels_of(widths_, 1, last_);
        for (const auto& [name, value] : workbook_.facts) {
            const int lines = std::max(lines_needed(value, room), lines_needed(name, column_pixels(widths_[0])));
            worksheet_set_row(sheet_, row_, lines * 15.0, nullptr);
            worksheet_write_string(sheet_, row_, 0, cell_text(name).c_str(), formats_.fact_name);
            write_across(sheet_, row_, 1, last_, cell_text(value), formats_.fact_value);
            ++row_;
        }
        ++row_;
    }

    void write_own() {
        if (own_ == nullptr) return;
        if (!own_->note.empty()) {
            worksheet_set_row(sheet_, row_, lines_needed(own_->note, pixels_of(widths_, 0, last_)) * 14.0 + 3, nullptr);
            write_across(sheet_, row_, 0, last_, cell_text(own_->note), formats_.note);
            ++row_;
        }
        worksheet_repeat_rows(sheet_, row_, row_);
        row_ = write_table(sheet_, row_, *own_, formats_) + 1;
    }

    void write_signatures() {
        const Spans spans = spans_of(widths_.size());
        for (const auto& who : workbook_.signatures) {
            worksheet_set_row(sheet_, row_, 26, nullptr);
            lxw_format* name = formats_.sign_name;
            worksheet_write_string(sheet_, row_, 0, cell_text(who).c_str(), name);
            for (Col c = 1; c <= last_; ++c) worksheet_write_blank(sheet_, row_, c, formats_.sign_line);
            ++row_;
            worksheet_write_string(sheet_, row_, 1, "name", formats_.sign_word);
            worksheet_write_string(sheet_, row_, static_cast<Col>(spans.name_last + 1), "date", formats_.sign_word);
            worksheet_write_string(sheet_, row_, static_cast<Col>(spans.date_last + 1), "signature", formats_.sign_word);
            ++row_;
        }
        ++row_;
    }

    void write_caution() {
        if (!workbook_.judges_safety) return;
        const std::string text(caution);
        worksheet_set_row(sheet_, row_, lines_needed(text, pixels_of(widths_, 0, last_)) * 15.0 + 9, nullptr);
        write_across(sheet_, row_, 0, last_, text, formats_.caution);
        row_ += 2;
    }

    void write_contents(const std::vector<Listed>& sheets) {
        if (sheets.empty()) return;
        worksheet_write_string(sheet_, row_++, 0, "In this workbook", formats_.section);
        for (const auto& listed : sheets) {
            const std::string target = "internal:'" + listed.name + "'!A1";
            worksheet_set_row(sheet_, row_, lines_needed(listed.note, pixels_of(widths_, 1, last_ - 1u)) * 14.0 + 2, nullptr);
            worksheet_write_url_opt(sheet_, row_, 0, target.c_str(), formats_.link, listed.name.c_str(), nullptr);
            write_across(sheet_, row_, 1, static_cast<Col>(last_ - 1), cell_text(listed.note), formats_.note);
            const std::string rows = std::to_string(listed.rows) + (listed.rows == 1 ? " row" : " rows");
            worksheet_write_string(sheet_, row_, last_, rows.c_str(), formats_.note);
            ++row_;
        }
    }

    lxw_worksheet* sheet_;
    const Workbook& workbook_;
    const Sheet* own_;
    Formats& formats_;
    std::vector<int> widths_;
    Col last_;
    Row row_ = 0;
};

}  // namespace

void write_summary(lxw_worksheet* sheet, const Workbook& workbook, const Sheet* own, const std::vector<Listed>& sheets, Formats& formats) {
    set_up_page(sheet, workbook, own == nullptr ? "Summary" : own->name, own != nullptr && own->landscape);
    SummaryWriter(sheet, workbook, own, formats).write(sheets);
}

}  // namespace peelbook::xlsx
