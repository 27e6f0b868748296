#pragma once
#include <string>
#include <vector>

#include "cli/frame/context.h"
#include "cli/frame/exit_codes.h"

namespace peelbook::cli {

// One command line without the program's name: "--site bakery reading PAN-1 bake-core 96.4C". Prints what is
// to be printed and never throws; the number is for the shell.
int run(Context& context, const std::vector<std::string>& args);

// The same, for callers that go on afterwards. Damaged, MachineFailed and what else goes wrong are printed,
// not thrown.
Exit run_line(Context& context, const std::vector<std::string>& args);

// "refused: ...", "wanted: ...", "next: ..." and, when there are any, "nearest: ...", one a line.
void print_refusal(std::ostream& err, const Refusal& refusal);

}  // namespace peelbook::cli
