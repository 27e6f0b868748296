#pragma once
// Every part of a plan as named phrases: what `plan show` prints and what `plan changes` compares.
#include <string>
#include <utility>
#include <vector>

#include "plan/plan.h"

namespace peelbook::plan {

struct Described {
    std::string section;  // "point"
    std::string id;       // empty for the site
    std::string name;
    std::vector<std::pair<std::string, std::string>> says;  // "limit", "at least 93C"; an empty phrase: not stated

    std::string title() const { return id.empty() ? section : section + " " + id; }
};

std::vector<Described> described(const Plan& plan);  // in plan order: site first, points last

// The plan in words, for `plan show`: every point with its limit, basis and actions; the caution
// (base/text.h) is the last line. `only` picks one id ("bake-core"), one section ("point" or "points"), or
// "allergens" (the vocabulary and its exceptions); empty: the whole plan. Empty text when nothing is called
// `only`.
std::string shown(const Plan& plan, std::string_view only);

}  // namespace peelbook::plan
