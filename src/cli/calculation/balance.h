#pragma once
// The heat balance of a dough for `calc water --balance`: options, and the answer from calc/dough_water.h.
#include <optional>
#include <string>
#include <vector>

#include "base/measure.h"
#include "cli/calculation/text.h"

namespace peelbook::cli {

struct BalanceGiven {
    std::optional<Measure> want, flour;  // needed
    std::optional<Measure> preferment;
    std::optional<Measure> flour_mass, water_mass, preferment_mass, tap, hot;
    std::optional<double> preferment_water, mixer_kj, most_ice;  // percent, kJ, percent
    std::vector<std::string> others;                             // "2kg@4C" or "2kg@4C@2.3"
};

void add_balance(Options& options, BalanceGiven& given);

// True when something was given that only the balance can use.
bool balance_only(const BalanceGiven& given);

// Refused: a mass or the tap that is wanted and was not given, and what calc::balance_water refuses.
Result<CalcAnswer> balance_answer(const BalanceGiven& given);

}  // namespace peelbook::cli
