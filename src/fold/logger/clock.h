#pragma once
// The clock of a logger: the times it wrote as instants. A logger runs in a zone of the tz database, with its
// summer time, or at a fixed distance from UTC.
//
// A local time that occurs twice (the clock went back in autumn) is the first one that is not before the time
// read last, so rows in order stay in order. Where the file has such an hour only once, nothing tells which of the two
// it is (LoggerCheck). One that never was (spring) is read as if the logger had not yet been set forward.
#include <optional>

#include "base/zone.h"

namespace peelbook::fold {

class LoggerClock {
  public:
    // `zone`: IANA name or utc_offset; empty: the site's. It must be known (plan check).
    LoggerClock(const std::string& zone, const Zone& site);

    struct Read {
        Instant at;
        bool never_was = false;
        // Of a time that occurs twice: read as the first, how much later the second is; read as the second, below nothing.
        Duration again{};
    };
    Read instant(const LocalTime& local, std::optional<Duration> written_offset);

  private:
    Read around_a_change(std::int64_t civil_ms, Duration before, Duration after) const;

    std::optional<Duration> fixed_;
    Zone zone_;
    Date date_;  // of the row read last, and its begin in civil time
    std::int64_t begin_of_date_ = 0;
    Instant last_{};
    std::int64_t plain_hour_ = -1;  // hours since 1970 of a local hour far from any change of offset
    Duration plain_offset_{};
};

}  // namespace peelbook::fold
