#include "fold/lot_plans.h"

#include <algorithm>

namespace peelbook::fold {

LotPlans plans_of_start(Ledger& ledger, Seq maker) {
    const auto& stated = ledger.entry(maker);
    LotPlans plans{ledger.plan_at(stated.happened), {}};
    if (stated.written - stated.happened <= plans.governing.plan->site.late_after) return plans;
    for (const auto& version : ledger.plan_versions()) {
        const bool meanwhile = version.from_ms > stated.happened.ms && version.from_ms <= stated.written.ms;
        if (meanwhile && version.seq != plans.governing.seq) plans.also.push_back(version.seq);
    }
    return plans;
}

std::optional<book::PlanVersion> newer_plan(Ledger& ledger, Seq plan_seq, const std::vector<Seq>& also, Instant known) {
    std::optional<book::PlanVersion> newest;
    for (const auto& version : ledger.plan_versions())
        if (version.seq > plan_seq && version.from_ms <= known.ms) newest = version;
    if (newest && std::find(also.begin(), also.end(), newest->seq) != also.end()) newest.reset();
    return newest;
}

}  // namespace peelbook::fold
