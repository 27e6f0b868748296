#pragma once
// Subjects that an entry is about.
#include <string>
#include <utility>
#include <vector>

#include "fold/ledger.h"

namespace peelbook::fold {

std::vector<book::Touch> touches_of(Ledger& ledger, const Effective& e);

// Checks on a place hang on the place and the point together: place#point.
std::string place_subject(const std::string& place, const std::string& point);
std::pair<std::string, std::string> place_and_point(const std::string& subject);

}  // namespace peelbook::fold
