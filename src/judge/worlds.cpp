#include "judge/worlds.h"

#include <algorithm>
#include <set>

#include "judge/judge.h"
#include "judge/limits.h"

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

// How bad it is that a unit, or the whole point where no unit has a finding, stands so. Open is worse than within, for nothing is
// shown, and better than what is not: that could be settled by a record that is still to come.
int badness(const Judged& judged, const Finding* finding) {
    if (finding && finding->verdict > Verdict::within) return 1 + static_cast<int>(finding->verdict);
    if (finding && !judged.part_open) return 0;
    return judged.owed ? 1 : -1;
}

const Finding* of_unit(const Judged& judged, std::int64_t ord) {
    const auto found = std::find_if(judged.findings.begin(), judged.findings.end(), [&](const auto& f) { return f.ord == ord; });
    return found == judged.findings.end() ? nullptr : &*found;
}

// Unit by unit the worse of two worlds.
Judged worse_of(const Judged& a, const Judged& b) {
    std::set<std::int64_t> units;
    for (const Judged* judged : {&a, &b})
        for (const Finding& finding : judged->findings) units.insert(finding.ord);
    Judged out;
    out.owed = a.owed || b.owed;
    if (units.empty()) return a.standing == Standing::not_judged && a.owed ? a : b;
    bool all_struck = false;
    for (const std::int64_t ord : units) {
        const Finding *of_a = of_unit(a, ord), *of_b = of_unit(b, ord);
        const bool b_is_worse = badness(b, of_b) > badness(a, of_a);
        const Judged& worse = b_is_worse ? b : a;
        const Finding* finding = b_is_worse ? of_b : of_a;
        if (finding) {
            out.findings.push_back(*finding);
            out.part_open |= worse.part_open;
        } else {
            out.part_open = true;
            all_struck |= worse.standing == Standing::not_judged;
        }
        if (out.next.empty()) out.next = worse.next;
    }
    out.standing = !out.findings.empty() ? Standing::judged : all_struck ? Standing::not_judged : Standing::open;
    if (out.findings.empty()) out.part_open = false;
    return out;
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
