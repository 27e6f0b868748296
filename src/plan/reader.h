#pragma once
// Reads a plan from TOML texts and says everything that is wrong with it at once.
#include <string>
#include <variant>
#include <vector>

#include "plan/plan.h"

namespace peelbook::plan {

struct Text {
    std::string name;  // file name, for messages
    std::string text;
};

struct Fault {
    std::string file;
    int line = 0, column = 0;  // from 1; 0 when it is about the whole file
    std::string source_line;   // the line itself
    std::string found, wanted, remedy;  // remedy may hold the nearest known name
    bool warning = false;      // does not refuse adoption
};

// "products.toml:12:9: error: ...\n    pieces = -3\n             ^\n    [remedy]"
std::string to_text(const Fault& f);

struct Outcome {
    Plan plan;                  // complete only when there is no error among the faults
    std::vector<Fault> faults;  // in file and line order
    bool usable() const;        // no fault but warnings
};

// Syntax, types, units, unknown keys, unknown ids and the cross rules (plan/rules.cpp). All texts together are one plan.
Outcome read_plan(const std::vector<Text>& texts);

// The plan of texts that were read without error when they were adopted: no cross rules and no time zone look-up, so that a
// command which records one entry starts fast. Throws Damaged when they cannot be read any more.
Plan read_adopted_plan(const std::vector<Text>& texts);

// Which ids the book knows and the plan may cite: partner codes. Faults are warnings: a supplier may be added later.
std::vector<Fault> check_against(const Plan& plan, const std::vector<std::string>& partner_codes);

}  // namespace peelbook::plan
