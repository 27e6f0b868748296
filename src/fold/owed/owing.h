#pragma once
// From when and by when a check of a place is owed (rule 11), by the versions of the plan on the way.
//
//   - A version counts from the first shift that begins at or after its adoption, the one before it until then. One that was
//     replaced before its first shift never counted.
//   - After a check the clock runs from that check. Where a version takes over meanwhile, the check is owed by its interval, but
//     no sooner than either the version before or a whole interval of the new one asks for it: an adoption neither makes a check
//     late that was in time, nor starts the clock anew.
//   - A version that drops the point ends what is owed, unless it was overdue by then: the gap then ends with that adoption.
//   - A version that brings the point, first or again, starts the clock at its first shift.
#include <optional>
#include <string>
#include <vector>

#include "fold/ledger.h"
#include "judge/owed_time.h"

namespace peelbook::fold {

struct Owing {
    Instant since, due;              // since: the check, or the first shift of the adoption
    GoverningPlan by;                // the version that sets `due`
    std::optional<Instant> dropped;  // overdue by then, and owed no more after it
};

class PlaceOwing {
  public:
    // `without`: an outage that is left out; 0: none.
    PlaceOwing(Ledger& ledger, std::string place, std::string point, Seq without = 0);

    // After a check at `last`, the latest at that time; none when nothing is owed.
    std::optional<Owing> after(Instant last);
    // Until the first check after the adoption, which must have brought the point.
    Owing from_adoption(std::size_t version);

    // The versions among those adopted in (after, until] that brought the point; indices of Ledger::plan_versions.
    std::vector<std::size_t> brought_in(std::optional<Instant> after, Instant until);
    // The adoption from which on the point has been asked for without a break up to `now`; none when it is not asked for then.
    std::optional<std::size_t> brought(Instant now);

    // Of the place at this point, with the outages since `from`.
    judge::OwedTime time(const GoverningPlan& by, Instant from);
    const plan::Point& point(const GoverningPlan& by) const { return *by.plan->point(point_); }

  private:
    struct Version {
        Instant from, begin;
        GoverningPlan governing;
        const plan::Point* point;  // null: it asks for nothing here
    };
    Version version(std::size_t i);
    bool never_counted(std::size_t i);
    std::optional<std::size_t> in_force(Instant at);  // the last adopted by then
    std::optional<Owing> walk(std::size_t first, Instant since);

    Ledger& ledger_;
    std::string place_, point_;
    Seq without_;
};

// Whether the plan asks for checks of this place at the point again and again.
bool asks_for(const plan::Plan& plan, const std::string& place, const std::string& point);

}  // namespace peelbook::fold
