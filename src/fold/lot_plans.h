#pragma once
// By which versions of the plan a lot is judged (rule 53): nobody gets a milder plan by moving the time of a start.
//
// The version in force when the lot began governs it, by the time that was stated first: an amendment of that time changes no plan. Where
// the start was typed later than late_after, nobody knows from a record made at the time on which side of an adoption it was: every
// version adopted meanwhile judges it too, and the harder counts.
// A version adopted for a hazard cannot wait for the next batch: it also judges what was still open of the lot when it was adopted.
#include <vector>

#include "fold/ledger.h"
#include "judge/facts.h"

namespace peelbook::fold {

struct LotPlans {
    GoverningPlan governing;
    std::vector<Seq> also;
    std::vector<book::PlanVersion> for_hazard;
};
LotPlans plans_of_start(Ledger& ledger, Seq maker);
LotPlans plans_of_lot(Ledger& ledger, const book::Lot& lot);  // of a rack those of its batch

// Whether the lot's own plan still took records at this point at the moment; where it has no such point, whether this one would have.
bool was_open(Ledger& ledger, const LotPlans& plans, const plan::Point& point, const judge::Facts& facts, Instant at);
// The point of this id in each version that judges the lot.
std::vector<const plan::Point*> points_judging(Ledger& ledger, const LotPlans& plans, const std::string& id, const judge::Facts& facts);

// The newest version adopted by `known` after all that judge the lot.
std::optional<book::PlanVersion> newer_plan(Ledger& ledger, const LotPlans& plans, Instant known);

}  // namespace peelbook::fold
