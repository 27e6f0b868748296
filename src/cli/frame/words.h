#pragma once
// A line of text taken apart into words, as a shell does it, for replay files.
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace peelbook::cli {

// Blanks part words. '...' is kept as it stands; in "..." a backslash keeps the next '"' or '\'; outside
// quotes a backslash keeps any next character. Quotes may touch other text: --why="too warm". A '#' at the
// beginning of a word starts a comment. Refused: a quote that is not closed, a backslash at the end of the
// line.
Result<std::vector<std::string>> split_words(std::string_view line);

}  // namespace peelbook::cli
