#pragma once
// What the plan asks for of places and instruments, as it stands at a moment: worked out when asked, from the plan, its calendar,
// the outages and the last check, and never stored. Reading alone; a few indexed look-ups a point, however many years of checks
// there are.
#include <optional>
#include <string>
#include <vector>

#include "base/grade.h"
#include "fold/ledger.h"

namespace peelbook::fold {

// A check of a place that the plan asks for again and again.
struct Duty {
    std::string place, point, name, what;  // what: "air of the chill room: at most 5C"
    Grade grade = Grade::critical;
    Instant since;       // the last check, or from when it is owed when there is none: the first shift after the adoption
    Instant due;         // by when the next one is owed; calendar and outages counted
    bool never = false;  // no check since it was first owed
    std::string closed;  // empty, or what reopening after closed hours wants: "a max reading, or a logger's file, of 18:00-06:00"
    bool overdue(Instant now) const { return due < now; }
};

// Of every point with an interval in the plan in force at `now`, in order of the plan; adoptions on the way are counted in. What is
// owed no more (dropped by an adoption before it was overdue) is not among them.
std::vector<Duty> duties_at(Ledger& ledger, Instant now);
std::optional<Duty> duty_at(Ledger& ledger, const std::string& place, const std::string& point, Instant now);

// An instrument in service that is to be calibrated and was not in time, by the plan in force at `now`.
struct OverdueInstrument {
    std::string instrument, name;
    std::optional<Instant> due;  // none: never calibrated since it is in service
};
std::vector<OverdueInstrument> overdue_instruments(Ledger& ledger, Instant now);

}  // namespace peelbook::fold
