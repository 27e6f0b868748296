#pragma once
// What holds of every entry of a kind, whatever it says. Each struct of payload.h states all of it in its
// line `kind`; one that leaves something out does not compile.
#include <string_view>

namespace peelbook::record {

enum class Correction {
    never,      // it stands; what holds now is a new entry
    void_only,  // voided and stated anew
    any,        // amended or voided
};

// What it brings about among lots: a recall that is open is looked at again where links or goods may have
// come to be.
enum class Lots {
    none,
    made,            // a new lot, of nothing that is in the book
    made_of_others,  // a new lot, and what went into it
    linked,          // what went into what
    came_back,       // goods that had left
};

struct Kind {
    std::string_view name;     // stored: do not change
    std::string_view command;  // that records it, as a role's `may` names it
    Correction correction;
    Lots lots;

    constexpr bool makes_lot() const { return lots == Lots::made || lots == Lots::made_of_others; }
};

}  // namespace peelbook::record
