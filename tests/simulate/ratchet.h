#pragma once
// The ratchet, from outside: an entry makes a verdict milder only where tests/fold/ratchet/table.txt says that its kind may, and only by
// what it is about; what waits ends to wait by another person's countersign alone. The program has its own table and its own way to ask.
#include <set>

#include "simulate/standings.h"
#include "simulate/violation.h"

namespace peelbook::simulate {

// Entries that wait for a countersign, and those that were refused one: neither counts.
struct Waiting {
    std::set<Seq> open, refused;
};
Waiting waiting_of(House& house);

// What is wrong with an accepted line: the entries that it wrote, and how the house stood before it and after.
struct Written {
    const std::vector<record::Entry>& entries;
    const Standings &before, &after;
    const Waiting &waited, &waits;
};
std::vector<Violation> ratchet_slips(House& house, const std::string& typed, const Written& written);

}  // namespace peelbook::simulate
