#pragma once
// Control charts over the book: the readings of one point in a period, or what the judge measured at it of each
// batch (site/ask/chart_subject.h), each product, oven, instrument or person for itself. calc/chart.h has the lines, calc/run_rules.h the signals, calc/capability.h and
// calc/trend.h the rest.
//
// A signal is a note for quality. It never is a verdict: control lines describe what a process does, a limit
// says what it must do, and a critical limit is judged by itself alone.
//
//   lot readings    of lots that began in the period, voided ones left out; a logger's rows of a lot are a
//   curve, no process
//                   value, and are left out
//   figures         a time between two events, a loss: one of each lot that began in the period, as it was judged
//                   (the finding's figure); told apart by person: who made the lot
//   place readings  single checks; and, as a group of its own, the daily mean of each logger's rows
//   individuals     every reading is a value, with the moving range of neighbours; X-bar and R: the readings
//   of a lot are a
//                   subgroup, all of one size from 2 to 10; lots with another number of readings are counted,
//                   not charted
#include <optional>
#include <string>
#include <vector>

#include "base/instant.h"
#include "base/result.h"
#include "base/table.h"
#include "calc/capability.h"
#include "calc/chart.h"
#include "calc/run_rules.h"
#include "calc/trend.h"

namespace peelbook::fold {
class Ledger;
}

namespace peelbook::site {

enum class ChartBy { product, unit, instrument, person };
std::string_view word(ChartBy by);  // "product", "unit", "instrument", "person"

struct ChartQuestion {
    std::string point;
    std::string product;      // only of it; empty: of each
    std::vector<ChartBy> by;  // what is told apart besides the product
    Instant from, until;      // until is not included
    bool xbar = false;        // subgroups of a lot; else individuals
    calc::RuleSet rules = calc::RuleSet::western_electric;
};

struct ChartValue {
    std::string label;            // the lot, or the time of a check on a place
    Instant at;                   // of the last reading of a subgroup
    double value = 0;             // of the group's unit
    std::optional<double> range;  // moving range, or range of the subgroup; absent for the first of individuals
    std::string signal;           // of those that are complete here, in words; empty: none
};

struct ChartGroup {
    std::string name;                               // "rye-loaf, oven-1"; empty: everything in one
    std::string product, unit, instrument, person;  // what is told apart; else empty
    std::vector<ChartValue> values;
    std::int64_t left_out = 0;  // lots whose number of readings makes no subgroup of the usual size
    std::size_t subgroup = 1;
    std::optional<calc::ControlChart> chart;  // absent with fewer than two values
    std::vector<calc::RunSignal> signals;
    std::vector<std::size_t> wide;               // values whose range lies outside the limits of the range
    std::optional<calc::Capability> capability;  // against the plan's limit, of all single readings
    double mean = 0, sd = 0;                     // of the same
    std::optional<calc::Trend> trend;            // towards the limit; absent with fewer than 3 values
    std::vector<std::string> notes;              // signals and trend in words, for quality
};

struct ChartAnswer {
    std::string point, point_name;
    std::string what;              // is charted: "core temperature, in C, each reading"
    std::string limit_text, unit;  // symbol of the values' unit
    bool critical = false;
    std::optional<double> least, most;  // the plan's limit, of the unit
    std::int64_t judged_otherwise = 0;  // lots left out: the plan by which they were judged measured something else here
    std::vector<ChartGroup> groups;
};

// By the plan in force at the end of the period. Refused: no such point (with the nearest), one that gives no
// single number (a cooling curve, an inspection), a product it is not for, subgroups of what is one figure a lot.
Result<ChartAnswer> control_chart(fold::Ledger& ledger, const ChartQuestion& question);

// "3 batches left out: ..."; empty when none is.
std::string left_out_text(const ChartAnswer& answer);

inline constexpr std::string_view chart_caution =
    "Control lines describe the process; they are no limits. A signal is a note for quality, never a "
    "verdict: a critical limit is "
    "judged by itself.";

}  // namespace peelbook::site
