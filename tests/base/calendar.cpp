// ISO 8601 dates and weeks, working days.
#include "base/calendar.h"

#include <catch2/catch.hpp>
#include <chrono>

#include "said.h"

using namespace peelbook;

// ISO 8601 weeks, as computed by Python's datetime.date.isocalendar.
TEST_CASE("ISO weeks around the turn of the year") {
    struct Row {
        Date date;
        IsoWeek week;
        int weekday;
    };
    const std::vector<Row> rows{
        {{2005, 1, 1}, {2004, 53}, 6},  {{2005, 12, 31}, {2005, 52}, 6}, {{2007, 12, 31}, {2008, 1}, 1}, {{2008, 12, 29}, {2009, 1}, 1},
        {{2010, 1, 3}, {2009, 53}, 7},  {{2016, 1, 3}, {2015, 53}, 7},   {{2021, 1, 3}, {2020, 53}, 7},  {{2021, 1, 4}, {2021, 1}, 1},
        {{2024, 12, 30}, {2025, 1}, 1}, {{2026, 12, 31}, {2026, 53}, 4}, {{2027, 1, 3}, {2026, 53}, 7},
    };
    for (const Row& row : rows) {
        INFO(to_text(row.date));
        CHECK(to_text(iso_week(row.date)) == to_text(row.week));
        CHECK(iso_weekday(row.date) == row.weekday);
        CHECK(add_days(monday_of(row.week), row.weekday - 1) == row.date);
    }
}

// The same source: the years from 2000 to 2050 that have 53 weeks.
TEST_CASE("ISO years of 53 weeks") {
    std::vector<int> found;
    for (int year = 2000; year <= 2050; ++year) {
        const int weeks = weeks_in_iso_year(year);
        CHECK((weeks == 52 || weeks == 53));
        if (weeks == 53) found.push_back(year);
    }
    CHECK(found == std::vector<int>{2004, 2009, 2015, 2020, 2026, 2032, 2037, 2043, 2048});
}

// Reference: the calendar of the C++ standard library.
TEST_CASE("Day numbers and weekdays agree with std::chrono from 1900 to 2100") {
    const auto first = std::chrono::sys_days{std::chrono::year{1900} / 1 / 1};
    const auto last = std::chrono::sys_days{std::chrono::year{2100} / 12 / 31};
    for (auto day = first; day <= last; day += std::chrono::days{1}) {
        const std::chrono::year_month_day ymd{day};
        const Date date = from_days(day.time_since_epoch().count());
        REQUIRE(date.year == static_cast<int>(ymd.year()));
        REQUIRE(date.month == static_cast<int>(static_cast<unsigned>(ymd.month())));
        REQUIRE(date.day == static_cast<int>(static_cast<unsigned>(ymd.day())));
        REQUIRE(to_days(date) == day.time_since_epoch().count());
        REQUIRE(iso_weekday(date) == static_cast<int>(std::chrono::weekday{day}.iso_encoding()));
        const Date monday = monday_of(iso_week(date));
        REQUIRE(to_days(date) - to_days(monday) == iso_weekday(date) - 1);
    }
}

// Gregorian rule: a leap year every fourth, not each hundredth, but each four hundredth.
TEST_CASE("Dates that exist") {
    CHECK(exists({2024, 2, 29}));
    CHECK(exists({2000, 2, 29}));
    CHECK_FALSE(exists({2023, 2, 29}));
    CHECK_FALSE(exists({1900, 2, 29}));
    CHECK_FALSE(exists({2026, 2, 30}));
    CHECK_FALSE(exists({2026, 4, 31}));
    CHECK_FALSE(exists({2026, 0, 1}));
    CHECK_FALSE(exists({2026, 13, 1}));
    CHECK_FALSE(exists({2026, 1, 0}));
    CHECK_FALSE(exists({2026, 1, 32}));
}

TEST_CASE("Dates and weeks are read as ISO 8601 writes them, and nothing else is") {
    CHECK(*parse_date("2026-11-24") == Date{2026, 11, 24});
    CHECK(*parse_iso_week("2026-W47") == IsoWeek{2026, 47});
    CHECK(*parse_iso_week("2026-W53") == IsoWeek{2026, 53});
    CHECK(to_text(*parse_date("0999-01-09")) == "0999-01-09");

    const std::string date_next = " | a date as year-month-day, like 2026-11-24 | type the date again";
    for (const std::string text : {"", "24.11.2026", "2026-11-4", "2026-11-24 ", "2026/11/24", "20261124", "2026-1a-24"})
        CHECK(said(parse_date(text)) == "date '" + text + "'" + date_next);
    CHECK(said(parse_date("2026-02-30")) == "date '2026-02-30' | a date that is in the calendar | check the day and the month");

    CHECK(said(parse_iso_week("2026-47")) == "week '2026-47' | an ISO 8601 week, like 2026-W47 | type the week again");
    CHECK(said(parse_iso_week("2025-W53")) == "week '2025-W53' | a week from 01 to 52: 2025 has 52 weeks | check the week number");
    CHECK(said(parse_iso_week("2026-W00")) == "week '2026-W00' | a week from 01 to 53: 2026 has 53 weeks | check the week number");
}
