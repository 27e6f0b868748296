#include "simulate/owed.h"

#include <algorithm>
#include <limits>

#include "base/calendar.h"

namespace peelbook::simulate {
namespace {

constexpr Duration minute = minutes(1);
constexpr Duration furthest = days(60);  // nothing is owed later than that in a history
constexpr std::int64_t hour = 60, day = 24 * hour;

// --- the clock on the wall, and who stands below it

std::int64_t utc_minute(Instant at) { return at.ms / minute.ms; }

// Middle European summer time as it was around the histories.
std::int64_t wall_minute(Instant at) {
    const std::int64_t ends = to_days({2026, 10, 25}) * day + hour, begins = to_days({2027, 3, 28}) * day + hour;
    const std::int64_t utc = utc_minute(at);
    return utc + (utc < ends || utc >= begins ? 2 * hour : hour);
}

bool is_open(std::int64_t date) {
    static const std::set<std::int64_t> closed = {to_days({2026, 11, 19}), to_days({2026, 12, 31}), to_days({2027, 1, 1}),
                                                  to_days({2027, 3, 29})};
    const bool sunday = (date + 4) % 7 == 0;  // day 0 was a Thursday
    return !sunday && !closed.contains(date);
}

// Shifts 05:00 to 13:00, 13:00 to 20:00, and from 22:00 until 05:00 of the next day.
bool is_staffed(Instant at) {
    const std::int64_t date = wall_minute(at) / day, of_day = wall_minute(at) % day;
    if (of_day < 5 * hour) return is_open(date - 1);
    return (of_day < 20 * hour || of_day >= 22 * hour) && is_open(date);
}

bool shift_begins(Instant at) {
    const std::int64_t of_day = wall_minute(at) % day;
    return is_staffed(at) && (of_day == 5 * hour || of_day == 13 * hour || of_day == 22 * hour);
}

// The detector has hours of its own, 04:00 to 18:00.
bool has_hours(const std::string& place, Instant at) {
    if (place != "detector") return is_staffed(at);
    const std::int64_t of_day = wall_minute(at) % day;
    return of_day >= 4 * hour && of_day < 18 * hour && is_open(wall_minute(at) / day);
}

Duration every(const std::string& place, int version) { return hours(place == "chill" && version % 2 == 1 ? 3 : 4); }

}  // namespace

bool SlowCount::asked_in(const std::string& place, Instant at) const {
    if (!has_hours(place, at)) return false;
    return std::none_of(facts_.outages().begin(), facts_.outages().end(), [&](const record::Outage& outage) {
        const auto& places = outage.places;
        const bool of_it = places.empty() || std::find(places.begin(), places.end(), place) != places.end();
        return of_it && outage.from <= at && at < outage.until;
    });
}

Instant SlowCount::due(const std::string& place, int version, Instant since) const {
    Duration left = every(place, version);
    Instant at = since;
    for (; at < since + furthest; at = at + minute) {
        if (!asked_in(place, at)) continue;
        if (left < minute) return at;
        left = left - minute;
    }
    return at;
}

std::optional<Instant> SlowCount::begins(int version) const {
    const auto& adoptions = facts_.adoptions();
    Instant at = adoptions[static_cast<std::size_t>(version)].second;
    while (!shift_begins(at)) at = at + minute;
    const auto next = static_cast<std::size_t>(version) + 1;
    if (next < adoptions.size() && adoptions[next].second <= at) return {};
    return at;
}

// From a check on by the version that counted then; each later one, from its first shift on, asks for it by its own interval, but neither
// makes late what was in time nor starts anew.
std::optional<SlowCount::Answerable> SlowCount::after(const std::string& place, std::optional<Instant> check) const {
    std::optional<Answerable> out;
    for (int version = 0; version < static_cast<int>(facts_.adoptions().size()); ++version) {
        const auto begin = begins(version);
        if (!begin) continue;
        if (!out || (check && *begin <= *check)) {
            const Instant since = check ? std::max(*check, *begin) : *begin;
            out = {since, due(place, version, since), version};
        } else if (out->due >= *begin) {
            out->due = std::min(due(place, version, *begin), std::max(out->due, due(place, version, out->since)));
            out->version = version;
        }
    }
    return out;
}

std::vector<Read> SlowCount::moments(const std::string& place, Instant until) const {
    std::vector<Read> out;
    for (const auto& check : facts_.checks(place)) {
        if (check.at > until) continue;
        if (!out.empty() && out.back().at == check.at) out.pop_back();
        out.push_back(check);
    }
    return out;
}

bool SlowCount::is_gap(const std::string& place, Instant check, Instant next) const {
    const auto owed = after(place, check);
    return owed && owed->due < next;
}

// The chilled room alone has hours that somebody must show. Checks no further apart than the interval show what lies between.
std::optional<Instant> SlowCount::unshown(const std::string& place, Instant check, Instant next) const {
    const auto owed = after(place, check);
    if (place != "chill" || !owed || next - check <= every(place, owed->version)) return {};
    std::optional<Instant> opened;
    for (Instant at = check; at < next; at = at + minute)
        if (!has_hours(place, at)) opened = at + minute;
    if (!opened) return {};
    while (!has_hours(place, *opened)) *opened = *opened + minute;
    const Instant by = due(place, owed->version, *opened);
    const auto& checks = facts_.checks(place);
    const bool shown =
        std::any_of(checks.begin(), checks.end(), [&](const Read& c) { return c.unit == "max" && c.at >= *opened && c.at <= by; });
    return shown ? std::nullopt : std::optional<Instant>(by);
}

std::set<Seq> SlowCount::gaps_of(const std::string& place) const {
    std::set<Seq> out;
    const auto checks = moments(place, Instant{std::numeric_limits<std::int64_t>::max()});
    if (checks.empty()) return out;
    const auto first = after(place, {});
    if (first && first->due < checks.front().at) out.insert(facts_.adoptions().front().first);
    for (std::size_t i = 0; i + 1 < checks.size(); ++i) {
        const Instant from = checks[i].at, next = checks[i + 1].at;
        const auto by = is_gap(place, from, next) ? std::nullopt : unshown(place, from, next);
        const bool decided = by && checks.back().at > *by;  // before, a highest reading may still come
        if (is_gap(place, from, next) || decided) out.insert(checks[i].seq);
    }
    return out;
}

std::optional<Owed> SlowCount::next_of(const std::string& place, Instant now) const {
    const auto checks = moments(place, now);
    const auto owed = after(place, checks.empty() ? std::nullopt : std::optional<Instant>(checks.back().at));
    if (!owed) return {};
    Owed out{owed->since, owed->due, checks.empty(), false};
    if (checks.empty() || place != "chill") return out;
    // The closed hours that ended last, if they reach into the interval before the last check or lie behind it.
    Instant ended = now;
    while (ended > checks.front().at && !(has_hours(place, ended) && !has_hours(place, ended - minute))) ended = ended - minute;
    if (ended <= checks.front().at || due(place, owed->version, ended) < checks.back().at) return out;
    Instant begun = ended - minute;
    while (!has_hours(place, begun - minute)) begun = begun - minute;
    for (std::size_t i = 0; i < checks.size(); ++i) {
        const Instant next = i + 1 < checks.size() ? checks[i + 1].at : now;
        if (next <= begun || checks[i].at >= ended) continue;
        const auto by = unshown(place, checks[i].at, next);
        if (!by) continue;
        out.closed = true;
        out.due = std::min(out.due, *by);
        return out;
    }
    return out;
}

}  // namespace peelbook::simulate
