#pragma once
// Civil dates of the proleptic Gregorian calendar, ISO 8601 weeks. No time zone here.
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"

namespace peelbook {

struct Date {
    int year = 1970;
    int month = 1;  // 1 to 12
    int day = 1;    // 1 to 31
    auto operator<=>(const Date&) const = default;
};

struct IsoWeek {
    int year = 1970;  // the ISO year, which owns the week's Thursday
    int week = 1;     // 1 to 53
    auto operator<=>(const IsoWeek&) const = default;
};

// Days since 1970-01-01, and back.
std::int64_t to_days(Date d);
Date from_days(std::int64_t days);

bool exists(Date d);       // false for 30 February
int iso_weekday(Date d);   // Monday 1 to Sunday 7
IsoWeek iso_week(Date d);  // ISO 8601: week 1 holds the year's first Thursday
int weeks_in_iso_year(int year);
Date monday_of(IsoWeek w);
Date add_days(Date d, std::int64_t n);

std::string to_text(Date d);                            // "2026-11-24"
std::string to_text(IsoWeek w);                         // "2026-W47"
Result<Date> parse_date(std::string_view text);         // "2026-11-24" only
Result<IsoWeek> parse_iso_week(std::string_view text);  // "2026-W47" only

}  // namespace peelbook
