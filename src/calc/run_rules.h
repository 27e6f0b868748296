#pragma once
// Signals of a control chart: patterns too unlikely for a process that has not changed.
//   Western Electric  1 point beyond 3 sigma; 2 of 3 beyond 2 sigma on one side; 4 of 5 beyond 1 sigma on one
//                     side; 8 in a row on one side. Together: one false alarm in about 92 points.
//   Nelson (1984)     1 beyond 3 sigma; 9 in a row on one side; 6 in a row rising or falling; 14 alternating
//   up
//                     and down; 2 of 3; 4 of 5; 15 in a row within 1 sigma; 8 in a row outside 1 sigma, on
//                     either side.
// Sources: read in numerics.net documentation and the StatSoft glossary.
// A point on the centre line is on neither side. "Beyond" is strict; "within" includes the line.
#include <cstddef>
#include <string_view>
#include <vector>

namespace peelbook::calc {

enum class RuleSet { western_electric, nelson };

enum class RunRule {
    beyond_3_sigma,
    two_of_three_beyond_2_sigma,
    four_of_five_beyond_1_sigma,
    eight_on_one_side,
    nine_on_one_side,
    six_trending,
    fourteen_alternating,
    fifteen_within_1_sigma,
    eight_outside_1_sigma,
};

struct RunSignal {
    RunRule rule = RunRule::beyond_3_sigma;
    std::size_t first = 0, last = 0;  // the points of the pattern; it is complete at `last`
};

std::string_view rule_text(RunRule rule);  // "8 in a row on one side of the centre line"

// In order of `last`. `sigma` of a plotted value, above 0; with sigma 0 only runs and trends can be seen.
std::vector<RunSignal> run_signals(const std::vector<double>& values, double centre, double sigma, RuleSet rules);

}  // namespace peelbook::calc
