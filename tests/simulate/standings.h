#pragma once
#include <map>
#include <set>
#include <string>
#include <vector>

#include "simulate/house.h"

namespace peelbook::simulate {

// How the program sees its lots: which are held, and how bad each finding stands.
struct Standings {
    std::set<std::string> lots, held;
    std::map<std::string, std::int64_t> findings;  // "L-1 core 0" -> 0 within, 1 unproven, 2 missing, 3 deviation
};
Standings standings_of(House& house);

// What became milder from one to the other: a hold that is gone, a finding that stands better or stands no more.
struct Milder {
    std::string key;   // "L-1" of a hold, "L-1 core" of a finding
    std::string what;  // "hold", or a point and how it stood: "core deviation"
    std::string told;
    bool is_hold = false;
    std::int64_t from = 0, to = 0;  // verdicts; -1: there is none any more
};
std::vector<Milder> milder(const Standings& before, const Standings& after);

}  // namespace peelbook::simulate
