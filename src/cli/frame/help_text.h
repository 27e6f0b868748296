#pragma once
#include <string>

#include "cli/frame/command.h"

namespace peelbook::cli {

// The program's help: every command by who uses it.
std::string program_help();
// One command's: usage, what it does, its words and options, examples.
std::string command_help(const Command& command);
// All commands whose first word is `family` ("plan"); empty when there is none.
std::string family_help(const std::string& family);

std::string_view heading_of(Group group);

}  // namespace peelbook::cli
