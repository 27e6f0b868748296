#include "output/csv.h"

#include <ostream>
#include <sstream>

namespace peelbook::output {
namespace {

void write_field(std::ostream& out, const std::string& text, bool alone) {
    const bool quoted = text.find_first_of(",\"\r\n") != std::string::npos || (alone && text.empty());
    if (!quoted) {
        out << text;
        return;
    }
    out << '"';
    for (const char c : text) {
        if (c == '"') out << '"';
        out << c;
    }
    out << '"';
}

}  // namespace

void write_csv(std::ostream& out, const Table& table) {
    const bool alone = table.columns.size() == 1;
    const char* between = "";
    for (const auto& column : table.columns) {
        out << between;
        write_field(out, column, alone);
        between = ",";
    }
    out << "\r\n";
    for (const auto& row : table.rows) {
        between = "";
        for (const auto& cell : row) {
            out << between;
            write_field(out, to_text(cell), alone);
            between = ",";
        }
        out << "\r\n";
    }
}

std::string to_csv(const Table& table) {
    std::ostringstream out;
    write_csv(out, table);
    return out.str();
}

}  // namespace peelbook::output
