// parse_when of zone.h: a time as a person types it.
#include <fmt/format.h>

#include <array>

#include "base/text.h"
#include "base/zone.h"

namespace peelbook {
namespace {

constexpr Duration furthest_back = hours(12);
constexpr std::int64_t largest_offset_minutes = 14 * 60;

struct ClockTime {
    int hour = 0;
    int minute = 0;
    int second = 0;
    int millisecond = 0;
};

Refusal not_a_time(std::string_view text) {
    return {fmt::format("time '{}'", shown(text)),
            "a time like 05:40, yesterday 22:10, 2026-11-24 05:40 or 2026-11-24T05:40+01:00",
            "type the time again",
            {}};
}

// One or two digits at most `most`; absent otherwise.
std::optional<int> number(std::string_view text, std::size_t least_width, std::size_t most_width, int most) {
    if (text.size() < least_width || text.size() > most_width) return std::nullopt;
    int n = 0;
    for (char c : text) {
        if (c < '0' || c > '9') return std::nullopt;
        n = n * 10 + (c - '0');
    }
    return n <= most ? std::optional<int>(n) : std::nullopt;
}

// "05:40", "5:40", "05:40:30", "05:40:30.250" (three decimals).
std::optional<ClockTime> parse_clock(std::string_view text) {
    const std::vector<std::string> parts = split(text, ':');
    if (parts.size() != 2 && parts.size() != 3) return std::nullopt;
    const auto hour = number(parts[0], 1, 2, 23);
    const auto minute = number(parts[1], 2, 2, 59);
    if (!hour || !minute) return std::nullopt;
    if (parts.size() == 2) return ClockTime{*hour, *minute, 0, 0};
    const std::string_view seconds_text = parts[2];
    const auto second = number(seconds_text.substr(0, 2), 2, 2, 59);
    if (!second) return std::nullopt;
    if (seconds_text.size() == 2) return ClockTime{*hour, *minute, *second, 0};
    const auto millisecond = number(seconds_text.substr(3), 3, 3, 999);
    if (seconds_text[2] != '.' || !millisecond) return std::nullopt;
    return ClockTime{*hour, *minute, *second, *millisecond};
}

LocalTime on(Date day, const ClockTime& clock) { return {day, clock.hour, clock.minute, clock.second, clock.millisecond}; }

// "Z" or "+01:00".
std::optional<Duration> parse_offset(std::string_view text) {
    if (text == "Z" || text == "z") return Duration{0};
    if (text.size() != 6 || (text[0] != '+' && text[0] != '-') || text[3] != ':') return std::nullopt;
    const auto hour = number(text.substr(1, 2), 2, 2, 14);
    const auto minute = number(text.substr(4, 2), 2, 2, 59);
    if (!hour || !minute || *hour * 60 + *minute > largest_offset_minutes) return std::nullopt;
    const Duration size = hours(*hour) + minutes(*minute);
    return text[0] == '-' ? Duration{-size.ms} : size;
}

// "2026-11-24T05:40+01:00"
Result<Instant> with_offset(std::string_view text) {
    const auto day = parse_date(text.substr(0, 10));
    if (!day) return day.refusal();
    const std::size_t sign = text.find_first_of("Zz+-", 11);
    if (sign == std::string_view::npos)
        return Refusal{fmt::format("time '{}'", shown(text)),
                       "an offset from UTC after it, like +01:00 or Z",
                       "type the offset, or a blank instead of the T for local time",
                       {}};
    const auto clock = parse_clock(text.substr(11, sign - 11));
    const auto offset = parse_offset(text.substr(sign));
    if (!clock || !offset) return not_a_time(text);
    return *Zone::utc().from_local(on(*day, *clock)) - *offset;
}

Refusal too_far_back(std::string_view text, const Zone& zone, Instant latest, Instant now) {
    return {fmt::format("time '{}'", text),
            fmt::format("a time of the last 12 hours: the latest {} was {}, {} ago", text, to_text(zone, latest), to_text(now - latest)),
            fmt::format("type the date: 'yesterday {0}', 'today {0}' or '{1} {0}'", text, to_text(zone.to_local(now).date)),
            {}};
}

// The latest instant not after `now` at which the site's clock showed this time.
Result<Instant> latest(std::string_view text, const ClockTime& clock, const Zone& zone, Instant now) {
    const Date today = zone.to_local(now).date;
    const Instant begins = zone.day_start(today, clock.hour, clock.minute);
    const bool comes_later = begins + seconds(clock.second) + Duration{clock.millisecond} > now;
    const Date day = comes_later ? add_days(today, -1) : today;
    const Result<Instant> found = zone.from_local(on(day, clock));
    if (found && now - *found > furthest_back) return too_far_back(text, zone, *found, now);
    return found;
}

}  // namespace

Result<Instant> parse_when(std::string_view typed, const Zone& zone, Instant now) {
    const std::string_view text = trimmed(typed);
    if (text.size() > 10 && (text[10] == 'T' || text[10] == 't')) return with_offset(text);
    const std::size_t blank = text.find(' ');
    if (blank == std::string_view::npos) {
        const auto clock = parse_clock(text);
        if (!clock) return not_a_time(text);
        return latest(text, *clock, zone, now);
    }
    const std::string day_text = lowered(text.substr(0, blank));
    const auto clock = parse_clock(trimmed(text.substr(blank)));
    if (!clock) return not_a_time(text);
    const Date today = zone.to_local(now).date;
    if (day_text == "today") return zone.from_local(on(today, *clock));
    if (day_text == "yesterday") return zone.from_local(on(add_days(today, -1), *clock));
    const auto day = parse_date(day_text);
    if (!day && day_text.size() == 10) return day.refusal();
    if (!day) return not_a_time(text);
    return zone.from_local(on(*day, *clock));
}

}  // namespace peelbook
