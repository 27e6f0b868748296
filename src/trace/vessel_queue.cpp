#include "trace/vessel_queue.h"

namespace peelbook::trace {
namespace {

constexpr std::int64_t boundless = INT64_MAX / 4;  // masses can be added without overflow

}  // namespace

Queue::Queue(const VesselHistory& given)
    : history(given),
      heel_(given.heel_mg),
      smear_(given.smear_mg),
      begins_(history.fills.size(), 0),
      earliest_(begins_),
      latest_(begins_),
      none_earlier_(begins_),
      gone_(begins_.size(), boundless),
      gone_from_(begins_.size(), 0),
      group_begins_(begins_.size(), boundless),
      group_(begins_.size()) {
    for (std::size_t i = 0; i < history.fills.size(); ++i) {
        if (i == 0 || history.emptied_after(i - 1)) periods.push_back({i, i, 0, {}, {}});
        periods.back().last = i + 1;
    }
    for (std::size_t d = 0; d < history.draws.size(); ++d) {
        if (const auto p = period_at(history.draws[d].at)) periods[*p].draws.push_back(d);
    }
    for (Period& period : periods) {
        run(period);
        group(period);
        open_boundaries(period);
    }
}

Stretch Queue::written(std::size_t fill, std::size_t begun) const {
    return {begins_[fill], fill + 1 < begun ? begins_[fill + 1] : boundless};
}

Stretch Queue::widest(std::size_t fill, std::size_t begun) const {
    const std::size_t last = group_[fill].second;
    return {group_begins_[group_[fill].first] - smear_, (last < begun ? latest_[last] : boundless) + smear_};
}

Stretch Queue::narrowest(std::size_t fill, std::size_t first, std::size_t begun) const {
    if (group_[fill].second - group_[fill].first > 1) return {};
    Stretch core{latest_[fill], earliest_[fill] + history.fills[fill].mass_mg};
    if (fill > first) core.begin += smear_;
    if (fill + 1 < begun) core.end = std::min(core.end, earliest_[fill + 1] - smear_);
    if (gone_from_[fill] < begun) core.end = std::min(core.end, gone_[fill]);
    return core;
}

std::pair<std::size_t, std::size_t> Queue::near(std::size_t first, std::size_t begun, const Stretch& drawn) const {
    std::size_t low = first, high = begun - 1;  // the last fill begun has no end
    while (low < high) {
        const std::size_t middle = low + (high - low) / 2;
        if (widest(middle, begun).end > drawn.begin) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    std::size_t end = low + 1;
    // A group begins with its first fill.
    while (end < begun && none_earlier_[group_[end].first] - smear_ < drawn.end) ++end;
    return {low, end};
}

// By the times as written: the last period whose first fill has begun. Before the first fill, or after an
// emptying, the next one if the clocks allow it.
std::optional<std::size_t> Queue::period_at(std::int64_t at) const {
    std::optional<std::size_t> found;
    for (std::size_t p = 0; p < periods.size(); ++p) {
        const std::int64_t first = history.fills[periods[p].first].from;
        const bool nothing_stands = !found || at >= emptied_at(*found);
        if (first <= at || (first <= at + history.clock && nothing_stands)) found = p;
    }
    return found;
}

void Queue::run(Period& period) {
    std::size_t next = period.first + 1;  // the first fill begins at 0
    for (const std::size_t d : period.draws) {
        while (next < period.last && history.fills[next].from <= history.draws[d].at) begin(period, next++);
        period.before.push_back(period.drawn);
        period.drawn += history.draws[d].mass_mg;
    }
    while (next < period.last) begin(period, next++);
}

void Queue::begin(const Period& period, std::size_t fill) {
    const std::int64_t filled_up_to = begins_[fill - 1] + history.fills[fill - 1].mass_mg;
    begins_[fill] = std::max(filled_up_to, period.drawn + heel_);
}

// Draws near a fill may have come before or after it.
void Queue::open_boundaries(const Period& period) {
    // Not among the fills that may have been the first on an empty floor: those of the first group, and of a
    // group with an emptying in doubt.
    bool heel_stayed = false;
    group_begins_[period.first] = 0;
    for (std::size_t fill = period.first + 1; fill < period.last; ++fill) {
        const VesselFill& now = history.fills[fill];
        const std::int64_t older = history.fills[fill - 1].mass_mg;
        const std::int64_t surely = drawn_by(period, now.from - history.clock - 1);
        const std::int64_t perhaps = drawn_by(period, now.until + history.clock);
        const std::size_t leader = group_[fill].first;
        if (leader == fill) heel_stayed = true;
        earliest_[fill] = std::max(earliest_[fill - 1] + older, surely + (heel_stayed ? heel_ : 0));
        latest_[fill] = std::max(latest_[fill - 1] + older, perhaps + heel_);
        if (doubt_before(period, fill)) heel_stayed = false;
        group_begins_[leader] = std::min(group_begins_[leader], earliest_[fill]);
    }
    std::int64_t least = boundless;
    for (std::size_t fill = period.last; fill-- > period.first;) {
        least = std::min(least, earliest_[fill]);
        none_earlier_[fill] = least;
        if (fill + 1 == period.last) {
            gone_from_[fill] = history.fills.size();  // nothing came after it
        } else if (gone_[fill] == boundless) {
            gone_[fill] = gone_[fill + 1];
            gone_from_[fill] = gone_from_[fill + 1];
        }
    }
}

// An emptying that does not count, between this fill and the one before: it may have taken out all that stood
// there, and then this fill begins at once.
bool Queue::doubt_before(const Period& period, std::size_t fill) {
    const std::int64_t doubt = history.doubt_between(fill - 1, fill);
    if (doubt == OrderedHistory::never) return false;
    gone_[fill - 1] = drawn_by(period, std::min(doubt, history.fills[fill].from) - history.clock - 1);
    gone_from_[fill - 1] = fill;
    earliest_[fill] = std::min(earliest_[fill], gone_[fill - 1]);
    return true;
}

// Fills whose widened spans meet may have gone in in either order.
void Queue::group(const Period& period) {
    std::size_t first = period.first;
    std::int64_t until = history.fills[first].until;
    for (std::size_t fill = period.first; fill < period.last; ++fill) {
        if (history.fills[fill].from > until + history.clock) first = fill;
        until = first == fill ? history.fills[fill].until : std::max(until, history.fills[fill].until);
        for (std::size_t i = first; i <= fill; ++i) group_[i] = {first, fill + 1};
    }
}

// Running mass after every draw of the period at or before `at`.
std::int64_t Queue::drawn_by(const Period& period, std::int64_t at) const {
    const auto later = std::upper_bound(period.draws.begin(), period.draws.end(), at,
                                        [&](std::int64_t t, std::size_t d) { return t < history.draws[d].at; });
    const auto i = static_cast<std::size_t>(later - period.draws.begin());
    return i < period.before.size() ? period.before[i] : period.drawn;
}

}  // namespace peelbook::trace
