#include "output/workbook_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <ctime>

#include "base/result.h"
#include "base/text.h"
#include "output/xlsx/cell_text.h"
#include "output/xlsx/parts.h"

namespace peelbook::output {
namespace {

using namespace xlsx;

namespace fs = std::filesystem;

[[noreturn]] void failed(const fs::path& file, const std::string& why, const std::string& next) {
    throw MachineFailed("cannot write the workbook '" + file.string() + "': " + why + "; " + next);
}

// The file under its temporary name; removed unless it was kept.
class Draft {
  public:
    explicit Draft(const fs::path& file) : file_(file), draft_(file) {
        draft_.replace_filename("." + file.filename().string() + "." + std::to_string(getpid()) + ".part");
        const int fd = ::open(draft_.c_str(), O_CREAT | O_TRUNC | O_WRONLY | O_CLOEXEC, 0666);
        if (fd < 0) failed(file, std::strerror(errno), "name a folder that exists and may be written to");
        ::close(fd);
    }
    Draft(const Draft&) = delete;
    Draft& operator=(const Draft&) = delete;
    ~Draft() {
        std::error_code ignored;
        fs::remove(draft_, ignored);
    }
    const fs::path& path() const { return draft_; }

    // Whole or not at all under its name. It is not flushed to the disk: unlike the book it can be written again.
    void keep() const {
        std::error_code error;
        fs::rename(draft_, file_, error);
        if (error) failed(file_, error.message(), "close the file if a program has it open, or choose another name");
    }

  private:
    fs::path file_, draft_;
};

// The library keeps each sheet in a temporary file and does not notice when the disk fills up under it.
void check_room(const Sheet& sheet, const fs::path& file) {
    std::uintmax_t bytes = 1 << 20;
    for (const auto& row : sheet.table.rows) {
        bytes += 40 + row.size() * 60;
        for (const auto& cell : row) {
            if (const auto* text = std::get_if<std::string>(&cell)) bytes += text->size();
        }
    }
    std::error_code error;
    for (const fs::path& folder : {fs::temp_directory_path(error), fs::absolute(file, error).parent_path()}) {
        const auto space = fs::space(folder, error);
        if (!error && space.available < bytes) {
            failed(file,
                   "the disk under '" + folder.string() + "' has " + std::to_string(space.available) + " bytes left and " +
                       std::to_string(bytes) + " are wanted",
                   "make room");
        }
    }
}

void check_size(const Sheet& sheet, const fs::path& file) {
    constexpr std::size_t most = LXW_ROW_MAX - 100;  // title and charts take some
    if (sheet.table.rows.size() > most) {
        failed(
            file,
            "sheet '" + sheet.name + "' has " + std::to_string(sheet.table.rows.size()) + " rows and a sheet takes " + std::to_string(most),
            "ask for a shorter time or export CSV");
    }
    if (sheet.columns.empty() && sheet.picture.empty()) throw std::logic_error("sheet '" + sheet.name + "' has no columns");
}

// UTC, so that the bytes do not depend on the machine's zone.
void set_properties(lxw_workbook* book, const Workbook& workbook) {
    std::string title = cell_text(workbook.title), subject = cell_text(workbook.subtitle);
    lxw_doc_properties properties{};
    properties.title = title.data();
    properties.subject = subject.data();
    properties.created = std::max<time_t>(1, static_cast<time_t>(workbook.created.ms / 1000));  // 0 would mean the wall clock
    workbook_set_properties(book, &properties);
}

std::vector<std::string> unique_names(const Workbook& workbook) {
    std::vector<std::string> names, taken;
    for (const auto& sheet : workbook.sheets) {
        std::string name = sheet_name(sheet.name);
        for (int n = 2; std::find(taken.begin(), taken.end(), lowered(name)) != taken.end(); ++n) {
            const std::string number = " " + std::to_string(n);
            name = sheet_name(sheet.name.substr(0, 31 - number.size())) + number;
        }
        taken.push_back(lowered(name));
        names.push_back(std::move(name));
    }
    return names;
}

lxw_worksheet* add_sheet(lxw_workbook* book, const std::string& name, const fs::path& file) {
    lxw_worksheet* sheet = workbook_add_worksheet(book, name.c_str());
    if (sheet == nullptr) failed(file, "no room for sheet '" + name + "'", "check memory and the folder for temporary files");
    return sheet;
}

void fill(lxw_workbook* book, const Workbook& workbook, const fs::path& file) {
    set_properties(book, workbook);
    Formats formats(book);
    const auto names = unique_names(workbook);
    const bool own = !workbook.sheets.empty() && lowered(workbook.sheets.front().name) == "summary";
    const std::size_t first = own ? 1 : 0;
    lxw_worksheet* summary = add_sheet(book, own ? names.front() : "Summary", file);
    std::vector<lxw_worksheet*> sheets;
    for (std::size_t i = 0; i < names.size(); ++i) sheets.push_back(i < first ? summary : add_sheet(book, names[i], file));
    for (std::size_t i = 0; i < names.size(); ++i) {
        const Sheet& from = workbook.sheets[i];
        check_size(from, file);
        check_room(from, file);
        if (i < first) continue;
        if (from.picture.empty()) {
            write_table_sheet(book, sheets[i], names[i], workbook, from, formats);
        } else {
            write_picture_sheet(sheets[i], names[i], workbook, from, formats);
        }
    }
    std::vector<Listed> listed;
    for (std::size_t i = first; i < names.size(); ++i) {
        const Sheet& sheet = workbook.sheets[i];
        listed.push_back({names[i], sheet.note, sheet.picture.empty() ? sheet.table.rows.size() : 1});
    }
    write_summary(summary, workbook, own ? &workbook.sheets.front() : nullptr, listed, formats);
}

}  // namespace

void write_workbook(const Workbook& workbook, const fs::path& file) {
    const Draft draft(file);
    lxw_workbook_options options{};
    options.constant_memory = LXW_TRUE;
    lxw_workbook* book = workbook_new_opt(draft.path().c_str(), &options);
    if (book == nullptr) failed(file, "not enough memory", "close other programs");
    try {
        fill(book, workbook, file);
    } catch (...) {
        lxw_workbook_free(book);
        throw;
    }
    const lxw_error error = workbook_close(book);
    if (error != LXW_NO_ERROR) failed(file, lxw_strerror(error), "check the disk and the folder for temporary files");
    draft.keep();
}

}  // namespace peelbook::output
