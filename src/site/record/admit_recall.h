#pragma once
// What entries of a recall and what is said in one are both asked.
#include <string>
#include <vector>

#include "site/record/admit.h"

namespace peelbook::site {

Check one_of(const std::string& what, const std::string& given, const std::vector<std::string>& words);
template <class Words> std::vector<std::string> list_of(const Words& words) { return {std::begin(words), std::end(words)}; }

// A drill and a recall go through the same entries; the code says which it is.
Result<book::Recall> open_recall(const Request& r, const std::string& code);

}  // namespace peelbook::site
