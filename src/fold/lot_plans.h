#pragma once
// By which versions of the plan a lot is judged (rule 53): nobody gets a milder plan by moving the time of a start.
//
// The version in force when the lot began governs it, by the time that was stated first: an amendment of that time changes no plan. Where
// the start was typed later than late_after, nobody knows from a record made at the time on which side of an adoption it was: every
// version adopted meanwhile judges it too, and the harder counts.
#include <vector>

#include "fold/ledger.h"

namespace peelbook::fold {

struct LotPlans {
    GoverningPlan governing;
    std::vector<Seq> also;
};
LotPlans plans_of_start(Ledger& ledger, Seq maker);

// The newest version adopted by `known` that does not judge the lot; none when that is the one that does.
std::optional<book::PlanVersion> newer_plan(Ledger& ledger, Seq plan_seq, const std::vector<Seq>& also, Instant known);

}  // namespace peelbook::fold
