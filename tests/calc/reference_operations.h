#pragma once
// What reference.txt can ask for: one entry for each formula, from named inputs to named answers.
#include <functional>
#include <map>
#include <string>

#include "calc/reference_reader.h"

namespace reference {

using Operation = std::function<Answers(const Inputs&)>;

const std::map<std::string, Operation>& food_operations();        // heat, cooling, water, formula, thermometers, classes
const std::map<std::string, Operation>& statistics_operations();  // charts, fits, quantiles, capability

inline Answers refused(const std::string& given) { return {{"refused", given}}; }

}  // namespace reference
