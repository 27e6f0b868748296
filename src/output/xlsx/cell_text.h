#pragma once
// Text as a workbook can hold it. What it cannot hold is made visible, never dropped in silence (output/workbook_file.h).
#include <cstddef>
#include <string>
#include <string_view>

namespace peelbook::xlsx {

inline constexpr std::size_t longest_cell = 32'767;  // characters; "Excel specifications and limits", Microsoft

// Valid UTF-8 and XML 1.0 characters only (section 2.2, production Char): others become U+FFFD; tab and line feed stay,
// CR LF becomes LF. Longer than longest_cell, counted in UTF-16 units: cut, ending in "[cut: N characters more]".
// "_x0041_" would be read as the escape of "A" (ECMA-376 part 1, 22.4.2.4 ST_Xstring): its first "_" is itself escaped.
std::string cell_text(std::string_view text);

// A sheet's name: at most 31 characters, none of []:*?/\ , no ' at either end, not empty. Offending characters become "-".
std::string sheet_name(std::string_view text);

// For a page header or footer, where & begins a code: doubled. Line feeds become blanks. At most `most` bytes, cut at a
// character, ending in "...".
std::string page_text(std::string_view text, std::size_t most);

}  // namespace peelbook::xlsx
