#pragma once
// GS1 symbols as pictures, drawn by libzint (BSD licence). The library is loaded when the first symbol is
// drawn and by nothing else: linked in, it would make every command start later.
//
// Formats by the name of the file: .svg, .png, .gif, .eps. GS1-128 has its text below the bars; the square
// ones are the symbol alone, with a quiet zone round it.
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "base/gs1_scan.h"
#include "base/result.h"

namespace peelbook::output {

enum class Symbology { gs1_128, data_matrix, qr };
std::string_view name_of(Symbology symbology);  // "gs1-128" "datamatrix" "qr"

// Refused: the library is not installed; a file name of another kind; elements that it does not draw without
// remark. (It draws a number with a wrong check digit and only remarks on it: here that is no symbol.) Throws
// MachineFailed when the file cannot be written. An older file is replaced.
Check draw_symbol(const std::vector<Gs1Element>& elements, Symbology symbology, const std::filesystem::path& file);

}  // namespace peelbook::output
