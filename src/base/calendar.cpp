#include "base/calendar.h"

#include <fmt/compile.h>
#include <fmt/format.h>

#include <chrono>

namespace peelbook {
namespace {

// Reads exactly `width` digits; absent when another character is among them.
std::optional<int> digits(std::string_view text, std::size_t at, std::size_t width) {
    if (at + width > text.size()) return std::nullopt;
    int n = 0;
    for (char c : text.substr(at, width)) {
        if (c < '0' || c > '9') return std::nullopt;
        n = n * 10 + (c - '0');
    }
    return n;
}

std::chrono::year_month_day civil(Date d) {
    return {std::chrono::year{d.year}, std::chrono::month{static_cast<unsigned>(d.month)}, std::chrono::day{static_cast<unsigned>(d.day)}};
}

}  // namespace

std::int64_t to_days(Date d) { return std::chrono::sys_days{civil(d)}.time_since_epoch().count(); }

Date from_days(std::int64_t days) {
    const std::chrono::year_month_day ymd{std::chrono::sys_days{std::chrono::days{static_cast<std::chrono::days::rep>(days)}}};
    return {static_cast<int>(ymd.year()), static_cast<int>(static_cast<unsigned>(ymd.month())),
            static_cast<int>(static_cast<unsigned>(ymd.day()))};
}

bool exists(Date d) { return d.month >= 1 && d.month <= 12 && d.day >= 1 && d.day <= 31 && civil(d).ok(); }

int iso_weekday(Date d) {
    // 1970-01-01 was a Thursday, weekday 4.
    const std::int64_t from_monday = (to_days(d) + 3) % 7;
    return static_cast<int>(from_monday < 0 ? from_monday + 7 : from_monday) + 1;
}

IsoWeek iso_week(Date d) {
    const Date thursday = add_days(d, 4 - iso_weekday(d));
    const std::int64_t day_of_year = to_days(thursday) - to_days({thursday.year, 1, 1});
    return {thursday.year, static_cast<int>(day_of_year / 7) + 1};
}

// 28 December is always in the last week of its ISO year.
int weeks_in_iso_year(int year) { return iso_week({year, 12, 28}).week; }

Date monday_of(IsoWeek w) {
    const Date fourth{w.year, 1, 4};  // 4 January is always in week 1
    return add_days(fourth, 1 - iso_weekday(fourth) + 7 * static_cast<std::int64_t>(w.week - 1));
}

Date add_days(Date d, std::int64_t n) { return from_days(to_days(d) + n); }

std::string to_text(Date d) { return fmt::format(FMT_COMPILE("{:04}-{:02}-{:02}"), d.year, d.month, d.day); }

std::string to_text(IsoWeek w) { return fmt::format(FMT_COMPILE("{:04}-W{:02}"), w.year, w.week); }

Result<Date> parse_date(std::string_view text) {
    const auto year = digits(text, 0, 4);
    const auto month = digits(text, 5, 2);
    const auto day = digits(text, 8, 2);
    if (text.size() != 10 || text[4] != '-' || text[7] != '-' || !year || !month || !day)
        return Refusal{fmt::format("date '{}'", text), "a date as year-month-day, like 2026-11-24", "type the date again", {}};
    const Date date{*year, *month, *day};
    if (!exists(date)) return Refusal{fmt::format("date '{}'", text), "a date that is in the calendar", "check the day and the month", {}};
    return date;
}

Result<IsoWeek> parse_iso_week(std::string_view text) {
    const auto year = digits(text, 0, 4);
    const auto week = digits(text, 6, 2);
    if (text.size() != 8 || text[4] != '-' || (text[5] != 'W' && text[5] != 'w') || !year || !week)
        return Refusal{fmt::format("week '{}'", text), "an ISO 8601 week, like 2026-W47", "type the week again", {}};
    const int last = weeks_in_iso_year(*year);
    if (*week < 1 || *week > last)
        return Refusal{fmt::format("week '{}'", text),
                       fmt::format("a week from 01 to {}: {} has {} weeks", last, *year, last),
                       "check the week number",
                       {}};
    return IsoWeek{*year, *week};
}

}  // namespace peelbook
