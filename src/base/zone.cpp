#include "base/zone.h"

#include <fmt/compile.h>
#include <fmt/format.h>

#include <cassert>

#include "base/text.h"
#include "base/tz_rules.h"

namespace peelbook {
namespace {

std::int64_t local_ms(const LocalTime& t) {
    assert(exists(t.date) && t.hour >= 0 && t.hour <= 23 && t.minute >= 0 && t.minute <= 59);
    return to_days(t.date) * ms_a_day + t.hour * ms_an_hour + t.minute * ms_a_minute + t.second * 1000 + t.millisecond;
}

// Rounded down, also before 1970.
std::int64_t whole_seconds(std::int64_t ms) { return ms >= 0 ? ms / 1000 : -((999 - ms) / 1000); }

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
    return fmt::format("{}{:02}:{:02}", offset.ms < 0 ? '-' : '+', size / ms_an_hour, size / ms_a_minute % 60);
}

std::string clock_text(const LocalTime& t) {
    if (t.second == 0) return fmt::format(FMT_COMPILE("{:02}:{:02}"), t.hour, t.minute);
    return fmt::format(FMT_COMPILE("{:02}:{:02}:{:02}"), t.hour, t.minute, t.second);
}

// A local time and the two offsets around a clock change that it falls into.
Refusal unclear(const std::string& zone, const LocalTime& t, bool twice, Duration before, Duration after) {
    const std::string clock = clock_text(t);
    const std::string day = to_text(t.date);
    return {fmt::format("local time {} {} in {}", day, clock, zone),
            twice
                ? fmt::format("{} occurs twice on {}: {} and {}", clock, day, offset_text(before), offset_text(after))
                : fmt::format("{} does not occur on {}: the clock went from {} to {}", clock, day, offset_text(before), offset_text(after)),
            fmt::format("type the one that is meant, with its offset: {0}T{1}{2} or {0}T{1}{3}", day, clock, offset_text(before),
                        offset_text(after)),
            {}};
}

}  // namespace

struct Zone::Impl {
    std::string name;
    TzRules rules;  // those of UTC are empty, so that UTC needs no tzdata
};

Zone::Zone(std::shared_ptr<const Impl> impl) : impl_(std::move(impl)) {}

Zone Zone::utc() { return Zone(std::make_shared<const Impl>(Impl{"UTC", {}})); }

Result<Zone> Zone::named(std::string_view iana_name) {
    if (iana_name == "UTC") return utc();
    if (std::optional<TzRules> rules = load_zone(iana_name))
        return Zone(std::make_shared<const Impl>(Impl{std::string(iana_name), std::move(*rules)}));
    const std::string given = fmt::format("time zone '{}'", shown(iana_name));
    const std::vector<std::string> known = zone_names();
    if (known.empty()) return Refusal{given, "the system's time zone data, which is not there", "install the package tzdata", {}};
    return Refusal{given, "a name of the IANA time zone database, like Europe/Berlin or America/New_York", "check the spelling",
                   nearest(iana_name, known)};
}

const std::string& Zone::name() const { return impl_->name; }

Duration Zone::offset_at(Instant t) const { return seconds(impl_->rules.offset_at(whole_seconds(t.ms))); }

LocalTime Zone::to_local(Instant t) const { return from_local_ms(t.ms + offset_at(t).ms); }

Result<Instant> Zone::from_local(LocalTime t) const {
    const LocalMeaning meaning = impl_->rules.meaning_of(whole_seconds(local_ms(t)));
    if (meaning.kind != LocalMeaning::once)
        return unclear(impl_->name, t, meaning.kind == LocalMeaning::twice, seconds(meaning.before), seconds(meaning.after));
    return Instant{local_ms(t) - seconds(meaning.before).ms};
}

Instant Zone::day_start(Date day, int hour, int minute) const {
    const LocalTime t{day, hour, minute, 0, 0};
    const LocalMeaning meaning = impl_->rules.meaning_of(whole_seconds(local_ms(t)));
    if (meaning.kind == LocalMeaning::skipped) return {seconds(meaning.change).ms};
    return {local_ms(t) - seconds(meaning.before).ms};
}

std::string to_text(const Zone& zone, Instant t, bool seconds) {
    const LocalTime local = zone.to_local(t);
    std::string text = fmt::format(FMT_COMPILE("{} {:02}:{:02}"), to_text(local.date), local.hour, local.minute);
    if (seconds) text += fmt::format(FMT_COMPILE(":{:02}"), local.second);
    return text;
}

std::string clock_text(const Zone& zone, Instant t) {
    const LocalTime local = zone.to_local(t);
    return fmt::format(FMT_COMPILE("{:02}:{:02}"), local.hour, local.minute);
}

std::string to_iso(const Zone& zone, Instant t) {
    const LocalTime local = zone.to_local(t);
    return fmt::format(FMT_COMPILE("{}T{:02}:{:02}:{:02}{}"), to_text(local.date), local.hour, local.minute, local.second,
                       offset_text(zone.offset_at(t)));
}

}  // namespace peelbook
