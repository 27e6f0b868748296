#pragma once
// How a machine writes its times, described by example of its parts:
//   YYYY YY MM MON DD hh mm ss fff   year, two digits of a year 20YY, month, "Jan" to "Dec", day, hour,
//   minute, second, thousandths AP                               "AM" or "PM": hh is then 1 to 12 zz "Z" or
//   an offset from UTC, "+01:00" unix                             alone: seconds since 1970-01-01 UTC
// Everything else stands for itself. Numbers may have fewer digits where what follows is no digit: D.M.YYYY
// is DD.MM.YYYY.
//
//   TimeFormat::of("DD.MM.YYYY hh:mm:ss")->read("24.11.2026 05:40:00")
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/zone.h"

namespace peelbook {

// "UTC", "Z", "+01:00", "-0500" as the distance from UTC; absent for anything else.
std::optional<Duration> utc_offset(std::string_view text);

class TimeFormat {
  public:
    // Refused: no year, month, day or hour; the same part twice; AP without hh.
    static Result<TimeFormat> of(std::string_view text);

    struct Time {
        LocalTime local;                 // exists as a date
        std::optional<Duration> offset;  // from UTC, when it is written there; 0 for "unix"
    };
    std::optional<Time> read(std::string_view text) const;  // absent: it is written otherwise

    const std::string& text() const { return text_; }

  private:
    enum class Part { literal, year, short_year, month, month_name, day, hour, minute, second, thousandth, half, offset, unix_seconds };
    struct Token {
        Part part = Part::literal;
        char literal = 0;
        bool exact = false;  // a digit or another number follows at once: all digits are wanted
    };
    struct Reading;
    static bool take(const Token& token, Reading& reading);  // false: it is written otherwise
    bool has(Part part) const;

    std::string text_;
    std::vector<Token> tokens_;
};

}  // namespace peelbook
