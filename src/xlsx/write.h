#pragma once
// The one thing that the shared object peelbook_xlsx.so shows. Promises and errors: output/workbook_file.h, which calls it.
#include <filesystem>
#include <string>

#include "base/workbook.h"

namespace peelbook::xlsx {

// Told and not thrown: no exception may cross from one C++ runtime library into another.
struct Outcome {
    enum Kind { written, machine_failed, wrong_use } kind = written;
    std::string why;
};

}  // namespace peelbook::xlsx

extern "C" [[gnu::visibility("default")]] void peelbook_write_xlsx(const peelbook::Workbook& workbook, const std::filesystem::path& file,
                                                                   peelbook::xlsx::Outcome& outcome);
