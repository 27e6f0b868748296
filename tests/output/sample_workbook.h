#pragma once
// An invented workbook with every kind of cell, column and chart, shared by the tests of output/.
#include <cmath>
#include <limits>

#include "base/workbook.h"

namespace peelbook::output::test {

inline Sheet verdict_counts() {
    Sheet sheet;
    sheet.name = "Summary";
    sheet.note = "How many times each control point was judged, by its worst verdict.";
    sheet.landscape = false;
    sheet.columns = {{"point", "Control point", "", "text", 26}, {"grade", "Class", "", "text", 11},
                     {"within", "Within", "", "count", 9},       {"unproven", "Unproven", "", "count", 10},
                     {"missing", "Missing", "", "count", 9},     {"deviation", "Deviation", "", "count", 10}};
    sheet.table.columns = {"point", "grade", "within", "unproven", "missing", "deviation"};
    sheet.table.rows = {{"Core at the end of baking", "critical", 118LL, 0LL, 1LL, 0LL},
                        {"Cooling of filled pieces", "critical", 11LL, 1LL, 0LL, 1LL},
                        {"Dough temperature", "quality", 97LL, 0LL, 0LL, 4LL}};
    return sheet;
}

// Twelve coolings, the last one too slow, and the staircase they must stay under.
inline Sheet cooling_curves() {
    Sheet sheet;
    sheet.name = "Cooling curves";
    sheet.note =
        "Minutes count from the last reading at or above the temperature at which the first stage begins. The dashed line is "
        "the limit: a curve that passes above one of its corners was too slow.";
    sheet.columns = {{"lot", "Lot", "", "text", 20},
                     {"product", "Product", "", "text", 28},
                     {"minutes", "Time since", "min", "0", 10},
                     {"celsius", "Measured", "C", "0.0", 10},
                     {"limit", "Limit", "C", "0.0", 9},
                     {"verdict", "Verdict", "", "verdict", 11},
                     {"who", "By", "", "text", 8}};
    sheet.table.columns = {"lot", "product", "minutes", "celsius", "limit", "verdict", "who"};
    for (int lot = 1; lot <= 12; ++lot) {
        const double slow = lot == 12 ? 1.9 : 1.0 + lot * 0.01;
        for (std::int64_t minute = 0; minute <= 360; minute += 40) {
            const double celsius = std::round((3 + 57 * std::exp(-static_cast<double>(minute) / (82 * slow))) * 10) / 10;
            sheet.table.rows.push_back({"TRAY-261116-" + std::to_string(lot),
                                        "Custard tray, vanilla",
                                        minute,
                                        celsius,
                                        {},
                                        lot == 12 ? "deviation" : "within",
                                        "MK"});
        }
    }
    const std::pair<std::int64_t, double> corners[] = {{0, 57}, {120, 57}, {120, 21}, {360, 21}, {360, 5}};
    for (const auto& [minute, celsius] : corners) {
        sheet.table.rows.push_back({"limit", "Cooling of filled pieces", minute, {}, celsius, {}, {}});
    }
    sheet.charts = {{"scatter", "Cooling of filled pieces", "minutes", "celsius", "minutes", "degrees Celsius", "lot", {"limit"}}};
    return sheet;
}

inline Sheet bake_cores() {
    Sheet sheet;
    sheet.name = "Bake cores";
    sheet.columns = {{"when", "When", "", "text", 17},
                     {"lot", "Lot", "", "text", 17},
                     {"core", "Core", "C", "0.0", 8},
                     {"limit", "Limit", "C", "0.0", 8}};
    sheet.table.columns = {"when", "lot", "core", "limit"};
    for (std::int64_t i = 0; i < 60; ++i) {
        const double core = 94.5 + static_cast<double>((i * 37) % 29) / 10;
        sheet.table.rows.push_back({"2026-11-1" + std::to_string(6 + i / 24) + " 05:40",
                                    "PAN-26111" + std::to_string(6 + i / 24) + "-" + std::to_string(i % 24 + 1),
                                    i == 41 ? Cell{91.8} : Cell{core}, 93.0});
    }
    sheet.charts = {{"line", "Core at the end of baking", "lot", "core", "batch", "degrees Celsius", "", {"limit"}}};
    return sheet;
}

// Text and numbers that have spoiled workbooks before.
inline Sheet awkward_values() {
    Sheet sheet;
    sheet.name = "Awkward: values / all?";
    sheet.landscape = false;
    sheet.columns = {{"what", "What", "", "text", 30}, {"value", "Value", "", "text", 40}, {"number", "Number", "kg", "0.000", 14}};
    sheet.table.columns = {"number", "unused", "what", "value"};
    const auto add = [&](const char* what, Cell value, Cell number) {
        sheet.table.rows.push_back({std::move(number), "not shown", what, std::move(value)});
    };
    add("leading equals", "=1+1", 0.1);
    add("leading plus", "+49 30 5550100", -0.25);
    add("leading at", "@SUM(A1)", 1e-9);
    add("markup", "<b>&amp; \"rye\" & 'spelt'</b>", 123456789.125);
    add("umlauts", "Körnerbrot, Crème brûlée, 米", 0.0);
    add("blanks kept", "  two before, two after  ", std::int64_t{42});
    add("two lines", "first\nsecond", -1LL);
    add("looks like an escape", "_x0041_", std::int64_t{1} << 53);
    add("looks like a link", "http://example.invalid/", (std::int64_t{1} << 53) + 1);
    add("not UTF-8", std::string("caf\xe9 \xc3"), std::numeric_limits<double>::quiet_NaN());
    add("control characters", std::string("bell\a nul\0 end", 14), std::numeric_limits<double>::infinity());
    add("not a character", "\xef\xbf\xbe", {});
    add("longest", std::string(32'767, 'x'), 7LL);
    add("too long", std::string(32'768, 'y'), 8LL);
    add("empty", "", 9LL);
    add("number in a text column", 17LL, 10LL);
    return sheet;
}

inline Sheet nothing_recorded() {
    Sheet sheet;
    sheet.name = "Missing and late";
    sheet.note = "Checks that were owed and are not there, and entries written later than the plan allows.";
    sheet.columns = {{"lot", "Lot", "", "text", 20}, {"point", "Control point", "", "text", 30}, {"late", "Late by", "min", "0", 10}};
    sheet.table.columns = {"lot", "point", "late"};
    return sheet;
}

inline Workbook sample_workbook() {
    Workbook workbook;
    workbook.title = "Week 2026-W47";
    workbook.subtitle = "Brook & Stone Bakehouse";
    workbook.created = Instant{1'795'000'000'000};
    workbook.facts = {{"Site", "Brook & Stone Bakehouse, 3 Weir Lane"},
                      {"From", "2026-11-16 04:00"},
                      {"Until", "2026-11-23 04:00"},
                      {"Plan in force", "entry 5, adopted 2026-11-14 16:02 by TS, SHA-256 3f0a9c52b0d1"},
                      {"Entries in the book", "3,412"},
                      {"Head of the chain", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"}};
    workbook.mark = "entry 3412 ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    workbook.signatures = {"Reviewed by", "Approved by"};
    workbook.sheets = {verdict_counts(), cooling_curves(), bake_cores(), awkward_values(), nothing_recorded()};
    return workbook;
}

}  // namespace peelbook::output::test
