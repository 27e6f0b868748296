#pragma once
// Writes a Workbook as an .xlsx file (ECMA-376) that is ready to print, sign and file.
//
// Numbers are numbers, everything else is text: nothing from the data becomes a formula or a link. The same Workbook gives
// the same bytes. The file appears whole or not at all (temporary name beside it, then rename; an older one is replaced).
//
// The first page ("Summary") holds title, facts, lines to sign on, the caution, the table of the workbook's sheet named
// "Summary" when it has one, and the list of the other sheets. Every other sheet is one table: heading row frozen, filtered and repeated on each
// printed page, fitted to one page wide (or one picture), charts after the table on pages of their own or beside a narrow one.
//
// Values a workbook cannot hold are made visible, never dropped in silence:
//   bytes that are not UTF-8, control characters   U+FFFD in their place
//   text over 32,767 characters (Excel's limit)    cut, ending in "[cut: N characters more]"
//   NaN, infinity                                  the text "not a number"
//   whole numbers beyond 2^53                      text, so that no digit changes
//
// Throws MachineFailed when the file cannot be written (folder, permission, disk) or a sheet has more rows than the format
// takes (1,048,576); std::logic_error when a table's row is not as long as its columns. The first call loads libxlsxwriter
// (output/xlsx/library.h), and throws MachineFailed when it is not there.
#include <filesystem>

#include "base/workbook.h"

namespace peelbook::output {

void write_workbook(const Workbook& workbook, const std::filesystem::path& file);

}  // namespace peelbook::output
