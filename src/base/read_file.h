#pragma once
// A whole file as bytes, through plain system calls: a first std::ifstream sets up locales for half a millisecond, which
// every recording command would pay.
#include <filesystem>
#include <optional>
#include <string>

namespace peelbook {

// Absent when it cannot be opened or read, or is no regular file.
std::optional<std::string> read_file(const std::filesystem::path& file);

}  // namespace peelbook
