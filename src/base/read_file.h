#pragma once
// A whole file as bytes, through plain system calls: a first std::ifstream sets up locales for half a millisecond, which
// every recording command would pay.
#include <filesystem>
#include <optional>
#include <string>

#include "base/bytes.h"

namespace peelbook {

// Absent when it cannot be opened or read, or is no regular file.
std::optional<std::string> read_file(const std::filesystem::path& file);
// The same file read part by part; null when it cannot be opened or is no regular file.
std::unique_ptr<Bytes> open_file(const std::filesystem::path& file);

}  // namespace peelbook
