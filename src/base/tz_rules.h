#pragma once
// The offsets of one time zone, read from one compiled file of the tz database (TZif, RFC 8536).
// A reader of our own, because the date library (3.0.1) first walks the whole database: 650 files and 3.5 ms of every
// start, where reading the one file takes 0.3 ms; nor does it apply the rule for the years after the file's list. The
// tests hold the two against each other in every zone.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace peelbook {

inline constexpr std::int64_t seconds_a_day = 86'400;  // as Unix time counts them

// Offsets in seconds east of UTC, times in Unix seconds.
struct TzChange {
    std::int64_t at = 0;  // the first second under the new offset
    std::int64_t offset = 0;
};

// What a reading of the wall clock can mean.
struct LocalMeaning {
    enum Kind { once, skipped, twice };
    Kind kind = once;
    std::int64_t before = 0;  // the offset; when skipped or twice, the one before the change
    std::int64_t after = 0;   // the one after the change; equal to `before` when once
    std::int64_t change = 0;  // the instant of the change; 0 when once
};

struct TzRules {
    std::int64_t first_offset = 0;  // before the first change
    std::vector<TzChange> changes;  // ascending; the file's own, then its rule for the years after, up to 2100

    std::int64_t offset_at(std::int64_t utc) const;
    LocalMeaning meaning_of(std::int64_t local) const;
};

// Absent when the bytes are no TZif file of version 2 or later, are cut short, or end in a rule that is not
// understood.
std::optional<TzRules> parse_tzif(std::string_view bytes);

// The rule at the end of a TZif file (POSIX TZ, with the hours of RFC 8536 3.3.1):
// "CET-1CEST,M3.5.0,M10.5.0/3". Adds its changes after the last of `rules`. False when it is not understood;
// of the day forms only Mm.w.d is.
bool extend_by_rule(std::string_view rule, TzRules& rules);

// The system's database. Absent when there is no such zone.
std::optional<TzRules> load_zone(std::string_view name);
std::vector<std::string> zone_names();  // empty when the system has no database

}  // namespace peelbook
