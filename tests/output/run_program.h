#pragma once
// Runs a program of the test machine and takes what it prints.
#include <array>
#include <cstdio>
#include <string>
#include <utility>

namespace peelbook::output::test {

// Exit status and standard output of a shell command; the status is -1 when it could not be run.
inline std::pair<int, std::string> run_program(const std::string& command) {
    std::string out;
    FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return {-1, out};
    std::array<char, 4096> buffer{};
    for (std::size_t n; (n = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) out.append(buffer.data(), n);
    return {pclose(pipe), out};
}

}  // namespace peelbook::output::test
