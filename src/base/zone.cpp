#include "base/zone.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <cassert>
#include <exception>

#include "base/text.h"

namespace peelbook {
namespace {

using std::chrono::milliseconds;
using SysMs = date::sys_time<milliseconds>;
using LocalMs = date::local_time<milliseconds>;

constexpr std::int64_t ms_a_day = 86'400'000;
constexpr std::int64_t ms_an_hour = 3'600'000;
constexpr std::int64_t ms_a_minute = 60'000;

std::int64_t local_ms(const LocalTime& t) {
    assert(exists(t.date) && t.hour >= 0 && t.hour <= 23 && t.minute >= 0 && t.minute <= 59);
    return to_days(t.date) * ms_a_day + t.hour * ms_an_hour + t.minute * ms_a_minute + t.second * 1000 +
           t.millisecond;
}

LocalTime from_local_ms(std::int64_t ms) {
    std::int64_t day = ms / ms_a_day;
    std::int64_t rest = ms % ms_a_day;
    if (rest < 0) {
        rest += ms_a_day;
        --day;
    }
    return {from_days(day), static_cast<int>(rest / ms_an_hour), static_cast<int>(rest / ms_a_minute % 60),
            static_cast<int>(rest / 1000 % 60), static_cast<int>(rest % 1000)};
}

std::string offset_text(Duration offset) {
    const std::int64_t size = offset.ms < 0 ? -offset.ms : offset.ms;
    return fmt::format("{}{:02}:{:02}", offset.ms < 0 ? '-' : '+', size / ms_an_hour,
                       size / ms_a_minute % 60);
}

std::string clock_text(const LocalTime& t) {
    if (t.second == 0) return fmt::format("{:02}:{:02}", t.hour, t.minute);
    return fmt::format("{:02}:{:02}:{:02}", t.hour, t.minute, t.second);
}

// A local time and the two offsets around a clock change that it falls into.
Refusal unclear(const std::string& zone, const LocalTime& t, bool twice, Duration before, Duration after) {
    const std::string clock = clock_text(t);
    const std::string day = to_text(t.date);
    return {fmt::format("local time {} {} in {}", day, clock, zone),
            twice ? fmt::format("{} occurs twice on {}: {} and {}", clock, day, offset_text(before),
                                offset_text(after))
                  : fmt::format("{} does not occur on {}: the clock went from {} to {}", clock, day,
                                offset_text(before), offset_text(after)),
            fmt::format("type the one that is meant, with its offset: {0}T{1}{2} or {0}T{1}{3}", day, clock,
                        offset_text(before), offset_text(after)),
            {}};
}

}  // namespace

// `rules` is absent for UTC, so that UTC needs no tzdata.
struct Zone::Impl {
    std::string name;
    const date::time_zone* rules = nullptr;

    date::local_info info(const LocalTime& t) const {
        return rules->get_info(date::floor<std::chrono::seconds>(LocalMs{milliseconds{local_ms(t)}}));
    }
};

Zone::Zone(std::shared_ptr<const Impl> impl) : impl_(std::move(impl)) {}

Zone Zone::utc() {
    return Zone(std::make_shared<const Impl>(Impl{"UTC", nullptr}));
}

Result<Zone> Zone::named(std::string_view iana_name) {
    const std::string name(iana_name);
    if (name == "UTC") return utc();
    try {
        return Zone(std::make_shared<const Impl>(Impl{name, date::locate_zone(name)}));
    } catch (const std::exception&) {
        // Not in the database, or no database: told apart below.
    }
    std::vector<std::string> known;
    try {
        for (const date::time_zone& zone : date::get_tzdb().zones) known.push_back(zone.name());
    } catch (const std::exception& trouble) {
        return Refusal{fmt::format("time zone '{}'", shown(name)),
                       "the system's time zone data, which cannot be read",
                       fmt::format("install the package tzdata ({})", trouble.what()),
                       {}};
    }
    return Refusal{fmt::format("time zone '{}'", shown(name)),
                   "a name of the IANA time zone database, like Europe/Berlin or America/New_York",
                   "check the spelling", nearest(name, known)};
}

const std::string& Zone::name() const {
    return impl_->name;
}

Duration Zone::offset_at(Instant t) const {
    if (impl_->rules == nullptr) return {0};
    const auto info = impl_->rules->get_info(date::floor<std::chrono::seconds>(SysMs{milliseconds{t.ms}}));
    return {milliseconds{info.offset}.count()};
}

LocalTime Zone::to_local(Instant t) const {
    return from_local_ms(t.ms + offset_at(t).ms);
}

Result<Instant> Zone::from_local(LocalTime t) const {
    if (impl_->rules == nullptr) return Instant{local_ms(t)};
    const date::local_info info = impl_->info(t);
    const Duration before{milliseconds{info.first.offset}.count()};
    const Duration after{milliseconds{info.second.offset}.count()};
    if (info.result != date::local_info::unique)
        return unclear(impl_->name, t, info.result == date::local_info::ambiguous, before, after);
    return Instant{local_ms(t) - before.ms};
}

Instant Zone::day_start(Date day, int hour, int minute) const {
    const LocalTime t{day, hour, minute, 0, 0};
    if (impl_->rules == nullptr) return {local_ms(t)};
    const date::local_info info = impl_->info(t);
    if (info.result == date::local_info::nonexistent)
        return {milliseconds{info.first.end.time_since_epoch()}.count()};
    return {local_ms(t) - milliseconds{info.first.offset}.count()};
}

std::string to_text(const Zone& zone, Instant t, bool seconds) {
    const LocalTime local = zone.to_local(t);
    std::string text = fmt::format("{} {:02}:{:02}", to_text(local.date), local.hour, local.minute);
    if (seconds) text += fmt::format(":{:02}", local.second);
    return text;
}

std::string clock_text(const Zone& zone, Instant t) {
    const LocalTime local = zone.to_local(t);
    return fmt::format("{:02}:{:02}", local.hour, local.minute);
}

std::string to_iso(const Zone& zone, Instant t) {
    const LocalTime local = zone.to_local(t);
    return fmt::format("{}T{:02}:{:02}:{:02}{}", to_text(local.date), local.hour, local.minute, local.second,
                       offset_text(zone.offset_at(t)));
}

}  // namespace peelbook
