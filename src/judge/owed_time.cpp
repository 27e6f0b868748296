#include "judge/owed_time.h"

#include <algorithm>

#include "base/text.h"

namespace peelbook::judge {
namespace {

constexpr int minutes_a_day = 24 * 60;

Span on_day(const Zone& zone, Date day, int from, int until) {
    if (until <= from) until += minutes_a_day;
    const Date end = add_days(day, until / minutes_a_day);
    until %= minutes_a_day;
    return {zone.day_start(day, from / 60, from % 60), zone.day_start(end, until / 60, until % 60)};
}

bool begins_on(const plan::Shift& shift, const plan::Calendar& calendar, Date day) {
    if (shift.days.empty()) return calendar.is_open(day);
    const auto& closed = calendar.closed;
    return std::find(closed.begin(), closed.end(), day) == closed.end() &&
           std::find(shift.days.begin(), shift.days.end(), plan::weekdays[static_cast<std::size_t>(iso_weekday(day) - 1)]) !=
               shift.days.end();
}

// In order, those that meet or overlap made one.
std::vector<Span> joined_spans(std::vector<Span> spans) {
    std::sort(spans.begin(), spans.end(), [](const Span& a, const Span& b) { return a.from < b.from; });
    std::vector<Span> out;
    for (const Span& span : spans) {
        if (span.until <= span.from) continue;  // the clock change skipped it
        if (!out.empty() && span.from <= out.back().until)
            out.back().until = std::max(out.back().until, span.until);
        else
            out.push_back(span);
    }
    return out;
}

}  // namespace

Instant first_shift(const plan::Plan& plan, const Zone& zone, Instant at) {
    if (plan.shifts.empty()) return at;
    const Date today = zone.to_local(at).date;
    const Instant furthest = at + OwedTime::furthest;
    for (Date day = today; zone.day_start(day, 0, 0) < furthest; day = add_days(day, 1)) {
        std::optional<Instant> first;
        for (const plan::Shift& shift : plan.shifts) {
            if (!begins_on(shift, plan.calendar, day)) continue;
            const Instant begin = on_day(zone, day, shift.from_minutes, shift.until_minutes).from;
            if (begin >= at && (!first || begin < *first)) first = begin;
        }
        if (first) return *first;
    }
    return furthest;
}

OwedTime::OwedTime(const plan::Plan& plan, const plan::Interval& interval, const Zone& zone, std::vector<Span> outages)
    : plan_(plan), interval_(interval), zone_(zone), outages_(joined_spans(std::move(outages))) {
    always_ = !interval.from_minutes && plan.shifts.empty() && plan.calendar.open.empty() && plan.calendar.closed.empty();
}

std::vector<Span> OwedTime::hours(Instant from, Instant until, bool whole_days) const {
    if (always_) return {{from, until}};
    std::vector<Span> spans;
    const Date last = zone_.to_local(until).date;
    for (Date day = add_days(zone_.to_local(from).date, -1); day <= last; day = add_days(day, 1)) {
        const bool open = plan_.calendar.is_open(day);
        if (whole_days || (!interval_.from_minutes && plan_.shifts.empty())) {
            if (open) spans.push_back(on_day(zone_, day, 0, minutes_a_day));
        } else if (interval_.from_minutes) {
            if (open) spans.push_back(on_day(zone_, day, *interval_.from_minutes, *interval_.until_minutes));
        } else {
            for (const plan::Shift& shift : plan_.shifts)
                if (begins_on(shift, plan_.calendar, day)) spans.push_back(on_day(zone_, day, shift.from_minutes, shift.until_minutes));
        }
    }
    spans = joined_spans(std::move(spans));
    std::erase_if(spans, [&](const Span& span) { return span.until <= from || span.from >= until; });
    return spans;
}

std::vector<Span> OwedTime::owed(Instant from, Instant until) const {
    std::vector<Span> out;
    for (Span span : hours(from, until, interval_.every >= days(1))) {
        span = {std::max(span.from, from), std::min(span.until, until)};
        for (const Span& outage : outages_) {
            if (outage.until <= span.from || outage.from >= span.until) continue;
            if (outage.from > span.from) out.push_back({span.from, outage.from});
            span.from = std::min(outage.until, span.until);
        }
        if (span.from < span.until) out.push_back(span);
    }
    return out;
}

Duration OwedTime::between(Instant from, Instant until) const {
    Duration sum{};
    for (const Span& span : owed(from, until)) sum = sum + (span.until - span.from);
    return sum;
}

Instant OwedTime::due(Instant last) const {
    const Duration most = interval_.every + furthest;
    for (Duration ahead = interval_.every + days(8);; ahead = std::min(Duration{ahead.ms * 8}, most)) {
        Duration left = interval_.every;
        for (const Span& span : owed(last, last + ahead)) {
            if (span.until - span.from > left) return span.from + left;
            left = left - (span.until - span.from);
        }
        if (ahead >= most) return last + most;
    }
}

std::vector<Span> OwedTime::closed(Instant from, Instant until) const {
    std::vector<Span> out;
    for (const Span& open : hours(from, until, false)) {
        if (open.from > from) out.push_back({from, open.from});
        from = open.until;
    }
    if (from < until) out.push_back({from, until});
    return out;
}

std::optional<Span> OwedTime::closed_last(Instant from, Instant until) const {
    std::optional<Span> last;
    for (const Span& open : hours(from, until + Duration{1}, false))
        if (open.from > from) last = {from, open.from};
    if (!last || always_) return {};
    for (Duration back = days(8);; back = std::min(Duration{back.ms * 8}, furthest)) {
        const auto before = hours(last->until - back, last->until, false);
        last->from = before.empty() ? last->until - back : before.back().until;
        if (!before.empty() || back >= furthest) return last;
    }
}

std::optional<Instant> OwedTime::reopens(Instant at) const {
    if (always_) return {};
    for (Duration ahead = days(8);; ahead = std::min(Duration{ahead.ms * 8}, furthest)) {
        for (const Span& open : hours(at, at + ahead, false))
            if (open.from >= at) return open.from;
        if (ahead >= furthest) return {};
    }
}

}  // namespace peelbook::judge
