#pragma once
#include <vector>

#include "cli/frame/command.h"

namespace peelbook::cli {

// Every command, in the order in which `help` shows them within their group.
const std::vector<const Command*>& commands();

// The command that the first one or two of `words` name, and how many words that took; null when there is
// none.
struct Named {
    const Command* command = nullptr;
    std::size_t words = 0;
};
Named find_command(const std::vector<std::string>& words);

// For a name that is none: what was meant, perhaps.
Refusal unknown_command(const std::vector<std::string>& words);

}  // namespace peelbook::cli
