#include "base/instant.h"

#include <fmt/format.h>

#include "base/calendar.h"

namespace peelbook {

std::string to_text(Duration d) {
    // Unsigned, so that the most negative duration has a magnitude too.
    const std::uint64_t ms = d.ms < 0 ? 0 - static_cast<std::uint64_t>(d.ms) : static_cast<std::uint64_t>(d.ms);
    std::string text = fmt::format("{}{}:{:02}", d.ms < 0 ? "-" : "", ms / 3'600'000, ms / 60'000 % 60);
    if (ms % 60'000 != 0) text += fmt::format(":{:02}", ms / 1000 % 60);
    if (ms % 1000 != 0) text += fmt::format(".{:03}", ms % 1000);
    return text;
}

std::string to_iso(Instant t) {
    std::int64_t day = t.ms / ms_a_day;
    std::int64_t rest = t.ms % ms_a_day;
    if (rest < 0) {
        rest += ms_a_day;
        --day;
    }
    return fmt::format("{}T{:02}:{:02}:{:02}.{:03}Z", to_text(from_days(day)), rest / ms_an_hour, rest / ms_a_minute % 60, rest / 1000 % 60,
                       rest % 1000);
}

}  // namespace peelbook
