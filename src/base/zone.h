#pragma once
// The site's IANA time zone: instants to local clock time and back, and the times people type.
// Loading a zone reads the system's tzdata (about 0.3 ms), so load one only when a local time is needed.
#include <memory>
#include <string>
#include <string_view>

#include "base/calendar.h"
#include "base/instant.h"
#include "base/result.h"

namespace peelbook {

struct LocalTime {
    Date date;
    int hour = 0;    // 0 to 23
    int minute = 0;  // 0 to 59
    int second = 0;  // 0 to 59
    int millisecond = 0;
    auto operator<=>(const LocalTime&) const = default;
};

class Zone {
  public:
    // Refused: a name the tz database does not know (the nearest are offered).
    static Result<Zone> named(std::string_view iana_name);
    static Zone utc();

    const std::string& name() const;
    LocalTime to_local(Instant t) const;
    Duration offset_at(Instant t) const;

    // Refused: a local time that never happens or happens twice (clock change); both offsets are shown so that the
    // person can type the one that is meant.
    Result<Instant> from_local(LocalTime t) const;

    // The first instant of a local day that begins at `hour` (a production day); across a clock change the day is
    // 23 or 25 hours long. Never refused: if that time does not exist, the first one after it.
    Instant day_start(Date day, int hour, int minute) const;

  private:
    struct Impl;
    explicit Zone(std::shared_ptr<const Impl> impl);
    std::shared_ptr<const Impl> impl_;
};

// "2026-11-24 05:40", with seconds when `seconds` is set.
std::string to_text(const Zone& zone, Instant t, bool seconds = false);
// "05:40"
std::string clock_text(const Zone& zone, Instant t);
// "2026-11-24T05:40:00+01:00"
std::string to_iso(const Zone& zone, Instant t);

// A time as a person types it:
//   05:40 | 5:40 | 05:40:30    the latest one that is not after `now`; refused when that is more than 12 hours back
//                              (rule 13: a night shift that means tomorrow), unless a date is typed
//   yesterday 22:10 | today 05:40
//   2026-11-24 05:40[:30]      local time of that day
//   2026-11-24T05:40[:30]+01:00 | ...Z   with an offset: always clear
// Refused: anything else; a time that does not exist or occurs twice. A time after `now` parses: whether the future is
// allowed is the caller's rule.
Result<Instant> parse_when(std::string_view text, const Zone& zone, Instant now);

}  // namespace peelbook
