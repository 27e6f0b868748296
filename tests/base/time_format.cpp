// Times as machines write them. Expected instants by hand from the civil calendar; 1795498800 s is
// 2026-11-24T05:40:00Z by `date -u -d @1795498800`.
#include "base/time_format.h"

#include <catch2/catch.hpp>

#include "said.h"

using namespace peelbook;

namespace {

std::string read(const std::string& format, const std::string& text) {
    const auto known = TimeFormat::of(format);
    REQUIRE(known.ok());
    const auto time = known->read(text);
    if (!time) return "none";
    const LocalTime& t = time->local;
    const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    std::string out = to_text(t.date) + " " + two(t.hour) + ":" + two(t.minute) + ":" + two(t.second);
    if (t.millisecond > 0) out += "." + std::to_string(t.millisecond);
    if (time->offset) out += " " + to_text(*time->offset);
    return out;
}

}  // namespace

TEST_CASE("a time format reads what it describes and nothing else") {
    CHECK(read("DD.MM.YYYY hh:mm:ss", "24.11.2026 05:40:09") == "2026-11-24 05:40:09");
    CHECK(read("DD.MM.YYYY hh:mm:ss", "4.1.2026 5:40:09") == "2026-01-04 05:40:09");
    CHECK(read("MM/DD/YY hh:mm AP", "11/24/26 12:05 AM") == "2026-11-24 00:05:00");
    CHECK(read("MM/DD/YY hh:mm AP", "11/24/26 12:05 pm") == "2026-11-24 12:05:00");
    CHECK(read("MM/DD/YY hh:mm AP", "11/24/26 13:05 PM") == "none");
    CHECK(read("DD-MON-YYYY hh:mm", "24-Nov-2026 05:40") == "2026-11-24 05:40:00");
    CHECK(read("YYYYMMDDhhmmss", "20261124054000") == "2026-11-24 05:40:00");
    CHECK(read("YYYYMMDDhhmmss", "2026112454000") == "none");
    CHECK(read("YYYY-MM-DDThh:mm:ss.fffzz", "2026-11-24T05:40:00.250+01:00") == "2026-11-24 05:40:00.250 1:00");
    CHECK(read("YYYY-MM-DDThh:mmzz", "2026-11-24T05:40Z") == "2026-11-24 05:40:00 0:00");
    CHECK(read("unix", "1795498800") == "2026-11-24 05:40:00 0:00");
    for (const std::string wrong :
         {"24.11.2026", "24.11.2026 05:40:09 x", "30.02.2026 05:40:09", "24.11.2026 24:00:00", "24/11/2026 05:40:09", ""})
        CHECK(read("DD.MM.YYYY hh:mm:ss", wrong) == "none");
}

TEST_CASE("a time format that cannot tell a moment is refused") {
    CHECK(TimeFormat::of("DD.MM.YYYY").refusal().wanted.find("year, month, day and hour") == 0);
    CHECK(TimeFormat::of("DD.MM.YYYY hh:mm hh").refusal().wanted == "each part once, and hh is there twice");
    CHECK(TimeFormat::of("unix hh").refusal().wanted == "unix alone: it is a whole time by itself");
    CHECK(TimeFormat::of("").refusal().given == "time format ''");
}

TEST_CASE("distances from UTC") {
    CHECK(utc_offset("UTC") == Duration{0});
    CHECK(utc_offset("+01:00") == hours(1));
    CHECK(utc_offset("-0530") == Duration{-(hours(5) + minutes(30)).ms});
    CHECK_FALSE(utc_offset("Europe/Berlin"));
    CHECK_FALSE(utc_offset("+15:00"));
}
