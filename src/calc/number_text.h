#pragma once
// Numbers in refusals: the shortest text that reads back as the same number. std::to_chars, so never a
// locale.
#include <string>

namespace peelbook::calc {

std::string number_text(double number);

}  // namespace peelbook::calc
