#include "fold/owed_time.h"

#include <algorithm>

namespace peelbook::fold {
namespace {

constexpr int minutes_a_day = 24 * 60;
constexpr int days_ahead = 31;

struct Owed {
    Instant from, until;
};

// The owed stretches that touch one local day; hours that pass midnight ("20:00-04:00") belong to the day they begin.
std::optional<Owed> owed_on(const plan::Interval& interval, const plan::Site& site, const Zone& zone, Date day) {
    if (std::find(site.holidays.begin(), site.holidays.end(), day) != site.holidays.end()) return {};
    const int from = interval.from_minutes.value_or(0);
    int until = interval.until_minutes.value_or(minutes_a_day);
    if (until <= from) until += minutes_a_day;
    const Date end_day = add_days(day, until / minutes_a_day);
    until %= minutes_a_day;
    return Owed{zone.day_start(day, from / 60, from % 60), zone.day_start(end_day, until / 60, until % 60)};
}

}  // namespace

Duration owed_between(const plan::Interval& interval, const plan::Site& site, const Zone& zone, Instant from, Instant until) {
    if (!interval.from_minutes && site.holidays.empty()) return until - from;
    Duration sum{};
    Date day = add_days(zone.to_local(from).date, -1);
    for (const Date last = zone.to_local(until).date; day <= last; day = add_days(day, 1)) {
        const auto owed = owed_on(interval, site, zone, day);
        if (!owed) continue;
        const Instant a = std::max(owed->from, from), b = std::min(owed->until, until);
        if (a < b) sum = sum + (b - a);
    }
    return sum;
}

Instant owed_at(const plan::Interval& interval, const plan::Site& site, const Zone& zone, Instant last) {
    if (!interval.from_minutes && site.holidays.empty()) return last + interval.every;
    Duration left = interval.every;
    Date day = add_days(zone.to_local(last).date, -1);
    for (int i = 0; i < days_ahead; ++i, day = add_days(day, 1)) {
        const auto owed = owed_on(interval, site, zone, day);
        if (!owed || owed->until <= last) continue;
        const Instant a = std::max(owed->from, last);
        if (owed->until - a >= left) return a + left;
        left = left - (owed->until - a);
    }
    return last + days(days_ahead);
}

}  // namespace peelbook::fold
