#pragma once
// A workbook as values: what a report asks for and what output/ writes. Neither side knows the other.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/instant.h"
#include "base/table.h"

namespace peelbook {

struct SheetColumn {
    std::string key;  // column of the table
    std::string heading;
    std::string unit;    // shown below the heading: "C", "kg"; empty: none
    std::string format;  // "text", "integer", "0.0", "0.00", "0.000", "0.0%"; "verdict": a word that is marked by how bad it is;
                         // "count": how often, marked when the key is the word of a bad verdict.
                         // Numbers are numbers in the workbook
    int width = 12;      // characters
};

struct SheetChart {
    std::string kind;         // "line", "scatter", "column"
    std::string title, x, y;  // columns by key
    std::string x_title, y_title;
    std::string series_by;          // rows with the same value (and next to each other) are one line; empty: one line
    std::vector<std::string> also;  // further columns drawn as lines over the same x: limits, control lines. A row without
                                    // a number there breaks the line
    std::string each{};             // one chart for each value of this column (its rows stand together); {each} in the title is that value,
                                    // {KEY} in the title and in y_title the value of a column in its first row
    std::string centre{};           // a column drawn as a thin line: the centre line of a control chart
};

struct Sheet {
    std::string name;  // at most 31 characters
    std::string note;  // printed above the table: what the sheet shows
    std::vector<SheetColumn> columns;
    Table table;
    std::vector<SheetChart> charts;
    std::string picture;  // bytes of a PNG; such a sheet shows it and has no table. Empty: none
    bool landscape = true;
};

struct Workbook {
    std::string title, subtitle;
    std::string paper = "A4";  // or "Letter"
    Instant created;
    std::vector<std::pair<std::string, std::string>> facts;  // top of the first sheet: site, plan version, head of the chain, ...
    std::string mark;                                        // at the foot of every page: the head of the chain
    std::vector<std::string> signatures;                     // one line each: "Reviewed by", "Approved by"
    bool judges_safety = true;                               // prints the caution on every page and the first sheet
    std::vector<Sheet> sheets;
};

}  // namespace peelbook
