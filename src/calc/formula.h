#pragma once
// Formula in baker's percent to a weigh sheet. Every ingredient is a percentage of the flour, which is 100 %.
// Masses are integer milligrams that sum exactly (calc/apportion.h); percentages are integer thousandths of a
// percent.
// Source: baker's percentage is common practice; worked examples with their sources in
// tests/calc/reference.txt.
#include <cstdint>
#include <string>
#include <vector>

#include "base/result.h"

namespace peelbook::calc {

struct FormulaLine {
    std::string name;
    std::int64_t percent_milli = 0;  // 58 % is 58'000
    bool flour = false;              // a line of flour; together these are 100 %
};

enum class Basis {
    added_flour,  // the flour lines of the formula
    dough,        // everything
};

struct WeighLine {
    std::string name;
    std::int64_t mg = 0;
};

struct WeighSheet {
    std::vector<WeighLine> lines;  // in the formula's order
    std::int64_t total_mg = 0;     // exactly the sum of the lines
    std::int64_t flour_mg = 0;     // of the flour lines
};

// Refuses: no lines, flour lines that are not 100 %, a percentage below 0, a mass not above 0.
Result<WeighSheet> weigh_sheet(const std::vector<FormulaLine>& formula, Basis basis, std::int64_t mg);

}  // namespace peelbook::calc
