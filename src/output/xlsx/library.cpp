#include "output/xlsx/library.h"

#include <dlfcn.h>

#include "base/result.h"

namespace peelbook::xlsx {

void* library_function(const char* name) {
    static void* const library = ::dlopen(PEELBOOK_XLSXWRITER, RTLD_LAZY | RTLD_LOCAL);  // for the life of the process
    void* const function = library != nullptr ? ::dlsym(library, name) : nullptr;
    if (function == nullptr)
        throw MachineFailed("cannot write a workbook without " PEELBOOK_XLSXWRITER
                            "; install it (Debian: apt-get install " PEELBOOK_XLSXWRITER_PACKAGE ")");
    return function;
}

}  // namespace peelbook::xlsx
