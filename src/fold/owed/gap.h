#pragma once
// Gaps that two records bound, and that are stored as findings (rule 11): from one check to the next, from an adoption to the first
// check after it, and up to an adoption that asks for the check no more. The tail after the last check is duty.h.
#include "fold/owed/owing.h"
#include "fold/place_moments.h"
#include "judge/judge.h"

namespace peelbook::fold {

struct Gap {
    judge::Finding finding;
    GoverningPlan by;
    Duration owed;  // how long it is
};

// From the check, or a logger's row, at `from` to the next moment at which the place was read (none: not yet).
std::optional<Gap> gap_after(Ledger& ledger, PlaceOwing& owing, const PlaceMoments& moments, Instant from, std::optional<Instant> next);
// From the adoption to the first check since.
std::optional<Gap> gap_since_adoption(Ledger& ledger, PlaceOwing& owing, const PlaceMoments& moments, std::size_t version);

}  // namespace peelbook::fold
