#include "output/workbook_file.h"

#include <dlfcn.h>

#include <stdexcept>

#include "base/result.h"
#include "xlsx/write.h"

namespace peelbook::output {
namespace {

// PEELBOOK_XLSX is its place as seen from the folder of the program. It stays for the life of the process.
decltype(&peelbook_write_xlsx) writer() {
    std::error_code unknown;
    const auto program = std::filesystem::read_symlink("/proc/self/exe", unknown);
    const auto place = (program.parent_path() / PEELBOOK_XLSX).lexically_normal();
    void* library = ::dlopen(place.c_str(), RTLD_LAZY | RTLD_LOCAL);
    void* function = library ? ::dlsym(library, "peelbook_write_xlsx") : nullptr;
    if (!function)
        throw MachineFailed("cannot write a workbook: " + std::string(::dlerror()) +
                            "; install the program whole: cmake --install puts that file where it is looked for");
    return reinterpret_cast<decltype(&peelbook_write_xlsx)>(function);
}

}  // namespace

void write_workbook(const Workbook& workbook, const std::filesystem::path& file) {
    static const auto write = writer();
    xlsx::Outcome outcome;
    write(workbook, file, outcome);
    if (outcome.kind == xlsx::Outcome::machine_failed) throw MachineFailed(outcome.why);
    if (outcome.kind == xlsx::Outcome::wrong_use) throw std::logic_error(outcome.why);
}

}  // namespace peelbook::output
