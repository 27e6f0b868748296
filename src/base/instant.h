#pragma once
// Points in time and lengths of time. Always UTC inside; base/zone.h turns them into the site's local time.
#include <compare>
#include <cstdint>
#include <string>

namespace peelbook {

// A length of time in milliseconds; may be negative.
struct Duration {
    std::int64_t ms = 0;
    auto operator<=>(const Duration&) const = default;
};

// Milliseconds since 1970-01-01T00:00:00Z, without leap seconds (Unix time).
struct Instant {
    std::int64_t ms = 0;
    auto operator<=>(const Instant&) const = default;
};

constexpr Duration operator-(Instant a, Instant b) { return {a.ms - b.ms}; }
constexpr Instant operator+(Instant a, Duration d) { return {a.ms + d.ms}; }
constexpr Instant operator-(Instant a, Duration d) { return {a.ms - d.ms}; }
constexpr Duration operator+(Duration a, Duration b) { return {a.ms + b.ms}; }
constexpr Duration operator-(Duration a, Duration b) { return {a.ms - b.ms}; }

inline constexpr std::int64_t ms_a_minute = 60'000, ms_an_hour = 60 * ms_a_minute, ms_a_day = 24 * ms_an_hour;

constexpr Duration seconds(std::int64_t n) { return {n * 1000}; }
constexpr Duration minutes(std::int64_t n) { return {n * ms_a_minute}; }
constexpr Duration hours(std::int64_t n) { return {n * ms_an_hour}; }
constexpr Duration days(std::int64_t n) { return {n * ms_a_day}; }

// "2:05" (hours:minutes) for a minute and more, "2:05:30" when seconds matter, "-0:10" when negative.
std::string to_text(Duration d);

// "2026-11-24T05:40:00.000Z"
std::string to_iso(Instant t);

}  // namespace peelbook
