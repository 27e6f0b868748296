// An outage: what was owed in it and not done is one finding, which one action answers. It is unproven, not missing: somebody says
// why nothing could be checked, and nothing shows how it was meanwhile.
#include <algorithm>
#include <set>

#include "base/text.h"
#include "fold/findings.h"
#include "fold/fold.h"
#include "fold/owed/owing.h"
#include "fold/place_moments.h"
#include "judge/judge.h"

namespace peelbook::fold {
namespace {

bool is_of(const std::vector<book::Outage>& rows, const std::string& place) {
    return std::any_of(rows.begin(), rows.end(), [&](const auto& row) { return row.place.empty() || row.place == place; });
}

// Points of the places, with an interval in a version that was in force meanwhile.
std::vector<const plan::Point*> points_in(Ledger& ledger, const std::vector<book::Outage>& rows) {
    std::vector<const plan::Point*> out;
    if (rows.empty()) return out;
    std::set<std::string> seen;
    for (const Instant at : {Instant{rows.front().from_ms}, Instant{rows.front().until_ms}}) {
        for (const plan::Point& point : ledger.plan_at(at).plan->points)
            if (point.interval && is_of(rows, point.place) && seen.insert(point.id).second) out.push_back(&point);
    }
    return out;
}

// Whether a check fell due in the outage, and none was made by then.
bool fell_due(Ledger& ledger, const plan::Point& point, Seq seq, Instant from, Instant until) {
    PlaceOwing owing(ledger, point.place, point.id, seq);
    const PlaceMoments moments(ledger, point.place, point.id);
    const auto missed = [&](const std::optional<Owing>& owed, std::optional<Instant> next) {
        return owed && !owed->dropped && owed->due >= from && owed->due < (next ? std::min(*next, until) : until);
    };
    auto check = moments.before(from + Duration{1});
    for (const std::size_t version : owing.brought_in(check, until))
        if (missed(owing.from_adoption(version), moments.first({ledger.plan_versions()[version].from_ms}))) return true;
    if (!check) check = moments.first(from);
    while (check && *check < until) {
        const auto reached = moments.before(*check + point.interval->every + Duration{1});
        if (reached && *reached > *check) {  // no step on the way was longer than the interval
            check = reached;
            continue;
        }
        const auto next = moments.first(*check + Duration{1});
        if (missed(owing.after(*check), next)) return true;
        check = next;
    }
    return false;
}

}  // namespace

Subjects put_outage(Derivation& d, Seq seq) {
    auto& rows = d.ledger.rows();
    const Effective e = d.ledger.effective(seq);
    const auto& says = std::get<record::Outage>(e.says);
    const auto before = rows.outages(seq);
    std::vector<book::Outage> now;
    if (!e.voided_by) {
        auto places = says.places;
        if (places.empty()) places.emplace_back();
        std::sort(places.begin(), places.end());
        for (const auto& place : places) now.push_back({seq, place, says.from.ms, says.until.ms});
    }
    rows.set_outages(seq, now);
    Subjects dirtied{Subject::of_lot(Rank::outage, seq)};
    for (const auto& list : {before, now})
        for (const auto* point : points_in(d.ledger, list))
            dirtied.push_back({Rank::checks, 0, point->place, point->id, Instant{list.front().from_ms}, Instant{list.front().until_ms}});
    return dirtied;
}

Subjects fold_outage(Derivation& d, Seq seq) {
    auto& ledger = d.ledger;
    const auto outage = ledger.rows().outages(seq);
    std::vector<std::string> covered;
    Grade grade = Grade::quality;
    for (const auto* point : points_in(ledger, outage)) {
        if (!fell_due(ledger, *point, seq, {outage.front().from_ms}, {outage.front().until_ms})) continue;
        covered.push_back(point->name + " (" + point->place + " " + point->id + ")");
        grade = std::min(grade, point->grade);
    }
    std::vector<book::Finding> mine;
    if (!covered.empty()) {
        const Instant from{outage.front().from_ms};
        const auto day = ledger.production_day(from);
        book::Finding f;
        f.anchor = seq;
        f.point = std::string(judge::outage_point);
        f.place = outage.size() == 1 ? outage.front().place : "";
        f.plan_seq = ledger.plan_at(from).seq;
        f.grade = grade;
        f.verdict = Verdict::unproven;
        f.happened = from.ms;
        f.measured = to_text(Instant{outage.front().until_ms} - from) + " without checks";
        f.limit_text = "every check that is owed";
        f.detail = "Not checked: " + joined(covered, ", ") + ".";
        f.day = day.day;
        f.week = day.week;
        mine.push_back(std::move(f));
    }
    merge_findings(d, ledger.rows().findings_at(seq), mine);
    return {};
}

}  // namespace peelbook::fold
