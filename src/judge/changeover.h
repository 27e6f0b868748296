#pragma once
// Residue on one piece of equipment, and what runs into it (rule 40). Pure.
//
// Every lot leaves what it contains or may contain, and it lies there until a verified cleaning that clears it: a product that
// merely declares it takes nothing away. A cleaning is verified when each of its points was read after it and before the piece ran
// again, the last reading of each being within; it then clears from the moment of the last of these readings. Readings of the
// moment at which a lot runs count as before it.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/instant.h"

namespace peelbook::judge {

struct AllergenThere {
    std::string id;
    bool sure = true;  // false: may contain
};

struct EquipmentRun {
    std::int64_t lot = 0;
    Instant at;
    std::vector<AllergenThere> brings;
};

struct EquipmentCleaning {
    std::int64_t seq = 0;  // the entry
    Instant at;
    std::vector<std::string> clears;  // allergens
    std::vector<std::string> points;  // that verify it on this piece; never none
};

struct EquipmentCheck {
    Instant at;
    std::string point;
    bool within = false;
};

struct ResidueSpan {
    AllergenThere allergen;
    std::int64_t lot = 0;  // that left it
    Instant from;
    std::optional<Instant> until;  // absent: still there
    std::int64_t cleaned_by = 0;   // the cleaning's entry
};

struct Met {
    std::int64_t lot = 0;  // ran into residue that it does not bring itself as surely
    Instant at;
    ResidueSpan residue;
};

struct Changeovers {
    std::vector<ResidueSpan> spans;  // `lying` first, then those that were left since, in order
    std::vector<Met> met;            // one an allergen and run, of the surest residue
};

// `lying`: residue there before the first run. All lists in order of time.
Changeovers judge_changeovers(std::vector<ResidueSpan> lying, const std::vector<EquipmentRun>& runs,
                              const std::vector<EquipmentCleaning>& cleanings, const std::vector<EquipmentCheck>& checks);

}  // namespace peelbook::judge
