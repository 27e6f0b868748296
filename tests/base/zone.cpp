// Local time and clock changes. Expected values: the IANA time zone database (2026 rules of Berlin and New
// York).
#include "base/zone.h"

#include <catch2/catch.hpp>

#include "said.h"

using namespace peelbook;

namespace {

Zone zone(std::string_view name) {
    Result<Zone> found = Zone::named(name);
    INFO(name);
    REQUIRE(found);
    return *found;
}

Instant utc(Date date, int hour, int minute, int second = 0) { return *Zone::utc().from_local({date, hour, minute, second, 0}); }

std::string read_as(std::string_view text, const Zone& zone, Instant now) {
    const Result<Instant> when = parse_when(text, zone, now);
    return when ? to_iso(zone, *when) : said(when);
}

}  // namespace

TEST_CASE("Instants and lengths of time as text") {
    CHECK(to_iso(Instant{0}) == "1970-01-01T00:00:00.000Z");
    CHECK(to_iso(Instant{-1}) == "1969-12-31T23:59:59.999Z");
    CHECK(to_iso(Instant{1'000'000'000'000}) == "2001-09-09T01:46:40.000Z");  // `date -u -d @1000000000`
    CHECK(to_text(hours(2) + minutes(5)) == "2:05");
    CHECK(to_text(hours(2) + minutes(5) + seconds(30)) == "2:05:30");
    CHECK(to_text(minutes(-10)) == "-0:10");
    CHECK(to_text(days(2)) == "48:00");
    CHECK(to_text(Duration{1'500}) == "0:00:01.500");
    CHECK(to_text(Duration{}) == "0:00");
}

TEST_CASE("Local time in summer and winter") {
    const Zone berlin = zone("Europe/Berlin");
    CHECK(berlin.name() == "Europe/Berlin");
    CHECK(to_iso(berlin, utc({2026, 11, 24}, 4, 40)) == "2026-11-24T05:40:00+01:00");
    CHECK(to_iso(berlin, utc({2026, 7, 1}, 22, 30)) == "2026-07-02T00:30:00+02:00");
    CHECK(to_iso(zone("America/New_York"), utc({2026, 11, 24}, 4, 40)) == "2026-11-23T23:40:00-05:00");
    CHECK(to_iso(zone("Asia/Kathmandu"), utc({2026, 1, 1}, 0, 0)) == "2026-01-01T05:45:00+05:45");
    CHECK(to_iso(zone("UTC"), utc({2026, 1, 1}, 0, 0)) == "2026-01-01T00:00:00+00:00");
    CHECK(to_text(berlin, utc({2026, 11, 24}, 4, 40, 7)) == "2026-11-24 05:40");
    CHECK(to_text(berlin, utc({2026, 11, 24}, 4, 40, 7), true) == "2026-11-24 05:40:07");
    CHECK(clock_text(berlin, utc({2026, 11, 24}, 4, 40)) == "05:40");
}

// 20:00 to 08:00 on the clock: 11 hours over 29 March, 13 hours over 25 October.
TEST_CASE("A night across a clock change has 11 or 13 hours") {
    const Zone berlin = zone("Europe/Berlin");
    const auto night = [&](Date evening) {
        return *berlin.from_local({add_days(evening, 1), 8, 0, 0, 0}) - *berlin.from_local({evening, 20, 0, 0, 0});
    };
    CHECK(night({2026, 3, 28}) == hours(11));
    CHECK(night({2026, 10, 24}) == hours(13));
    CHECK(night({2026, 11, 24}) == hours(12));
}

TEST_CASE("A local time that is skipped or occurs twice is refused with both offsets") {
    const Zone berlin = zone("Europe/Berlin");
    CHECK(said(berlin.from_local({{2026, 10, 25}, 2, 30, 0, 0})) ==
          "local time 2026-10-25 02:30 in Europe/Berlin | 02:30 occurs twice on 2026-10-25: +02:00 and "
          "+01:00 | "
          "type the one that is meant, with its offset: 2026-10-25T02:30+02:00 or 2026-10-25T02:30+01:00");
    CHECK(said(berlin.from_local({{2026, 3, 29}, 2, 30, 0, 0})) ==
          "local time 2026-03-29 02:30 in Europe/Berlin | 02:30 does not occur on 2026-03-29: the clock went "
          "from "
          "+01:00 to +02:00 | type the one that is meant, with its offset: 2026-03-29T02:30+01:00 or "
          "2026-03-29T02:30+02:00");
    const Zone new_york = zone("America/New_York");
    CHECK(said(new_york.from_local({{2026, 11, 1}, 1, 30, 0, 0})) ==
          "local time 2026-11-01 01:30 in America/New_York | 01:30 occurs twice on 2026-11-01: -04:00 and "
          "-05:00 | "
          "type the one that is meant, with its offset: 2026-11-01T01:30-04:00 or 2026-11-01T01:30-05:00");
    // The edges: 02:00 is the first that occurs twice, 03:00 the first that is clear again.
    CHECK_FALSE(berlin.from_local({{2026, 10, 25}, 2, 0, 0, 0}));
    CHECK(*berlin.from_local({{2026, 10, 25}, 1, 59, 59, 999}) == utc({2026, 10, 24}, 23, 59, 59) + Duration{999});
    CHECK(*berlin.from_local({{2026, 10, 25}, 3, 0, 0, 0}) == utc({2026, 10, 25}, 2, 0));
    CHECK(*berlin.from_local({{2026, 3, 29}, 3, 0, 0, 0}) == utc({2026, 3, 29}, 1, 0));
    CHECK_FALSE(berlin.from_local({{2026, 3, 29}, 2, 59, 59, 0}));
}

TEST_CASE("The two instants of a time that occurs twice") {
    const Zone berlin = zone("Europe/Berlin");
    const Instant now = utc({2026, 10, 25}, 6, 0);
    CHECK(*parse_when("2026-10-25T02:30+02:00", berlin, now) == utc({2026, 10, 25}, 0, 30));
    CHECK(*parse_when("2026-10-25T02:30+01:00", berlin, now) == utc({2026, 10, 25}, 1, 30));
    const Zone new_york = zone("America/New_York");
    CHECK(*parse_when("2026-11-01T01:30-04:00", new_york, now) == utc({2026, 11, 1}, 5, 30));
    CHECK(*parse_when("2026-11-01T01:30-05:00", new_york, now) == utc({2026, 11, 1}, 6, 30));
}

TEST_CASE("A production day across a clock change") {
    const Zone berlin = zone("Europe/Berlin");
    const auto length = [&](Date day, int hour, int minute) {
        return berlin.day_start(add_days(day, 1), hour, minute) - berlin.day_start(day, hour, minute);
    };
    CHECK(length({2026, 3, 28}, 4, 0) == hours(23));
    CHECK(length({2026, 10, 24}, 4, 0) == hours(25));
    CHECK(length({2026, 11, 24}, 4, 0) == hours(24));
    CHECK(berlin.day_start({2026, 3, 29}, 2, 30) == utc({2026, 3, 29}, 1, 0));     // skipped: 03:00 summer time
    CHECK(berlin.day_start({2026, 10, 25}, 2, 30) == utc({2026, 10, 25}, 0, 30));  // twice: the first
    CHECK(berlin.day_start({2026, 11, 24}, 2, 30) == utc({2026, 11, 24}, 1, 30));
    CHECK(Zone::utc().day_start({2026, 3, 29}, 2, 30) == utc({2026, 3, 29}, 2, 30));
}

TEST_CASE("A zone that is not in the database is refused with the nearest names") {
    CHECK(said(Zone::named("Europe/Berlni")) ==
          "time zone 'Europe/Berlni' | a name of the IANA time zone database, like Europe/Berlin or "
          "America/New_York | "
          "check the spelling | Europe/Berlin");
    CHECK(Zone::named("europe/berlin").refusal().nearest.front() == "Europe/Berlin");
    for (const std::string name : {"", ".", "..", "Europe", "/", "../Europe/Berlin", "tzdata.zi", "zone.tab", "Mars/Base"})
        CHECK(said(Zone::named(name)).starts_with("time zone '" + name + "' | a name of the IANA time zone database"));
}

TEST_CASE("rule 13: a bare time is the latest one, and within 12 hours") {
    const Zone berlin = zone("Europe/Berlin");
    const Instant now = utc({2026, 11, 24}, 4, 55);  // 05:55 on the site's clock
    CHECK(read_as("05:40", berlin, now) == "2026-11-24T05:40:00+01:00");
    CHECK(read_as("5:40", berlin, now) == "2026-11-24T05:40:00+01:00");
    CHECK(read_as("05:40:30", berlin, now) == "2026-11-24T05:40:30+01:00");
    CHECK(read_as("05:55", berlin, now) == "2026-11-24T05:55:00+01:00");
    CHECK(read_as("23:50", berlin, now) == "2026-11-23T23:50:00+01:00");
    CHECK(read_as("17:55", berlin, now) == "2026-11-23T17:55:00+01:00");  // exactly 12 hours
    CHECK(read_as("17:54", berlin, now) ==
          "time '17:54' | a time of the last 12 hours: the latest 17:54 was 2026-11-23 17:54, 12:01 ago | "
          "type the date: 'yesterday 17:54', 'today 17:54' or '2026-11-24 17:54'");
    CHECK(read_as("05:56", berlin, now) ==
          "time '05:56' | a time of the last 12 hours: the latest 05:56 was 2026-11-23 05:56, 23:59 ago | "
          "type the date: 'yesterday 05:56', 'today 05:56' or '2026-11-24 05:56'");
}

TEST_CASE("A bare time on the day of a clock change") {
    const Zone berlin = zone("Europe/Berlin");
    const std::string twice =
        "local time 2026-10-25 02:30 in Europe/Berlin | 02:30 occurs twice on 2026-10-25: +02:00 and +01:00 "
        "| "
        "type the one that is meant, with its offset: 2026-10-25T02:30+02:00 or 2026-10-25T02:30+01:00";
    CHECK(read_as("02:30", berlin, utc({2026, 10, 25}, 4, 0)) == twice);
    CHECK(read_as("02:30", berlin, utc({2026, 10, 25}, 0, 45)) == twice);  // between the two
    CHECK(read_as("01:30", berlin, utc({2026, 10, 25}, 4, 0)) == "2026-10-25T01:30:00+02:00");
    CHECK(read_as("22:00", berlin, utc({2026, 10, 25}, 0, 45)) == "2026-10-24T22:00:00+02:00");
    CHECK(read_as("02:30", berlin, utc({2026, 3, 29}, 4, 0)) ==
          "local time 2026-03-29 02:30 in Europe/Berlin | 02:30 does not occur on 2026-03-29: the clock went "
          "from "
          "+01:00 to +02:00 | type the one that is meant, with its offset: 2026-03-29T02:30+01:00 or "
          "2026-03-29T02:30+02:00");
    // 12 hours are true hours: 20:00 to 08:59 on the clock over the short night is 11:59.
    CHECK(read_as("20:00", berlin, utc({2026, 3, 29}, 6, 59)) == "2026-03-28T20:00:00+01:00");
}

TEST_CASE("Times with their date") {
    const Zone berlin = zone("Europe/Berlin");
    const Instant now = utc({2026, 11, 24}, 4, 55);
    CHECK(read_as("yesterday 22:10", berlin, now) == "2026-11-23T22:10:00+01:00");
    CHECK(read_as("Today 05:40", berlin, now) == "2026-11-24T05:40:00+01:00");
    CHECK(read_as("today 23:00", berlin, now) == "2026-11-24T23:00:00+01:00");  // the future is the caller's rule
    CHECK(read_as("2026-07-01 05:40", berlin, now) == "2026-07-01T05:40:00+02:00");
    CHECK(read_as("2026-07-01 05:40:30", berlin, now) == "2026-07-01T05:40:30+02:00");
    CHECK(read_as(" 2026-11-24T05:40+01:00 ", berlin, now) == "2026-11-24T05:40:00+01:00");
    CHECK(read_as("2026-11-24T05:40:30Z", berlin, now) == "2026-11-24T06:40:30+01:00");
    CHECK(read_as("2026-11-24T05:40-05:00", berlin, now) == "2026-11-24T11:40:00+01:00");
    CHECK(parse_when("2026-11-24T05:40:00.250Z", berlin, now)->ms % 1000 == 250);
}

TEST_CASE("Anything else is no time") {
    const Zone berlin = zone("Europe/Berlin");
    const Instant now = utc({2026, 11, 24}, 4, 55);
    for (const std::string text : {"", "5", "0540", "24:00", "05:60", "05:40:60", "05:4", "05:40pm", "05h40", "-05:40",
                                   "05:40:", "tomorrow 05:40", "today", "today 5", "2026-11-24T05:40+1", "2026-11-24T05:40+14:30",
                                   "2026-11-24T05:40+15:00", "2026-11-24T25:00Z", "2026-11-24T05:40:30.25Z"})
        CHECK(read_as(text, berlin, now) == "time '" + text +
                                                "' | a time like 05:40, yesterday 22:10, 2026-11-24 05:40 or 2026-11-24T05:40+01:00 | "
                                                "type the time again");
    CHECK(read_as("24.11.2026 05:40", berlin, now) ==
          "date '24.11.2026' | a date as year-month-day, like 2026-11-24 | type the date again");
    CHECK(read_as("2026-11-31 05:40", berlin, now) == "date '2026-11-31' | a date that is in the calendar | check the day and the month");
    CHECK(read_as("2026-11-24T05:40", berlin, now) ==
          "time '2026-11-24T05:40' | an offset from UTC after it, like +01:00 or Z | "
          "type the offset, or a blank instead of the T for local time");
}
