#include "fold/logger/file.h"

#include <algorithm>
#include <charconv>

#include "base/text.h"
#include "base/units.h"

namespace peelbook::fold {
namespace {

constexpr std::int64_t one_typed = 1'000'000;  // a whole unit in millionths
constexpr std::size_t longest_line = 10'000;

std::vector<TimeFormat> formats_of(const plan::Logger& how) {
    std::vector<TimeFormat> formats;
    const auto add = [&](std::string_view text) {
        if (auto format = TimeFormat::of(text)) formats.push_back(*std::move(format));
    };
    if (!how.time_format.empty()) {
        add(how.time_format);
        return formats;
    }
    for (const char* text : {"YYYY-MM-DD hh:mm:ss", "YYYY-MM-DD hh:mm", "YYYY-MM-DDThh:mm:sszz", "YYYY-MM-DDThh:mmzz",
                             "YYYY-MM-DDThh:mm:ss.fffzz", "YYYY-MM-DD hh:mm:ss.fff"})
        add(text);
    return formats;
}

std::optional<std::size_t> column_number(std::string_view text) {
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    constexpr std::size_t most_columns = 1000;
    if (error != std::errc{} || end != text.data() + text.size() || number == 0 || number > most_columns) return std::nullopt;
    return number - 1;
}

}  // namespace

Measure as_logged(std::int64_t canonical, Unit unit) {
    Measure exact = measure_of(canonical, unit);
    for (std::int64_t step = one_typed; step > 1; step /= 10) {
        const Wide rounded = divided(exact.typed_micro, step) * step;
        if (canonical_of(rounded, row_of(unit)) != canonical) continue;
        exact.typed_micro = static_cast<std::int64_t>(rounded);
        break;
    }
    return exact;
}

LoggerFile::LoggerFile(plan::Logger how, std::string column, Unit unit, const Zone& site)
    : how_(std::move(how)), column_(std::move(column)), unit_(unit), clock_(how_.zone, site), formats_(formats_of(how_)) {}

bool LoggerFile::needs_headings() const {
    const auto named = [](const std::string& text) { return !text.empty() && !column_number(text); };
    return named(how_.date_column) || named(how_.time_column) || named(column_);
}

Check LoggerFile::read(Bytes& bytes, const std::function<void(const LoggerRow&)>& use, const Progress& progress) {
    header_known_ = how_.header_lines.has_value() || needs_headings();
    header_lines_ = how_.header_lines.value_or(needs_headings() ? 1 : 0);
    if (!needs_headings()) {
        if (auto checked = find_columns({}); !checked) return checked;
    }
    LineReader lines(bytes, longest_line);
    std::int64_t told = 0;
    while (const auto line = lines.next()) {
        line_ = lines.number();
        if (auto checked = line->size() > longest_line ? bad_line(*line) : take_line(*line, use); !checked) return checked;
        if (progress && lines.bytes_read() > told) progress(told = lines.bytes_read(), bytes.size());
    }
    return {};
}

Check LoggerFile::take_line(std::string_view line, const std::function<void(const LoggerRow&)>& use) {
    if (header_known_ && line_ <= header_lines_) {
        if (line_ == header_lines_ && needs_headings()) return find_columns(part(line));
        return {};
    }
    if (trimmed(line).empty()) return {};
    const Row& fields = part(line);
    const std::size_t last = std::max({columns_.time, columns_.value, columns_.date.value_or(0)});
    const auto at = fields.size() > last ? time(fields) : std::nullopt;
    if (at) {
        LoggerRow row{at->at, line_, {}, at->never_was, at->again};
        const std::string_view text = fields[columns_.value];
        const bool none = no_value(text);
        if (!none) row.value = number(text);
        if (none || row.value) {
            use(row);
            return {};
        }
    }
    if (!header_known_ && line_ == 1) return {};
    return bad_line(line);
}

Check LoggerFile::find_columns(const Row& headings) {
    if (auto checked = find_column(headings, how_.time_column, 0, columns_.time); !checked) return checked;
    if (!how_.date_column.empty()) {
        columns_.date = 0;
        if (auto checked = find_column(headings, how_.date_column, 0, *columns_.date); !checked) return checked;
    }
    return find_column(headings, column_, 1, columns_.value);
}

Check LoggerFile::find_column(const Row& headings, const std::string& wanted, std::size_t otherwise, std::size_t& index) const {
    index = wanted.empty() ? otherwise : column_number(wanted).value_or(otherwise);
    if (wanted.empty() || column_number(wanted)) return {};
    const std::vector<std::string> names(headings.begin(), headings.end());
    const auto found = std::find(names.begin(), names.end(), wanted);
    if (found != names.end()) {
        index = static_cast<std::size_t>(found - names.begin());
        return {};
    }
    std::vector<std::string> near = nearest(wanted, names);
    for (auto& name : near) name = shown(name);
    return Refusal{"column '" + shown(wanted) + "'", "a heading of line " + std::to_string(line_) + ": " + shown(joined(names, ", ")),
                   "correct header_lines or the column in the plan, or give the column's number", near};
}

const LoggerFile::Row& LoggerFile::part(std::string_view line) {
    separator_ = how_.separator.empty() ? 0 : how_.separator.front();
    if (separator_ == 0) {
        for (const char c : {';', '\t', ','}) {
            if (separator_ == 0 && line.find(c) != std::string_view::npos) separator_ = c;
        }
        if (separator_ == 0) separator_ = ',';
    }
    return fields_.of(line, separator_);
}

std::optional<LoggerClock::Read> LoggerFile::time(const Row& fields) {
    std::string_view text = fields[columns_.time];
    if (columns_.date) {
        joined_.assign(fields[*columns_.date]);
        joined_ += ' ';
        joined_ += text;
        text = joined_;
    }
    for (std::size_t i = 0; i < formats_.size(); ++i) {
        const std::size_t one = (format_ + i) % formats_.size();
        if (const auto found = formats_[one].read(text)) {
            format_ = one;
            return clock_.instant(found->local, found->offset);
        }
    }
    return std::nullopt;
}

bool LoggerFile::no_value(std::string_view text) const {
    return text.empty() || std::find(how_.no_value.begin(), how_.no_value.end(), text) != how_.no_value.end();
}

// "4.2", "-0,5", "+3", "4.2 C", "4.2 °C": at most 12 digits before the mark and 6 behind it.
std::optional<std::int64_t> LoggerFile::number(std::string_view text) const {
    const bool comma = how_.decimal == "," || (how_.decimal.empty() && separator_ != ',');
    const bool point = how_.decimal != ",";
    bool negative = false;
    if (!text.empty() && (text.front() == '-' || text.front() == '+')) {
        negative = text.front() == '-';
        text.remove_prefix(1);
    }
    std::int64_t micro = 0, place = one_typed;
    std::size_t digits = 0;
    while (!text.empty() && is_digit(text.front())) {
        micro = micro * 10 + (text.front() - '0');
        constexpr std::size_t most_digits = 12;
        if (++digits > most_digits) return std::nullopt;
        text.remove_prefix(1);
    }
    micro *= one_typed;
    if (!text.empty() && ((text.front() == ',' && comma) || (text.front() == '.' && point))) {
        text.remove_prefix(1);
        while (!text.empty() && is_digit(text.front())) {
            place /= 10;
            if (place == 0) return std::nullopt;
            micro += (text.front() - '0') * place;
            ++digits;
            text.remove_prefix(1);
        }
    }
    if (digits == 0) return std::nullopt;
    if (!text.empty()) {
        text = trimmed(text);
        constexpr std::string_view degree = "\xC2\xB0";
        if (text.starts_with(degree)) text.remove_prefix(degree.size());
        if (unit_from_symbol(text) != unit_) return std::nullopt;
    }
    const Wide canonical = canonical_of(negative ? -micro : micro, row_of(unit_));
    constexpr std::int64_t absolute_zero = -273'150;
    const Wide least = dimension_of(unit_) == Dimension::temperature ? absolute_zero : 0;
    if (canonical < least || !fits_int64(canonical)) return std::nullopt;
    return static_cast<std::int64_t>(canonical);
}

Refusal LoggerFile::bad_line(std::string_view line) const {
    const std::string when = how_.time_format.empty() ? "2026-11-16 05:40" : how_.time_format;
    const auto place = [](std::size_t column) { return "column " + std::to_string(column + 1); };
    return {"logger file, line " + std::to_string(line_) + ": '" + shown(line) + "'",
            "a time like " + when + " in " + place(columns_.time) + " and a number in " + std::string(symbol(unit_)) + " in " +
                place(columns_.value),
            "correct how the plan reads this logger, or mend a copy of the file and record that one",
            {}};
}

}  // namespace peelbook::fold
