#pragma once
// What must hold of every history, one function each.
#include "simulate/run.h"

namespace peelbook::simulate {

// No way out: an accepted line did what the judge forbids. Empty: it did not.
std::vector<Violation> no_way_out(const Judge& judge, const std::vector<Attempt>& attempts, const std::string& typed);

// The points of places: place and point.
const std::vector<std::pair<std::string, std::string>>& watched_points();
// What is owed of them at a moment, and each time in which it took too long, equal a slow count of them.
std::vector<Violation> owed_otherwise(House& house, const Facts& facts, Instant now);

// A record that says nothing bad by itself: a value inside its limit, a check that passed, a step.
bool is_innocent(const History& history, std::size_t line);

}  // namespace peelbook::simulate
