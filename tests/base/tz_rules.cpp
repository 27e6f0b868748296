// The reader of the system's time zone files. Reference library: date 3.0.1 (H. Hinnant), in every zone it
// lists.
#include "base/tz_rules.h"

#include <date/tz.h>

#include <catch2/catch.hpp>
#include <random>

using namespace peelbook;
using std::chrono::seconds;

namespace {

constexpr std::int64_t first_compared = 0;             // 1970: before, the library leaves out local mean time
constexpr std::int64_t last_compared = 2'114'380'800;  // 2037-01-01: the library reads no rule past the file's list

void compare_instant(const date::time_zone& zone, const TzRules& rules, std::int64_t utc) {
    const std::int64_t wanted = zone.get_info(date::sys_seconds{seconds{utc}}).offset.count();
    if (rules.offset_at(utc) == wanted) return;
    INFO(zone.name() << " at " << utc);
    REQUIRE(rules.offset_at(utc) == wanted);
}

void compare_local(const date::time_zone& zone, const TzRules& rules, std::int64_t local) {
    const date::local_info info = zone.get_info(date::local_seconds{seconds{local}});
    const LocalMeaning meaning = rules.meaning_of(local);
    INFO(zone.name() << " at local second " << local);
    REQUIRE(meaning.before == info.first.offset.count());
    if (info.result == date::local_info::unique) {
        REQUIRE(meaning.kind == LocalMeaning::once);
        return;
    }
    const bool twice = info.result == date::local_info::ambiguous;
    REQUIRE(meaning.kind == (twice ? LocalMeaning::twice : LocalMeaning::skipped));
    REQUIRE(meaning.after == info.second.offset.count());
    REQUIRE(meaning.change == info.first.end.time_since_epoch().count());
}

}  // namespace

