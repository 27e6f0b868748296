#pragma once
// Goods outside the house, and what is said of them. What went there is what the book says; what became of it counts as whoever had it
// says, and at most what they had: what is said beyond that is a question to ask them, and credits nobody.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fate.h"
#include "trace/trace.h"

namespace peelbook::trace {

struct Amounts {
    std::int64_t mg = 0, pieces = 0;
    Amounts& operator+=(const Amounts& other);
    Amounts& operator-=(const Amounts& other);
    bool operator==(const Amounts&) const = default;
};

// What a customer says of goods it had, or our own people of what left by a way that names nobody.
struct Statement {
    std::vector<LotId> lots;  // that bear the code
    std::string code;         // as it was read out
    std::string partner;
    std::optional<Way> way;  // without a partner: the way by which they had left; neither: nobody had them, and it credits nothing
    Fate fate = Fate::returned;
    std::optional<std::int64_t> mass_mg, pieces;  // without a mass: their share of what went
    std::int64_t happened = 0;
    std::int64_t seq = 0;
};

// One lot at one customer, or out by one way that names nobody.
struct Parcel {
    LotId lot = 0;
    std::string partner;
    Way way = Way::customer;
    Amounts went;
    Amounts returned, destroyed, consumed, found_there;  // of what went, together never more
    Amounts open() const;                                // of what went, nobody accounts for
};

struct Share {  // what of a statement falls on a lot
    std::int64_t seq = 0;
    LotId lot = 0;
    Amounts amount;
};

struct Excess {  // what a statement says beyond what went there
    Statement said;
    Amounts amount;
};

struct Outside {
    std::vector<Parcel> parcels;  // in the order in which they first left
    std::vector<Share> shares;
    std::vector<Excess> excess;
};

// A statement is spread over the lots of its code that went there, those that left first, first. The mass of pieces is what all
// pieces spoken of so far weigh less what was said before, so that the last one closes to the milligram. Goods that a move
// "returned" brought back are credited before what is only said, and must not stand in a statement too. "Found" is the last word of
// what stands there: what is then returned, destroyed or used is taken from it. "Used" counts only as a named customer says.
Outside outside(const std::vector<Move>& moves, const std::vector<Statement>& statements);

}  // namespace peelbook::trace
