#pragma once
// The one thing that the shared object peelbook_xlsx.so shows. Promises and errors: output/workbook_file.h, which calls it.
#include <filesystem>

#include "base/workbook.h"

extern "C" [[gnu::visibility("default")]] void peelbook_write_xlsx(const peelbook::Workbook& workbook,
                                                                   const std::filesystem::path& file);
