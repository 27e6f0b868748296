// Owed time of calendars worked by hand; the working stands beside each. Dates and clock changes of Europe/Berlin: on 2026-03-29 the
// clock goes from 02:00 to 03:00 (+01:00 to +02:00), on 2026-10-25 from 03:00 back to 02:00 (tz database).
#include "judge/owed_time.h"

#include <catch2/catch.hpp>

using namespace peelbook;
using judge::first_shift;
using judge::OwedTime;
using judge::Span;

namespace {

const Zone berlin = *Zone::named("Europe/Berlin");

Instant at(const std::string& text) { return *parse_when(text, berlin, {4'000'000'000'000}); }

plan::Shift shift(int from, int until, std::vector<std::string> days = {}) { return {"s", "s", from * 60, until * 60, std::move(days)}; }

struct House {
    plan::Plan plan;
    plan::Interval interval;
    explicit House(Duration every) { interval.every = every; }
    OwedTime time(std::vector<Span> outages = {}) const { return {plan, interval, berlin, std::move(outages)}; }
    Duration between(const std::string& from, const std::string& until) const { return time().between(at(from), at(until)); }
    Instant due(const std::string& last) const { return time().due(at(last)); }
};

House night_bakery(Duration every) {  // 22:00 to 06:00, begun from Sunday to Friday
    House house(every);
    house.plan.shifts = {shift(22, 6)};
    house.plan.calendar.open = {"sun", "mon", "tue", "wed", "thu", "fri"};
    return house;
}

}  // namespace

TEST_CASE("rule 11: a house without calendar, shifts or hours owes all the time") {
    const House house(hours(2));
    CHECK(house.between("2026-11-16 06:00", "2026-11-16 08:40") == minutes(160));
    CHECK(house.due("2026-11-16 06:00") == at("2026-11-16 08:00"));
    CHECK(first_shift(house.plan, berlin, at("2026-11-16 06:00")) == at("2026-11-16 06:00"));
    CHECK(house.time().closed(at("2026-11-16 06:00"), at("2026-11-18 06:00")).empty());
    // 30 days that hold the end of summer time are 30 x 24 h, whatever the clock says then.
    House monthly(days(30));
    CHECK(monthly.due("2026-10-01 08:00") == at("2026-10-31 07:00"));
}

TEST_CASE("a point's own hours, and the last moment that is in time") {
    House house(hours(2));
    house.interval.from_minutes = 6 * 60;
    house.interval.until_minutes = 18 * 60;
    // 17:00 to 18:00 and 06:00 to 07:00 are 2 h.
    CHECK(house.between("2026-11-16 17:00", "2026-11-17 07:00") == hours(2));
    CHECK(house.due("2026-11-16 17:00") == at("2026-11-17 07:00"));
    // From 16:00 two hours are full as the hours end; more of them go by from 06:00 on only.
    CHECK(house.due("2026-11-16 16:00") == at("2026-11-17 06:00"));
    CHECK(house.between("2026-11-16 16:00", "2026-11-17 06:00") == hours(2));
}

TEST_CASE("a night shift over both clock changes") {
    const House house = night_bakery(hours(2));
    // Begun on Saturday it is not worked, so these nights are those from Friday, and from Sunday.
    CHECK(house.between("2026-03-27 12:00", "2026-03-28 12:00") == hours(8));  // Friday 22:00 to Saturday 06:00
    CHECK(house.between("2026-03-28 12:00", "2026-03-29 12:00") == Duration{});
    House every_night(hours(2));
    every_night.plan.shifts = {shift(22, 6)};
    // 22:00 +01:00 is 21:00 UTC, 06:00 +02:00 is 04:00 UTC: 7 h. In October 20:00 UTC to 05:00 UTC: 9 h.
    CHECK(every_night.between("2026-03-28 12:00", "2026-03-29 12:00") == hours(7));
    CHECK(every_night.between("2026-10-24 12:00", "2026-10-25 12:00") == hours(9));
    // 01:30 +01:00 and two hours: the clock then says 04:30. In October 01:30 +02:00 and two hours is 02:30 +01:00.
    CHECK(every_night.due("2026-03-29 01:30") == at("2026-03-29 04:30"));
    CHECK(every_night.due("2026-10-25 01:30") == at("2026-10-25T02:30+01:00"));
}

TEST_CASE("a shift whose end the clock skips, or shows twice") {
    House house(hours(1));
    house.plan.shifts = {{"s", "s", 22 * 60, 2 * 60 + 30, {}}};
    // 02:30 on 2026-03-29 does not exist: the first moment after it is 03:00 +02:00, 01:00 UTC; from 21:00 UTC that is 4 h.
    CHECK(house.between("2026-03-28 12:00", "2026-03-29 12:00") == hours(4));
    // 02:30 on 2026-10-25 comes twice: the first is 00:30 UTC; from 20:00 UTC that is 4:30.
    CHECK(house.between("2026-10-24 12:00", "2026-10-25 12:00") == minutes(270));
    House gone(hours(1));
    gone.plan.shifts = {{"s", "s", 2 * 60, 2 * 60 + 30, {}}};  // 02:00 to 02:30: both ends are 03:00 +02:00 that night
    CHECK(gone.between("2026-03-28 12:00", "2026-03-29 12:00") == Duration{});
    CHECK(gone.between("2026-03-29 12:00", "2026-03-30 12:00") == minutes(30));
}

