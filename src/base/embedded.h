#pragma once
// Files compiled into the program (schema/, reports/ and src/plan/starter/), so that the installed binary needs nothing beside it.
#include <string_view>
#include <vector>

namespace peelbook {

struct EmbeddedFile {
    std::string_view path;  // relative to the folder, with '/'
    std::string_view text;
};

}  // namespace peelbook
