#pragma once
// Comma-separated values as RFC 4180 has them: lines end in CR LF, a header line first, a field in double quotes when it holds
// a comma, a quote, CR or LF (a quote inside is doubled). UTF-8 without a byte order mark. Cells are written unchanged: text
// that begins with '=' stays as it is, so import such a file as text.
#include <iosfwd>
#include <string>

#include "base/table.h"

namespace peelbook::output {

// An empty cell is an empty field; an empty text too, except where it would be the whole line (one column): then "".
// Real numbers are written with the fewest digits that read back the same.
void write_csv(std::ostream& out, const Table& table);
std::string to_csv(const Table& table);

}  // namespace peelbook::output