TEST_CASE("a night shift into a closed day runs to its end; one on the closed day is not worked") {
    House house(hours(4));
    house.plan.shifts = {shift(22, 6)};
    house.plan.calendar.closed = {{2026, 12, 25}, {2026, 12, 26}};
    // Begun on the 24th: to 06:00 on the 25th. None on the 25th and 26th. The next begins on the 27th at 22:00.
    CHECK(house.between("2026-12-24 12:00", "2026-12-27 12:00") == hours(8));
    // 04:00 to 06:00 is 2 h, the other 2 are from 22:00 on the 27th.
    CHECK(house.due("2026-12-25 04:00") == at("2026-12-28 00:00"));
    CHECK(first_shift(house.plan, berlin, at("2026-12-25 04:00")) == at("2026-12-27 22:00"));
    CHECK(house.time().closed(at("2026-12-25 04:00"), at("2026-12-27 23:00")) ==
          std::vector<Span>{{at("2026-12-25 06:00"), at("2026-12-27 22:00")}});
}

TEST_CASE("a holiday of a house without shifts") {
    House house(hours(4));
    house.plan.calendar.closed = {{2026, 12, 25}, {2026, 12, 26}};
    // 22:00 to midnight is 2 h; the other 2 are from 00:00 on the 27th.
    CHECK(house.due("2026-12-24 22:00") == at("2026-12-27 02:00"));
    CHECK(house.between("2026-12-24 22:00", "2026-12-27 03:00") == hours(5));
}

TEST_CASE("week 53: over the new year the weekdays go on") {
    // 2026-W53 is Monday 28 December 2026 to Sunday 3 January 2027. Open Monday to Friday, closed on 1 January (its Friday).
    House house(hours(2));
    house.plan.shifts = {shift(6, 14)};
    house.plan.calendar.open = {"mon", "tue", "wed", "thu", "fri"};
    house.plan.calendar.closed = {{2027, 1, 1}};
    // Monday to Thursday, 4 x 8 h.
    CHECK(house.between("2026-12-28 00:00", "2027-01-04 00:00") == hours(32));
    // Thursday 13:00 to 14:00 is 1 h, the other from Monday 4 January 06:00.
    CHECK(house.due("2026-12-31 13:00") == at("2027-01-04 07:00"));
    CHECK(first_shift(house.plan, berlin, at("2026-12-31 06:01")) == at("2027-01-04 06:00"));
}

TEST_CASE("shifts that meet or overlap count once, and a shift may begin on days of its own") {
    House house(hours(2));
    house.plan.shifts = {shift(6, 14), shift(13, 20), shift(22, 4, {"sun"})};
    house.plan.calendar.open = {"mon"};
    // Monday 16 November: 06:00 to 20:00, 14 h. Sunday the 15th, not an open day: 22:00 to 04:00, 6 h.
    CHECK(house.between("2026-11-15 00:00", "2026-11-17 00:00") == hours(20));
    CHECK(first_shift(house.plan, berlin, at("2026-11-15 00:00")) == at("2026-11-15 22:00"));
    CHECK(first_shift(house.plan, berlin, at("2026-11-16 06:01")) == at("2026-11-16 13:00"));
    CHECK(first_shift(house.plan, berlin, at("2026-11-16 06:00")) == at("2026-11-16 06:00"));
    // Closed on a Sunday, its night shift is not worked either.
    house.plan.calendar.closed = {{2026, 11, 15}};
    CHECK(house.between("2026-11-15 00:00", "2026-11-17 00:00") == hours(14));
    CHECK(first_shift(house.plan, berlin, at("2026-11-15 00:00")) == at("2026-11-16 06:00"));
}

TEST_CASE("an interval of a day or more counts open days whole") {
    House house(days(1));
    house.plan.shifts = {shift(6, 14)};
    house.plan.calendar.open = {"mon", "tue", "wed", "thu", "fri"};
    CHECK(house.due("2026-11-16 10:00") == at("2026-11-17 10:00"));  // Monday to Tuesday, not to Thursday
    CHECK(house.due("2026-11-20 10:00") == at("2026-11-23 10:00"));  // Friday to Monday
}

TEST_CASE("outages are taken out, also those that overlap") {
    House house(hours(2));
    const std::vector<Span> outages{{at("2026-11-16 07:00"), at("2026-11-16 09:00")}, {at("2026-11-16 08:00"), at("2026-11-16 10:00")}};
    const OwedTime time = house.time(outages);
    // 06:00 to 07:00 and 10:00 to 11:00.
    CHECK(time.due(at("2026-11-16 06:00")) == at("2026-11-16 11:00"));
    CHECK(time.between(at("2026-11-16 06:00"), at("2026-11-16 12:00")) == hours(3));
    // Two hours are full as the outage begins: in time until it is over.
    CHECK(time.due(at("2026-11-16 05:00")) == at("2026-11-16 10:00"));
    CHECK(time.closed(at("2026-11-16 05:00"), at("2026-11-16 12:00")).empty());
}

TEST_CASE("closed hours: the last that ended, and when it opens again") {
    const House house = night_bakery(hours(1));
    const OwedTime time = house.time();
    // Worked: Thursday 19th 22:00 to Friday 06:00, Friday 22:00 to Saturday 06:00, Sunday 22:00 to Monday 06:00.
    CHECK(time.closed_last(at("2026-11-20 23:00"), at("2026-11-22 23:00")) == Span{at("2026-11-21 06:00"), at("2026-11-22 22:00")});
    CHECK(time.closed_last(at("2026-11-20 12:00"), at("2026-11-20 22:00")) == Span{at("2026-11-20 06:00"), at("2026-11-20 22:00")});
    CHECK_FALSE(time.closed_last(at("2026-11-20 23:00"), at("2026-11-22 21:59")).has_value());
    CHECK(time.reopens(at("2026-11-21 06:00")) == at("2026-11-22 22:00"));
    CHECK(time.reopens(at("2026-11-22 22:00")) == at("2026-11-22 22:00"));
    CHECK_FALSE(House(hours(1)).time().reopens(at("2026-11-22 22:00")).has_value());
}
