#pragma once
// Whether the records show a place in the hours in which nobody was there, as its plan asks (plan::Closed).
//
// Checks that lie no further apart than the interval show the time between them whatever the hours, as the rows of a logger's file
// do. Else the one after reopening must: within an interval from then, a reading with the unit "max" for a limit above, "min"
// for one below; or the alarm was tested good, and not overdue, when the house closed.
#include "fold/owed/owing.h"
#include "fold/place_moments.h"

namespace peelbook::fold {

struct ClosedHours {
    judge::Span hours;   // what is not shown
    Instant by;          // until then it can be
    std::string wanted;  // "a max reading, or a logger's file"
};

// Between a check at `from` and the next one at `next`, by the plan `by`; none: shown, or not asked for.
std::optional<ClosedHours> closed_hours(Ledger& ledger, PlaceOwing& owing, const GoverningPlan& by, Instant from, Instant next);

// The same of the last closed hours that ended by `now`, unless a check after `by` has decided them: then it is a stored finding.
// `last`: the last check.
std::optional<ClosedHours> open_closed_hours(Ledger& ledger, PlaceOwing& owing, const PlaceMoments& moments, const GoverningPlan& by,
                                             Instant last, Instant now);

// A check at `at`, the one before it at `before`, may be the first after the time in which closed hours can be shown, and so decide
// on them: the check with which the earliest of these begins. None: it decides on none.
std::optional<Instant> decides_from(PlaceOwing& owing, const PlaceMoments& moments, const GoverningPlan& by, Instant before, Instant at);

// "18:00-06:00", with dates where it is a day or longer.
std::string hours_text(const Zone& zone, const judge::Span& hours);

}  // namespace peelbook::fold
