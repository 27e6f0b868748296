// The rule for the years after a TZif file's last change, and the files of the system.
#include <algorithm>
#include <filesystem>

#include "base/calendar.h"
#include "base/read_file.h"
#include "base/text.h"
#include "base/tz_rules.h"

namespace peelbook {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view database = "/usr/share/zoneinfo";  // where Debian's tzdata puts it
constexpr int last_year = 2100;

bool is_letter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }
bool take(std::string_view& rest, char wanted) {
    if (!rest.starts_with(wanted)) return false;
    rest.remove_prefix(1);
    return true;
}

std::optional<std::int64_t> take_number(std::string_view& rest) {
    std::int64_t n = 0;
    std::size_t width = 0;
    for (; width < rest.size() && is_digit(rest[width]) && width < 4; ++width) n = n * 10 + (rest[width] - '0');
    if (width == 0) return std::nullopt;
    rest.remove_prefix(width);
    return n;
}

// "CET" or "<+0330>"
bool take_name(std::string_view& rest) {
    const bool quoted = rest.starts_with('<');
    const auto in_name = [](char c) { return is_letter(c); };
    const auto end = quoted ? std::find(rest.begin(), rest.end(), '>') : std::find_if_not(rest.begin(), rest.end(), in_name);
    if (end == rest.begin() || (quoted && end == rest.end())) return false;
    rest.remove_prefix(static_cast<std::size_t>(end - rest.begin()) + (quoted ? 1 : 0));
    return true;
}

// "[+-]hh[:mm[:ss]]" in seconds.
std::optional<std::int64_t> take_time(std::string_view& rest) {
    const bool minus = take(rest, '-');
    if (!minus) take(rest, '+');
    const auto hour = take_number(rest);
    if (!hour) return std::nullopt;
    std::int64_t total = *hour * 3600;
    for (const std::int64_t worth : {60, 1}) {
        if (!take(rest, ':')) break;
        const auto part = take_number(rest);
        if (!part) return std::nullopt;
        total += *part * worth;
    }
    return minus ? -total : total;
}

// "Mm.w.d[/time]": the w-th weekday d (Sunday 0) of month m, the last one when w is 5; at 02:00 unless a time
// is given.
struct YearlyChange {
    int month = 1;
    int week = 1;
    int weekday = 0;
    std::int64_t time = 2 * 3600;

    std::int64_t local_second(int year) const {
        const Date first{year, month, 1};
        const int ahead = (weekday - iso_weekday(first) % 7 + 7) % 7;
        Date day = add_days(first, ahead + 7 * (week - 1));
        if (day.month != month) day = add_days(day, -7);
        return to_days(day) * seconds_a_day + time;
    }
};

std::optional<YearlyChange> take_yearly(std::string_view& rest) {
    if (!take(rest, ',') || !take(rest, 'M')) return std::nullopt;
    const auto month = take_number(rest);
    if (!month || !take(rest, '.')) return std::nullopt;
    const auto week = take_number(rest);
    if (!week || !take(rest, '.')) return std::nullopt;
    const auto weekday = take_number(rest);
    if (!weekday || *month < 1 || *month > 12 || *week < 1 || *week > 5 || *weekday > 6) return std::nullopt;
    YearlyChange change{static_cast<int>(*month), static_cast<int>(*week), static_cast<int>(*weekday)};
    if (!take(rest, '/')) return change;
    const auto time = take_time(rest);
    if (!time) return std::nullopt;
    change.time = *time;
    return change;
}

bool is_zone_file(const fs::path& file) {
    const std::optional<std::string> bytes = read_file(file);
    return bytes && bytes->starts_with("TZif");
}

// Letters, digits, "_+-" and single slashes between: nothing that leaves the database's folder.
bool is_zone_name(std::string_view name) {
    if (name.empty() || name.front() == '/' || name.back() == '/' || name.find("//") != std::string_view::npos) return false;
    if (name.starts_with("right/") || name.starts_with("posix/")) return false;          // copies; "right" counts leap seconds
    if (name == "localtime" || name == "posixrules" || name == "Factory") return false;  // no place's time
    return std::all_of(name.begin(), name.end(),
                       [](char c) { return is_letter(c) || is_digit(c) || c == '_' || c == '+' || c == '-' || c == '/'; });
}

}  // namespace

bool extend_by_rule(std::string_view rest, TzRules& rules) {
    if (rest.empty()) return true;  // no rule is known after the last change
    if (!take_name(rest)) return false;
    const auto west = take_time(rest);  // POSIX counts west of Greenwich as positive
    if (!west) return false;
    const std::int64_t standard = -*west;
    if (rest.empty()) return true;  // one offset for good: that of the last change
    if (!take_name(rest)) return false;
    std::int64_t summer = standard + 3600;
    if (!rest.starts_with(',')) {
        const auto summer_west = take_time(rest);
        if (!summer_west) return false;
        summer = -*summer_west;
    }
    const auto begin = take_yearly(rest);
    const auto end = begin ? take_yearly(rest) : std::nullopt;
    if (!end || !rest.empty()) return false;
    const std::int64_t known_until = rules.changes.empty() ? 0 : rules.changes.back().at;
    std::vector<TzChange> later;
    for (int year = from_days(known_until / seconds_a_day).year; year <= last_year; ++year) {
        later.push_back({begin->local_second(year) - standard, summer});
        later.push_back({end->local_second(year) - summer, standard});
    }
    std::sort(later.begin(), later.end(), [](const TzChange& a, const TzChange& b) { return a.at < b.at; });
    for (const TzChange& change : later)
        if (change.at > known_until) rules.changes.push_back(change);
    return true;
}

std::optional<TzRules> load_zone(std::string_view name) {
    if (!is_zone_name(name)) return std::nullopt;
    const std::optional<std::string> bytes = read_file(fs::path(database) / name);
    return bytes ? parse_tzif(*bytes) : std::nullopt;
}

std::vector<std::string> zone_names() {
    std::vector<std::string> names;
    std::error_code trouble;
    fs::recursive_directory_iterator at(database, trouble);
    for (; !trouble && at != fs::recursive_directory_iterator(); at.increment(trouble)) {
        std::string name = at->path().lexically_relative(database).generic_string();
        if (is_zone_name(name) && at->is_regular_file(trouble) && is_zone_file(at->path())) names.push_back(std::move(name));
        trouble.clear();
    }
    std::sort(names.begin(), names.end());
    return names;
}

}  // namespace peelbook
