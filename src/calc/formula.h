#pragma once
// Formula in baker's percent to a weigh sheet and back. Every ingredient is a percentage of the flour, which
// is 100 %.
// A preferment, scald or old dough is one line whose own formula is in `made_of`; true percentages take it
// apart and relate everything to all the flour in the dough.
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
    std::int64_t percent_milli = 0;    // 58 % is 58'000; of the flour added at this level
    bool flour = false;                // a line of flour; together these are 100 %
    std::vector<FormulaLine> made_of;  // of a preferment: its own lines, in any proportion with flour = 100 %
};

enum class Basis {
    added_flour,  // the flour lines of the formula
    total_flour,  // these and the flour inside preferments
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

// Refuses: no lines, flour lines that are not 100 % (also inside a preferment), a percentage below 0, a flour
// line with a formula of its own, a mass not above 0.
Result<WeighSheet> weigh_sheet(const std::vector<FormulaLine>& formula, Basis basis, std::int64_t mg);

// The sheet of a preferment that must weigh `mg`: weigh_sheet(line.made_of, Basis::dough, mg).

struct TrueLine {
    std::string name;
    double percent_of_flour = 0;  // of all flour in the dough
    double percent_of_dough = 0;
    bool flour = false;
};

// Preferments taken apart; lines of one name are added up, in order of first appearance. Refuses as
// weigh_sheet does.
Result<std::vector<TrueLine>> true_percentages(const std::vector<FormulaLine>& formula);

struct WeighedLine {
    std::string name;
    std::int64_t mg = 0;
    bool flour = false;
};

// Baker's percent of what was weighed, in thousandths, rounded half up. Refuses: no flour, a mass below 0.
Result<std::vector<FormulaLine>> percentages_of(const std::vector<WeighedLine>& weighed);

// Was what was weighed near enough? `tolerance_milli` in thousandths of a percent of the wanted mass;
// inclusive, exact.
struct WeighCheck {
    std::int64_t over_mg = 0;  // weighed minus wanted
    bool within = false;
};
WeighCheck check_weight(std::int64_t wanted_mg, std::int64_t weighed_mg, std::int64_t tolerance_milli);

}  // namespace peelbook::calc
