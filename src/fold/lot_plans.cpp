#include "fold/lot_plans.h"

#include "judge/judge.h"

namespace peelbook::fold {

LotPlans plans_of_start(Ledger& ledger, Seq maker) {
    const auto& stated = ledger.entry(maker);
    LotPlans plans{ledger.plan_at(stated.happened), {}, {}};
    const bool late = stated.written - stated.happened > plans.governing.plan->site.late_after;
    for (const auto& version : ledger.plan_versions()) {
        if (version.from_ms <= stated.happened.ms || version.seq == plans.governing.seq) continue;
        if (late && version.from_ms <= stated.written.ms)
            plans.also.push_back(version.seq);
        else if (!version.hazard.empty())
            plans.for_hazard.push_back(version);
    }
    return plans;
}

LotPlans plans_of_lot(Ledger& ledger, const book::Lot& lot) {
    const auto from = lot.kind == LotKind::rack ? ledger.rows().uses_into(lot.id) : std::vector<book::Use>{};
    const auto whole = from.empty() ? std::nullopt : ledger.rows().lot(from.front().from_lot);
    return whole ? plans_of_lot(ledger, *whole) : plans_of_start(ledger, lot.id);
}

bool was_open(Ledger& ledger, const LotPlans& plans, const plan::Point& point, const judge::Facts& facts, Instant at) {
    const auto governing = ledger.plan_version(plans.governing.seq);
    const auto* own = governing.plan->point(point.id);
    const auto then = judge::judge_point(own ? *own : point, facts.known_at(at));
    return then.standing == judge::Standing::open || then.part_open;
}

std::vector<const plan::Point*> points_judging(Ledger& ledger, const LotPlans& plans, const std::string& id, const judge::Facts& facts) {
    std::vector<const plan::Point*> points = {ledger.plan_version(plans.governing.seq).plan->point(id)};
    for (const Seq also : plans.also) points.push_back(ledger.plan_version(also).plan->point(id));
    for (const auto& version : plans.for_hazard) {
        const auto* point = ledger.plan_version(version.seq).plan->point(id);
        if (point && was_open(ledger, plans, *point, facts, {version.from_ms})) points.push_back(point);
    }
    std::erase(points, nullptr);
    return points;
}

std::optional<book::PlanVersion> newer_plan(Ledger& ledger, const LotPlans& plans, Instant known) {
    const Seq last = plans.also.empty() ? plans.governing.seq : plans.also.back();
    std::optional<book::PlanVersion> newest;
    for (const auto& version : ledger.plan_versions())
        if (version.seq > last && version.from_ms <= known.ms) newest = version;
    return newest;
}

}  // namespace peelbook::fold
