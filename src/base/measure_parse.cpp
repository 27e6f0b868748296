// How a person's quantities are read: "93.4C", "8h30min", "240".
#include <fmt/format.h>

#include <algorithm>

#include "base/measure.h"
#include "base/text.h"
#include "base/units.h"

namespace peelbook {
namespace {

constexpr std::int64_t one = 1'000'000;  // millionths
constexpr std::size_t most_decimals = 6;
constexpr Wide largest_number = Wide{1'000'000'000'000} * one;
constexpr Wide largest_canonical = (Wide{1} << 53) - 1;  // what JSON readers keep exactly
constexpr std::string_view examples = "a number with its unit, like 93.4C, 90kg or 8h30min";

// One number and the word behind it, as typed.
struct Part {
    Wide micro = 0;
    std::string_view number;
    std::string_view unit;
};

Refusal refused(std::string_view text, std::string wanted, std::string next) {
    return {fmt::format("'{}'", shown(text)), std::move(wanted), std::move(next), {}};
}

std::string listed(const std::vector<std::string_view>& symbols) { return fmt::format("{}", fmt::join(symbols, ", ")); }

std::string units_text(std::optional<Dimension> wanted) {
    if (wanted) return listed(symbols_of(*wanted));
    std::vector<std::string_view> symbols;
    for (const UnitRow& row : all_units()) symbols.push_back(row.symbol);
    return listed(symbols);
}

std::string a(std::string_view noun) { return fmt::format("a {}", noun); }

// The unit that a bare number of this dimension has, if it needs none.
std::optional<Unit> unit_unsaid(std::optional<Dimension> wanted) {
    if (wanted == Dimension::percent) return Unit::percent;
    if (wanted == Dimension::ph) return Unit::ph;
    if (wanted == Dimension::water_activity) return Unit::water_activity;
    if (wanted == Dimension::pieces) return Unit::pieces;
    return std::nullopt;
}

// Reads the digits at the front of `rest` and takes them off. `whole` is quoted in a refusal.
Result<Part> take_number(std::string_view& rest, std::string_view whole) {
    const std::string_view begin = rest;
    Part part;
    std::size_t at = 0;
    std::size_t decimals = 0;
    const bool minus = rest.starts_with('-');
    if (minus || rest.starts_with('+')) ++at;
    const std::size_t first = at;
    for (; at < rest.size() && is_digit(rest[at]); ++at)
        part.micro = std::min(part.micro * 10 + (rest[at] - '0') * one, largest_number + one);
    if (at == first) return refused(whole, std::string(examples), "type the number first, then the unit");
    if (at < rest.size() && rest[at] == ',') return refused(whole, "a decimal point, no comma", "type it with a point, like 1.5kg");
    if (at < rest.size() && rest[at] == '.') {
        Wide worth = one;
        for (++at; at < rest.size() && is_digit(rest[at]); ++at, ++decimals) {
            worth /= 10;
            part.micro += worth * (rest[at] - '0');
        }
        if (decimals == 0) return refused(whole, "digits after the decimal point", "type it again, like 1.5kg");
        if (decimals > most_decimals) return refused(whole, "at most 6 decimals", "round it or take a smaller unit");
    }
    if (part.micro > largest_number) return refused(whole, "a number up to 10^12", "check the number and its unit");
    if (minus) part.micro = -part.micro;
    part.number = begin.substr(0, at);
    rest.remove_prefix(at);
    return part;
}

void take_unit(std::string_view& rest, Part& part) {
    rest = trimmed(rest);
    std::size_t end = 0;
    while (end < rest.size() && !is_digit(rest[end]) && rest[end] != ' ' && rest[end] != '-' && rest[end] != '+' && rest[end] != ',' &&
           rest[end] != '.')
        ++end;
    part.unit = rest.substr(0, end);
    rest = trimmed(rest.substr(end));
}

// The unit that bakers use most, for an example.
std::string_view usual_unit(std::optional<Dimension> wanted) {
    if (!wanted || wanted == Dimension::mass) return "kg";
    if (wanted == Dimension::duration) return "min";
    return symbols_of(*wanted).front();
}

Refusal no_unit(std::string_view text, const Part& part, std::optional<Dimension> wanted) {
    return refused(text, fmt::format("a unit after the number: {}", units_text(wanted)),
                   fmt::format("type the unit too, like {}{}", part.number, usual_unit(wanted)));
}

Refusal unknown_unit(std::string_view text, std::string_view unit, std::optional<Dimension> wanted) {
    std::vector<std::string> known;
    for (const UnitRow& row : all_units()) {
        if (wanted && row.dimension != *wanted) continue;
        known.emplace_back(row.symbol);
        for (std::string& spelling : split(row.also, ' '))
            if (spelling.size() > 2) known.push_back(std::move(spelling));
    }
    return {fmt::format("unit '{}' in '{}'", shown(unit), shown(text)), fmt::format("one of {}", units_text(wanted)),
            "type it again with one of these units", nearest(unit, known)};
}

// One number and unit as a measure, with the rules that hold for each dimension.
Result<Measure> one_measure(std::string_view text, Wide micro, Unit unit) {
    const UnitRow& row = row_of(unit);
    if (row.dimension == Dimension::temperature) {
        const Wide absolute_zero = unit == Unit::celsius ? -Wide{273'150'000} : -Wide{459'670'000};
        if (micro < absolute_zero) return refused(text, "a temperature not below absolute zero (-273.15C, -459.67F)", "check the number");
    } else if (micro < 0) {
        return refused(text, fmt::format("{} that is not negative", a(name_of(row.dimension))), "check the sign");
    }
    if (row.dimension == Dimension::pieces && micro % one != 0)
        return refused(text, "a whole number of pieces", "count whole pieces, or weigh the part");
    const Wide canonical = canonical_of(micro, row);
    if (canonical > largest_canonical)
        return refused(text, fmt::format("at most {}", to_text(static_cast<std::int64_t>(largest_canonical), unit, 0)),
                       "check the number and its unit");
    return Measure{static_cast<std::int64_t>(canonical), static_cast<std::int64_t>(micro), unit};
}

struct Typed {
    Wide micro;
    Unit unit;
};

// "8h30min": each part smaller than the one before it; together they count in the last one's unit.
Result<Typed> added(std::string_view text, const std::vector<Typed>& parts) {
    Wide fine = 0;  // millionths of a millisecond
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const UnitRow& row = row_of(parts[i].unit);
        const bool smaller = i == 0 || parts[i].unit < parts[i - 1].unit;
        if (row.dimension != Dimension::duration || !smaller || parts[i].micro < 0)
            return refused(text, "one number and one unit; only a duration has parts, like 1d2h or 8h30min", "type it again");
        fine += parts[i].micro * (row.up * one / row.down);
    }
    const UnitRow& last = row_of(parts.back().unit);
    const Wide micro = divided(fine, Wide{last.up} * one / last.down);
    if (micro > largest_number) return refused(text, "a number up to 10^12", "check the number and its unit");
    return Typed{micro, last.unit};
}

Result<Measure> parse(std::string_view text, std::optional<Dimension> wanted) {
    std::string_view rest = trimmed(text);
    if (rest.empty()) return refused(text, std::string(examples), "type the number first, then the unit");
    std::vector<Typed> parts;
    while (!rest.empty()) {
        Result<Part> part = take_number(rest, text);
        if (!part) return part.refusal();
        take_unit(rest, *part);
        std::optional<Unit> unit = unit_from_symbol(part->unit);
        if (part->unit.empty() && parts.empty() && rest.empty()) unit = unit_unsaid(wanted);
        if (!unit && part->unit.empty()) return no_unit(text, *part, wanted);
        if (!unit) return unknown_unit(text, part->unit, wanted);
        parts.push_back({part->micro, *unit});
    }
    Result<Typed> whole = parts.size() == 1 ? Result<Typed>(parts.front()) : added(text, parts);
    if (!whole) return whole.refusal();
    const Dimension found = dimension_of(whole->unit);
    if (wanted && found != *wanted)
        return Refusal{fmt::format("'{}', {}", shown(text), a(name_of(found))),
                       fmt::format("{} in {}", a(name_of(*wanted)), units_text(wanted)),
                       "check what is asked for",
                       {}};
    return one_measure(text, whole->micro, whole->unit);
}

}  // namespace

Result<Measure> parse_measure(std::string_view text) { return parse(text, std::nullopt); }

Result<Measure> parse_measure(std::string_view text, Dimension wanted) { return parse(text, wanted); }

Result<Duration> parse_duration(std::string_view text) {
    const Result<Measure> measure = parse_measure(text, Dimension::duration);
    if (!measure) return measure.refusal();
    return Duration{measure->value};
}

}  // namespace peelbook
