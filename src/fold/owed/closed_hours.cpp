#include "fold/owed/closed_hours.h"

#include <algorithm>

#include "plan/words.h"

namespace peelbook::fold {
namespace {

bool is_asked(const plan::Interval& interval) {
    return interval.closed != plan::Closed::unsaid && interval.closed != plan::Closed::nothing;
}

// The units under which the extremes of a range are read: "max" where something lies above, "min" below.
std::vector<std::string> extremes_of(const plan::Point& point) {
    std::vector<std::string> units;
    if (const auto* range = std::get_if<plan::RangeLimit>(&point.limit)) {
        if (range->most) units.emplace_back("max");
        if (range->least) units.emplace_back("min");
    }
    return units;
}

bool alarm_was_good(Ledger& ledger, const plan::Point& alarm, Instant closing) {
    const auto last = ledger.rows().reading_before(alarm.place, alarm.id, closing.ms, 0);
    if (!last) return false;
    const auto verdict = ledger.rows().finding(last->seq, alarm.id, 0);
    if (!verdict || verdict->verdict != Verdict::within) return false;
    const auto owing = PlaceOwing(ledger, alarm.place, alarm.id).after({last->happened});
    return owing && owing->due >= closing;
}

std::string wanted_words(const plan::Point& point) {
    switch (point.interval->closed) {
        case plan::Closed::min_max: {
            std::string units;
            for (const auto& unit : extremes_of(point)) units += (units.empty() ? "a " : " and a ") + unit;
            return units + " reading, or a logger's file";
        }
        case plan::Closed::alarm:
            return "the alarm of " + point.interval->alarm + " tested good before, or a logger's file";
        case plan::Closed::logger:
        case plan::Closed::unsaid:
        case plan::Closed::nothing:
            return "a logger's file";
    }
    return {};
}

bool is_shown(Ledger& ledger, const plan::Plan& plan, const plan::Point& point, Instant closing, Instant reopening, Instant by) {
    if (point.interval->closed == plan::Closed::alarm) {
        const plan::Point* alarm = plan.point(point.interval->alarm);
        return alarm && alarm_was_good(ledger, *alarm, closing);
    }
    if (point.interval->closed != plan::Closed::min_max) return false;
    const auto readings = ledger.rows().readings_of_place(point.place, point.id, reopening.ms, by.ms + 1);
    const auto extremes = extremes_of(point);
    return std::all_of(extremes.begin(), extremes.end(), [&](const std::string& unit) {
        return std::any_of(readings.begin(), readings.end(), [&](const auto& r) { return r.unit == unit && !r.voided_by; });
    });
}

}  // namespace

std::optional<ClosedHours> closed_hours(Ledger& ledger, PlaceOwing& owing, const GoverningPlan& by, Instant from, Instant next) {
    const plan::Point& point = owing.point(by);
    if (!is_asked(*point.interval) || next - from <= point.interval->every) return {};
    const auto time = owing.time(by, from);
    const auto closed = time.closed(from, next);
    if (closed.empty()) return {};
    const judge::Span hours{closed.front().from, closed.back().until};
    const auto reopening = hours.until < next ? hours.until : time.reopens(next);
    if (!reopening) return {};
    const Instant until = time.due(*reopening);
    if (is_shown(ledger, *by.plan, point, hours.from, *reopening, until)) return {};
    return ClosedHours{hours, until, wanted_words(point)};
}

std::optional<Instant> decides_from(PlaceOwing& owing, const PlaceMoments& moments, const GoverningPlan& by, Instant before, Instant at) {
    const plan::Interval& interval = *owing.point(by).interval;
    if (!is_asked(interval)) return {};
    const auto time = owing.time(by, before - judge::OwedTime::furthest);
    std::optional<Instant> from;
    for (Instant start = before, end = at;;) {
        const auto hours = time.closed_last(start - interval.every - Duration{1}, end);
        if (!hours || time.due(hours->until) < before) return from;
        const auto earlier = moments.before(hours->from + Duration{1});
        if (!earlier) return from;
        if (*earlier < start) from = start = *earlier;
        end = hours->from;
    }
}

std::optional<ClosedHours> open_closed_hours(Ledger& ledger, PlaceOwing& owing, const PlaceMoments& moments, const GoverningPlan& by,
                                             Instant last, Instant now) {
    const plan::Interval& interval = *owing.point(by).interval;
    if (!is_asked(interval)) return {};
    const auto time = owing.time(by, last - judge::OwedTime::furthest);
    const auto hours = time.closed_last(last - interval.every - Duration{1}, now);
    if (!hours || time.due(hours->until) < last) return {};
    auto from = moments.before(hours->from + Duration{1});
    while (from && *from < hours->until) {
        const Instant reached = moments.before(*from + interval.every + Duration{1}).value_or(*from);
        if (reached > *from) {  // no step on the way was longer than the interval
            from = reached;
            continue;
        }
        const auto next = moments.first(*from + Duration{1});
        if (auto open = closed_hours(ledger, owing, by, *from, next && *next <= now ? *next : now)) return open;
        from = next;
    }
    return {};
}

std::string hours_text(const Zone& zone, const judge::Span& hours) {
    if (hours.until - hours.from < days(1)) return clock_text(zone, hours.from) + "-" + clock_text(zone, hours.until);
    return to_text(zone, hours.from) + " to " + to_text(zone, hours.until);
}

}  // namespace peelbook::fold
