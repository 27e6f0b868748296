#include <malloc.h>

#include <cstdlib>
#include <filesystem>
#include <iostream>

#include "cli/frame/run.h"

namespace {
constexpr int most_of_one_list = 32 << 20;  // bytes; the C library takes no more
}

int main(int count, char** words) {
    std::ios::sync_with_stdio(false);
    // What a long list gives back is kept for the next one: memory fetched from the system anew is dear to touch.
    mallopt(M_MMAP_THRESHOLD, most_of_one_list);
    mallopt(M_TRIM_THRESHOLD, 2 * most_of_one_list);
    peelbook::SystemClock clock;
    peelbook::DiskFiles files;
    const auto environment = [](std::string_view name) {
        const char* value = std::getenv(std::string(name).c_str());
        return std::string(value == nullptr ? "" : value);
    };
    std::error_code gone;  // a current folder that was deleted: then only --site and PEELBOOK_SITE can help
    peelbook::cli::Context context(clock, files, std::cout, std::cerr, std::cin, environment, std::filesystem::current_path(gone));
    return peelbook::cli::run(context, {words + (count > 0 ? 1 : 0), words + count});
}
