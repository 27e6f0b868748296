#include "output/workbook_file.h"

#include <dlfcn.h>

#include <stdexcept>

#include "base/result.h"
#include "xlsx/write.h"

namespace peelbook::output {
namespace {

// Found through the run path of the program, ../lib/peelbook beside it; stays for the life of the process.
decltype(&peelbook_write_xlsx) writer() {
    void* library = ::dlopen("peelbook_xlsx.so", RTLD_LAZY | RTLD_LOCAL);
    void* function = library ? ::dlsym(library, "peelbook_write_xlsx") : nullptr;
    if (!function)
        throw MachineFailed("cannot write a workbook: " + std::string(::dlerror()) +
                            "; install peelbook whole: peelbook_xlsx.so stands in lib/peelbook beside the program's bin");
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
