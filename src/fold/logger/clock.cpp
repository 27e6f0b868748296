#include "fold/logger/clock.h"

#include <algorithm>

#include "base/time_format.h"

namespace peelbook::fold {
namespace {

std::int64_t ms_of_day(const LocalTime& t) {
    return t.hour * ms_an_hour + t.minute * ms_a_minute + t.second * std::int64_t{1000} + t.millisecond;
}

Zone zone_of(const std::string& name, const Zone& site) {
    if (name.empty()) return site;
    const auto named = Zone::named(name);
    return named ? *named : site;
}

}  // namespace

LoggerClock::LoggerClock(const std::string& zone, const Zone& site)
    : fixed_(zone.empty() ? std::nullopt : utc_offset(zone)), zone_(zone_of(fixed_ ? "" : zone, site)) {}

LoggerClock::Read LoggerClock::instant(const LocalTime& local, std::optional<Duration> written_offset) {
    if (local.date != date_) {
        date_ = local.date;
        begin_of_date_ = to_days(date_) * ms_a_day;
    }
    const std::int64_t civil = begin_of_date_ + ms_of_day(local);
    const auto offset = written_offset ? written_offset : fixed_;
    Read read{Instant{civil} - offset.value_or(plain_offset_), false};
    if (!offset && civil / ms_an_hour != plain_hour_) {
        // A day on either side lies beyond any change that could touch this hour.
        const Duration before = zone_.offset_at(Instant{civil - ms_a_day}), after = zone_.offset_at(Instant{civil + ms_a_day});
        if (before == after) {
            plain_hour_ = civil / ms_an_hour;
            plain_offset_ = before;
            read.at = Instant{civil} - before;
        } else {
            read = around_a_change(civil, before, after);
        }
    }
    last_ = read.at;
    return read;
}

LoggerClock::Read LoggerClock::around_a_change(std::int64_t civil_ms, Duration before, Duration after) const {
    const Instant earlier = Instant{civil_ms} - std::max(before, after), later = Instant{civil_ms} - std::min(before, after);
    const auto was = [&](Instant t) { return t + zone_.offset_at(t) == Instant{civil_ms}; };
    if (was(earlier) && was(later)) return earlier < last_ ? Read{later, false, earlier - later} : Read{earlier, false, later - earlier};
    if (was(earlier)) return {earlier, false};
    if (was(later)) return {later, false};
    return {Instant{civil_ms} - before, true};
}

}  // namespace peelbook::fold