TEST_CASE("Offsets and clock changes of every zone agree with the date library from 1970 to 2036") {
    std::mt19937_64 random(2026);
    std::size_t zones = 0;
    std::size_t changes = 0;
    for (const std::string& name : zone_names()) {
        const date::time_zone* zone = date::locate_zone(name);
        const auto rules = load_zone(name);
        INFO(name);
        REQUIRE(rules);
        ++zones;
        for (int i = 0; i < 50; ++i) {
            const auto t = first_compared + static_cast<std::int64_t>(random() % last_compared);
            compare_instant(*zone, *rules, t);
            compare_local(*zone, *rules, t);
        }
        for (const TzChange& change : rules->changes) {
            if (change.at < first_compared + 86'400 || change.at > last_compared) continue;
            ++changes;
            for (const std::int64_t step : {-1, 0, 1}) compare_instant(*zone, *rules, change.at + step);
            for (const std::int64_t offset : {rules->offset_at(change.at - 1), change.offset})
                for (const std::int64_t step : {-1800, -1, 0, 1, 1800}) compare_local(*zone, *rules, change.at + offset + step);
        }
    }
    CHECK(zones > 400);
    CHECK(changes > 10'000);
    CHECK(date::get_tzdb().zones.size() == zones + 1);  // the library also lists "localtime"
}

// The rules of the European Union (directive 2000/84/EC: last Sunday of March and October, 01:00 UTC) and of
// the United States (Energy Policy Act of 2005: second Sunday of March, first of November, 02:00 local)
// beyond the files' own list.
TEST_CASE("Years after the list follow the rule") {
    const auto berlin = load_zone("Europe/Berlin");
    const auto new_york = load_zone("America/New_York");
    REQUIRE(berlin);
    REQUIRE(new_york);
    const auto utc = [](date::sys_days day, int hour) { return (day.time_since_epoch() / seconds{1}) + hour * 3600; };
    for (int year = 2007; year <= 2099; ++year) {
        const auto y = date::year{year};
        const auto march = utc(date::sys_days{y / date::March / date::Sunday[date::last]}, 1);
        const auto october = utc(date::sys_days{y / date::October / date::Sunday[date::last]}, 1);
        CHECK(berlin->offset_at(march - 1) == 3'600);
        CHECK(berlin->offset_at(march) == 7'200);
        CHECK(berlin->offset_at(october - 1) == 7'200);
        CHECK(berlin->offset_at(october) == 3'600);
        const auto second_sunday = utc(date::sys_days{y / date::March / date::Sunday[2]}, 7);
        const auto first_sunday = utc(date::sys_days{y / date::November / date::Sunday[1]}, 6);
        CHECK(new_york->offset_at(second_sunday - 1) == -18'000);
        CHECK(new_york->offset_at(second_sunday) == -14'400);
        CHECK(new_york->offset_at(first_sunday - 1) == -14'400);
        CHECK(new_york->offset_at(first_sunday) == -18'000);
    }
}

// RFC 8536 3.3.1 and POSIX: signs, hours beyond 24, quoted names, minutes.
TEST_CASE("The rule at the end of a file") {
    const auto after = [](std::string_view rule) {
        TzRules rules;
        return extend_by_rule(rule, rules) ? static_cast<int>(rules.changes.size()) : -1;
    };
    CHECK(after("CET-1CEST,M3.5.0,M10.5.0/3") == 2 * 131);  // 1970 to 2100
    CHECK(after("<-02>2<-01>,M3.5.0/-1,M10.5.0/0") == 2 * 131);
    CHECK(after("<+1030>-10:30<+11>-11,M10.1.0,M4.1.0") == 2 * 131);
    CHECK(after("IST-5:30") == 0);
    CHECK(after("") == 0);
    for (const std::string_view broken :
         {"CET", "-1", "CET-1CEST", "CET-1CEST,M3.5.0", "CET-1CEST,M13.5.0,M10.5.0", "CET-1CEST,M3.6.0,M10.5.0", "CET-1CEST,M3.5.7,M10.5.0",
          "CET-1CEST,M3.5.0,M10.5.0/3x", "<CET-1", "CET-1CEST,60,300", "CET-1CEST,M0.1.0,M1.1.0"})
        CHECK(after(broken) == -1);

    TzRules greenland;
    REQUIRE(extend_by_rule("<-02>2<-01>,M3.5.0/-1,M10.5.0/0", greenland));
    // 2026-03-29 is the last Sunday of March: 23:00 the evening before at -02:00 is 2026-03-29T01:00Z.
    CHECK(greenland.offset_at(1'774'746'000 - 1) == -7'200);
    CHECK(greenland.offset_at(1'774'746'000) == -3'600);
}

TEST_CASE("A file that is cut, empty or something else is no zone file") {
    CHECK_FALSE(parse_tzif(""));
    CHECK_FALSE(parse_tzif("TZif2"));
    CHECK_FALSE(parse_tzif(std::string(200, '\xFF')));
    // The smallest whole file: one type, UTC, in both blocks (RFC 8536, appendix B.1, without leap seconds).
    const auto block = [](std::size_t types) {
        std::string bytes = "TZif2" + std::string(15, '\0');
        for (const std::size_t count : {std::size_t{0}, std::size_t{0}, std::size_t{0}, std::size_t{0}, types, 4 * types})
            bytes += std::string(3, '\0') + static_cast<char>(count);
        return bytes + std::string(6 * types, '\0') + (types > 0 ? std::string("UTC\0", 4) : std::string());
    };
    const std::string whole = block(1) + block(1) + "\nUTC0\n";
    REQUIRE(parse_tzif(whole));
    CHECK(parse_tzif(whole)->offset_at(0) == 0);
    CHECK_FALSE(parse_tzif(block(0) + block(0) + "\nUTC0\n"));
    for (std::size_t length = 0; length < whole.size(); ++length) {
        INFO(length);
        CHECK_FALSE(parse_tzif(whole.substr(0, length)));
    }
    std::mt19937_64 random(8536);
    for (int round = 0; round < 5'000; ++round) {
        std::string bytes = whole;
        for (int i = 0; i < 4; ++i) bytes[random() % bytes.size()] = static_cast<char>(random());
        const auto rules = parse_tzif(bytes);
        if (rules) CHECK(rules->changes.size() <= bytes.size() + 262);
    }
}

TEST_CASE("Only names of the database are looked up") {
    CHECK(load_zone("Europe/Berlin"));
    CHECK(load_zone("Etc/GMT+5"));
    for (const std::string_view name : {"", "/", "Europe", "Europe/", "/Europe/Berlin", "Europe//Berlin", "../zoneinfo/UTC", "./UTC",
                                        "right/UTC", "posix/UTC", "localtime", "posixrules", "tzdata.zi", "zone.tab"})
        CHECK_FALSE(load_zone(name));
}
