#include "base/time_format.h"

#include <algorithm>
#include <array>

#include "base/text.h"

namespace peelbook {
namespace {

constexpr std::array<std::string_view, 12> month_names{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"};

// Takes up to `most` digits from the front; absent without one, or with `exact` when there are fewer.
std::optional<int> take_number(std::string_view& rest, std::size_t most, bool exact) {
    std::size_t length = 0;
    int number = 0;
    while (length < most && length < rest.size() && is_digit(rest[length])) number = number * 10 + (rest[length++] - '0');
    if (length == 0 || (exact && length < most)) return std::nullopt;
    rest.remove_prefix(length);
    return number;
}

std::optional<int> take_month(std::string_view& rest) {
    if (rest.size() < 3) return std::nullopt;
    const auto found = std::find(month_names.begin(), month_names.end(), lowered(rest.substr(0, 3)));
    if (found == month_names.end()) return std::nullopt;
    rest.remove_prefix(3);
    return static_cast<int>(found - month_names.begin()) + 1;
}

// "Z", "+01:00", "+0100".
std::optional<Duration> take_offset(std::string_view& rest) {
    if (rest.empty()) return std::nullopt;
    const char sign = rest.front();
    rest.remove_prefix(1);
    if (sign == 'Z' || sign == 'z') return Duration{0};
    if (sign != '+' && sign != '-') return std::nullopt;
    const auto hour = take_number(rest, 2, true);
    if (!rest.empty() && rest.front() == ':') rest.remove_prefix(1);
    const auto minute = take_number(rest, 2, true);
    constexpr int most_hours = 14;
    if (!hour || !minute || *hour > most_hours || *minute > 59) return std::nullopt;
    const Duration size = hours(*hour) + minutes(*minute);
    return sign == '-' ? Duration{-size.ms} : size;
}

std::optional<LocalTime> take_unix(std::string_view& rest) {
    std::int64_t count = 0;
    std::size_t length = 0;
    constexpr std::size_t most_digits = 11;
    while (length < rest.size() && length < most_digits && is_digit(rest[length])) count = count * 10 + (rest[length++] - '0');
    if (length == 0) return std::nullopt;
    rest.remove_prefix(length);
    return Zone::utc().to_local(Instant{count * 1000});
}

Refusal bad_format(std::string_view text, std::string wanted) {
    return {"time format '" + shown(text) + "'", std::move(wanted), "write it like DD.MM.YYYY hh:mm:ss", {}};
}

}  // namespace

std::optional<Duration> utc_offset(std::string_view text) {
    if (text == "UTC") return Duration{0};
    const auto offset = take_offset(text);
    return text.empty() ? offset : std::nullopt;
}

Result<TimeFormat> TimeFormat::of(std::string_view text) {
    struct Word {
        std::string_view letters;
        Part part;
    };
    // Longer words first, so that YYYY is not two YY.
    static constexpr std::array<Word, 12> words{{{"YYYY", Part::year},
                                                 {"unix", Part::unix_seconds},
                                                 {"MON", Part::month_name},
                                                 {"fff", Part::thousandth},
                                                 {"YY", Part::short_year},
                                                 {"MM", Part::month},
                                                 {"DD", Part::day},
                                                 {"hh", Part::hour},
                                                 {"mm", Part::minute},
                                                 {"ss", Part::second},
                                                 {"AP", Part::half},
                                                 {"zz", Part::offset}}};
    TimeFormat format;
    format.text_ = text;
    for (std::string_view rest = text; !rest.empty();) {
        const auto word = std::find_if(words.begin(), words.end(), [&](const Word& w) { return rest.starts_with(w.letters); });
        if (word == words.end()) {
            format.tokens_.push_back({Part::literal, rest.front(), false});
            rest.remove_prefix(1);
            continue;
        }
        if (format.has(word->part)) return bad_format(text, "each part once, and " + std::string(word->letters) + " is there twice");
        format.tokens_.push_back({word->part, 0, false});
        rest.remove_prefix(word->letters.size());
    }
    for (std::size_t i = 0; i + 1 < format.tokens_.size(); ++i) {
        const Token& next = format.tokens_[i + 1];
        format.tokens_[i].exact = next.part == Part::literal
                                      ? is_digit(next.literal)
                                      : next.part != Part::month_name && next.part != Part::half && next.part != Part::offset;
    }
    if (format.has(Part::unix_seconds)) {
        if (format.tokens_.size() == 1) return format;
        return bad_format(text, "unix alone: it is a whole time by itself");
    }
    const bool year = format.has(Part::year) || format.has(Part::short_year);
    const bool month = format.has(Part::month) || format.has(Part::month_name);
    if (!year || !month || !format.has(Part::day) || !format.has(Part::hour))
        return bad_format(text, "year, month, day and hour among its parts (YYYY YY MM MON DD hh mm ss fff AP zz)");
    return format;
}

bool TimeFormat::has(Part part) const {
    return std::any_of(tokens_.begin(), tokens_.end(), [&](const Token& token) { return token.part == part; });
}

// What is read so far, and what is still to be read.
struct TimeFormat::Reading {
    Time time;
    std::string_view rest;
    std::optional<bool> afternoon;

