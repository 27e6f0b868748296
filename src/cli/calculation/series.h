#pragma once
// A core temperature series from a file: a time and a temperature in each line.
//   time         minutes from any start ("12.5", or with a unit: "90s"), or a clock ("05:40", "05:40:30";
//                past midnight it goes on with the next day), or a date and a clock, or ISO 8601 with an
//                offset
//   temperature  a number; its unit stands behind it, in the column's heading, or is the one that is asked
//   for
// Clock times without an offset count as written: no clock change is assumed between them.
#include <optional>
#include <string>
#include <vector>

#include "base/instant.h"
#include "base/measure.h"
#include "base/result.h"
#include "calc/lethality.h"
#include "cli/frame/context.h"

namespace peelbook::cli {

enum class SeriesTime { minutes, clock, dated, with_offset };

struct SeriesPoint {
    Instant at;  // minutes: from 0; clock: from midnight before the first; dated: as written,
                 // or UTC when an offset stands behind it
    Measure value;
};

struct Series {
    SeriesTime time = SeriesTime::minutes;
    Unit unit = Unit::celsius;        // of its temperatures
    std::string unit_from;            // who said so: "the file's heading"
    std::vector<SeriesPoint> points;  // at least one; times ascending

    // "12.5 min", "05:40", "2026-11-16 05:40". Seconds are shown when there are any.
    std::string time_text(Instant at) const;
    // Minutes since the first point, temperatures as numbers of `unit`.
    std::vector<calc::CoreReading> readings(Unit as) const;
};

// `unit`: what was typed for the values' unit, empty: the heading's, else `otherwise`. Refused with the line:
// a row that cannot be read, times of two kinds, times not in ascending order.
Result<Series> read_series_file(const Context& context, const std::string& file, const std::string& unit, Unit otherwise);

}  // namespace peelbook::cli
