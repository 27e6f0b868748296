#pragma once
// What must hold of every history, one function each.
#include "simulate/run.h"

namespace peelbook::simulate {

// No way out: an accepted line did what the judge forbids. Empty: it did not.
std::vector<Violation> no_way_out(const Judge& judge, const std::vector<Attempt>& attempts, const std::string& typed);

// How the program sees its lots: which are held, and how bad each finding stands.
struct Standings {
    std::set<std::string> held;
    std::map<std::string, std::int64_t> findings;  // "L-1 core 0" -> 0 within, 1 unproven, 2 missing, 3 deviation
};
Standings standings_of(House& house);

// Splitting, moving, counting and packing never free anything: what became milder between two moments. None: nothing did.
struct Milder {
    std::string what;  // "hold", or a point and how it stood: "core deviation"
    std::string told;
};
std::optional<Milder> milder(const Standings& before, const Standings& after);
bool settles_nothing(const std::string& typed);  // the line is of such a kind

// What is owed of places at a moment, and each time in which it took too long, equal a slow count of them.
std::vector<Violation> owed_otherwise(House& house, const Facts& facts, Instant now);

// A record that says nothing bad by itself: a value inside its limit, a check that passed, a step.
bool is_innocent(const History& history, std::size_t line);
// Taking such a record away never improves a verdict, frees no lot, and lets none go. Both histories are compared up to the first line that
// is accepted in one of them only; a point without a finding ranks as missing.
std::vector<Violation> taken_away(const Folders& folders, const History& history, const std::vector<bool>& accepted, std::size_t line);

}  // namespace peelbook::simulate
