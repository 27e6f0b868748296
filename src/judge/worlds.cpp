#include "judge/worlds.h"

#include <algorithm>
#include <set>

#include "judge/judge.h"
#include "judge/limits.h"
#include "judge/worse.h"

namespace peelbook::judge {
namespace {

bool is_in(const std::vector<std::int64_t>& list, std::int64_t seq) { return std::find(list.begin(), list.end(), seq) != list.end(); }

template <class Fact> void add_entries(std::set<std::int64_t>& entries, const std::vector<Fact>& facts) {
    for (const Fact& fact : facts) {
        if (fact.in.only_with) entries.insert(*fact.in.only_with);
        if (fact.in.only_without) entries.insert(*fact.in.only_without);
    }
}

template <class Fact> void keep_of_world(std::vector<Fact>& facts, const std::vector<std::int64_t>& in_effect) {
    std::erase_if(facts, [&](const Fact& fact) {
        return (fact.in.only_with && !is_in(in_effect, *fact.in.only_with)) ||
               (fact.in.only_without && is_in(in_effect, *fact.in.only_without));
    });
}

}  // namespace

std::vector<std::int64_t> waiting_in(const Facts& facts) {
    std::set<std::int64_t> entries;
    add_entries(entries, facts.readings);
    add_entries(entries, facts.inspections);
    add_entries(entries, facts.steps_done);
    if (facts.started_before) entries.insert(facts.started_before->second);
    return {entries.begin(), entries.end()};
}

Facts world_of(const Facts& facts, const std::vector<std::int64_t>& in_effect) {
    Facts world = facts;
    keep_of_world(world.readings, in_effect);
    keep_of_world(world.inspections, in_effect);
    keep_of_world(world.steps_done, in_effect);
    if (world.started_before && !is_in(in_effect, world.started_before->second)) world.started = world.started_before->first;
    return world;
}

Judged judge_point(const plan::Point& point, const Facts& facts) {
    const auto waiting = waiting_in(facts);
    if (waiting.empty()) return judge_one(point, facts);
    const Judged with_all = judge_one(point, world_of(facts, waiting));
    Judged worst = worse_of(judge_one(point, world_of(facts, {})), with_all);
    for (const std::int64_t entry : waiting) {
        if (waiting.size() > 1) worst = worse_of(worst, judge_one(point, world_of(facts, {entry})));
    }
    for (Finding& finding : worst.findings) {
        const Finding* milder = of_unit(with_all, finding.ord);
        if (badness(worst, &finding) > badness(with_all, milder)) finding.waits.insert(finding.waits.end(), waiting.begin(), waiting.end());
    }
    return worst;
}

}  // namespace peelbook::judge
