#include "fold/owed/gap.h"

#include <algorithm>

#include "fold/owed/closed_hours.h"

namespace peelbook::fold {
namespace {

std::optional<Gap> gap_of(PlaceOwing& owing, const Owing& owed, std::optional<Instant> next) {
    const auto end = owed.dropped && (!next || *owed.dropped < *next) ? owed.dropped : next;
    if (!end || *end <= owed.due) return {};
    const auto time = owing.time(owed.by, owed.since);
    const Duration length = time.between(owed.since, *end);
    return Gap{judge::judge_gap(owing.point(owed.by), owed.due, length, time.between(owed.due, *end)), owed.by, length};
}

}  // namespace

std::optional<Gap> gap_after(Ledger& ledger, PlaceOwing& owing, const PlaceMoments& moments, Instant from, std::optional<Instant> next) {
    const auto owed = owing.after(from);
    if (!owed) return {};
    if (auto gap = gap_of(owing, *owed, next)) return gap;
    if (!next) return {};
    const auto closed = closed_hours(ledger, owing, owed->by, from, *next);
    if (!closed || !moments.first(closed->by + Duration{1})) return {};
    const Duration length = closed->hours.until - closed->hours.from;
    return Gap{judge::judge_closed_hours(owing.point(owed->by), closed->by, length, closed->wanted), owed->by, length};
}

std::optional<Gap> gap_since_adoption(Ledger& ledger, PlaceOwing& owing, const PlaceMoments& moments, std::size_t version) {
    return gap_of(owing, owing.from_adoption(version), moments.first({ledger.plan_versions()[version].from_ms}));
}

}  // namespace peelbook::fold
