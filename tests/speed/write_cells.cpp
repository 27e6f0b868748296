// Writes the cells of a workbook that dump_cells.py listed, with libxlsxwriter and nothing behind it: no query, no page set-up, no
// charts, of the look of a cell only the format of its number. Reads them all first; only the writing is timed, until the file is
// on the disk, as a report is. Prints "milliseconds ELAPSED PROCESSOR".
//   write_cells CELLS FILE.xlsx
#include <fcntl.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iostream>
#include <map>
#include <string>
#include <variant>
#include <vector>

namespace {

struct Cell {
    lxw_row_t row;
    lxw_col_t col;
    std::string format;
    std::variant<std::monostate, double, std::string> value;
};
struct Sheet {
    std::string name;
    std::vector<Cell> cells;
};

std::string unescaped(const std::string& text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool mark = text[i] == '\\' && i + 1 < text.size();
        if (mark) ++i;
        out += mark && text[i] == 'n' ? '\n' : mark && text[i] == 't' ? '\t' : text[i];
    }
    return out;
}

std::vector<Sheet> read(const char* file) {
    std::ifstream in(file);
    std::vector<Sheet> sheets;
    std::string kind, row, col, format, value;
    while (std::getline(in, kind, '\t')) {
        if (kind == "sheet") {
            std::getline(in, value);
            sheets.push_back({value, {}});
            continue;
        }
        std::getline(in, row, '\t');
        std::getline(in, col, '\t');
        std::getline(in, format, '\t');
        std::getline(in, value);
        Cell cell{static_cast<lxw_row_t>(std::stoul(row)), static_cast<lxw_col_t>(std::stoul(col)), format, {}};
        if (kind == "number") cell.value = std::stod(value);
        if (kind == "text") cell.value = unescaped(value);
        sheets.back().cells.push_back(std::move(cell));
    }
    return sheets;
}

class Formats {
  public:
    explicit Formats(lxw_workbook* book) : book_(book) {}
    lxw_format* of(const std::string& number) {
        lxw_format*& format = made_[number];
        if (format == nullptr) {
            format = workbook_add_format(book_);
            format_set_num_format(format, number.c_str());
        }
        return format;
    }

  private:
    lxw_workbook* book_;
    std::map<std::string, lxw_format*> made_;
};

void write(lxw_worksheet* sheet, const Cell& cell, lxw_format* format) {
    if (const auto* number = std::get_if<double>(&cell.value))
        worksheet_write_number(sheet, cell.row, cell.col, *number, format);
    else if (const auto* text = std::get_if<std::string>(&cell.value))
        worksheet_write_string(sheet, cell.row, cell.col, text->c_str(), format);
    else
        worksheet_write_blank(sheet, cell.row, cell.col, format);
}

bool on_disk(const char* file) {
    const int opened = ::open(file, O_RDONLY | O_CLOEXEC);
    const bool done = opened >= 0 && ::fsync(opened) == 0;
    if (opened >= 0) ::close(opened);
    return done;
}

bool write(const std::vector<Sheet>& sheets, const char* file) {
    lxw_workbook_options options{};
    options.constant_memory = LXW_TRUE;  // its faster mode, and the one that peelbook uses
    lxw_workbook* book = workbook_new_opt(file, &options);
    Formats formats(book);
    for (const Sheet& from : sheets) {
        lxw_worksheet* sheet = workbook_add_worksheet(book, from.name.c_str());
        for (const Cell& cell : from.cells) write(sheet, cell, formats.of(cell.format));
    }
    return workbook_close(book) == LXW_NO_ERROR && on_disk(file);
}

}  // namespace

int main(int count, char** words) {
    const auto sheets = count == 3 ? read(words[1]) : std::vector<Sheet>{};
    if (sheets.empty()) {
        std::cerr << "write_cells CELLS FILE.xlsx, where CELLS is what dump_cells.py wrote\n";
        return 2;
    }
    const auto begin = std::chrono::steady_clock::now();
    const std::clock_t processor = std::clock();
    if (!write(sheets, words[2])) {
        std::cerr << "write_cells: " << words[2] << " cannot be written\n";
        return 4;
    }
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - begin;
    std::printf("milliseconds %.3f %.3f\n", took.count(), static_cast<double>(std::clock() - processor) * 1e3 / CLOCKS_PER_SEC);
    return 0;
}
