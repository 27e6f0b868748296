#include "calc/number_text.h"

#include <charconv>

namespace peelbook::calc {

std::string number_text(double number) {
    char buffer[32];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, number).ptr;
    return std::string(buffer, end);
}

}  // namespace peelbook::calc
