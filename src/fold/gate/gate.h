#pragma once
// The gate: whether an entry may send its lots on. Every entry that was appended and derived is asked here, inside its transaction,
// and is rolled back when the answer is no; so what the act itself makes due is known.
#include <string>
#include <vector>

#include "base/result.h"
#include "fold/gate/passages.h"

namespace peelbook::fold {

// A state that a lot is in as it goes on, in words of a refusal.
struct Stop {
    State state = State::held;
    std::string given;  // what was to be done, with what: "packing PAN-1, on hold: metal found"
    std::string wanted, next;
};

// All that holds of the lot at this passage, the worst first.
std::vector<Stop> stops(Ledger& ledger, const Passage& passage, Instant at, Instant now);

// What keeps it from passing so without a reason; none: it may. In practice what is practised only keeps nothing.
std::optional<Stop> kept_by(Ledger& ledger, const Passage& passage, Instant at, Instant now);

// Refused with the first stop that the table does not let pass. `before`: what the entry had sent on already, which an amendment
// need not ask again. `practised`: takes, in words, what would be refused in earnest and is practised only; none: nothing is.
Check gate(Ledger& ledger, const Passages& passages, Instant at, Instant now, const std::vector<Passage>& before,
           std::vector<std::string>* practised);

}  // namespace peelbook::fold