    bool number(int& to, std::size_t digits, bool exact) {
        const auto found = take_number(rest, digits, exact);
        if (found) to = *found;
        return found.has_value();
    }
    bool literal(char wanted) {
        if (rest.empty() || rest.front() != wanted) return false;
        rest.remove_prefix(1);
        return true;
    }
    bool half() {
        const std::string word = lowered(rest.substr(0, 2));
        if (word != "am" && word != "pm") return false;
        afternoon = word == "pm";
        rest.remove_prefix(2);
        return true;
    }
    bool whole() {
        const auto at = take_unix(rest);
        if (at) time = {*at, Duration{0}};
        return at.has_value();
    }
};

bool TimeFormat::take(const Token& token, Reading& r) {
    LocalTime& local = r.time.local;
    switch (token.part) {
        case Part::literal:
            return r.literal(token.literal);
        case Part::year:
            return r.number(local.date.year, 4, true);
        case Part::short_year:
            if (!r.number(local.date.year, 2, true)) return false;
            local.date.year += 2000;
            return true;
        case Part::month:
            return r.number(local.date.month, 2, token.exact);
        case Part::month_name: {
            const auto month = take_month(r.rest);
            local.date.month = month.value_or(1);
            return month.has_value();
        }
        case Part::day:
            return r.number(local.date.day, 2, token.exact);
        case Part::hour:
            return r.number(local.hour, 2, token.exact);
        case Part::minute:
            return r.number(local.minute, 2, true);
        case Part::second:
            return r.number(local.second, 2, true);
        case Part::thousandth:
            return r.number(local.millisecond, 3, true);
        case Part::half:
            return r.half();
        case Part::offset:
            r.time.offset = take_offset(r.rest);
            return r.time.offset.has_value();
        case Part::unix_seconds:
            return r.whole();
    }
    return false;
}

std::optional<TimeFormat::Time> TimeFormat::read(std::string_view text) const {
    Reading reading{{}, text, {}};
    for (const Token& token : tokens_)
        if (!take(token, reading)) return std::nullopt;
    LocalTime& local = reading.time.local;
    if (reading.afternoon) {
        if (local.hour < 1 || local.hour > 12) return std::nullopt;
        local.hour = local.hour % 12 + (*reading.afternoon ? 12 : 0);
    }
    constexpr int always_there = 28;  // every month has so many days
    const Date& date = local.date;
    const bool plain = date.month >= 1 && date.month <= 12 && date.day >= 1 && date.day <= always_there;
    const bool clock = local.hour <= 23 && local.minute <= 59 && local.second <= 59;
    if (!reading.rest.empty() || !clock || !(plain || exists(date))) return std::nullopt;
    return reading.time;
}

}  // namespace peelbook
