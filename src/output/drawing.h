#pragma once
// Draws a graph that is given as DOT text (trace/picture.h) by running Graphviz's `dot` as a process: linking
// its library would cost every command 20 ms and more. Nothing of the text reaches a shell.
#include <string>
#include <string_view>

#include "base/result.h"

namespace peelbook::output {

// The bytes of the picture; `format` is "svg" or "png". `program` is looked for along PATH. Refused when it
// is not installed or does not draw the text; what it complained of is quoted. Throws MachineFailed when
// there is no room for temporary files.
Result<std::string> draw(std::string_view dot_text, const std::string& format, const std::string& program = "dot");

}  // namespace peelbook::output
