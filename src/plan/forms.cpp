#include "plan/forms.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "base/gs1.h"
#include "base/text.h"
#include "plan/allergens.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

using Kind = TomlValue::Kind;

std::string folded(std::string_view text) {
    std::string out;
    for (const char c : trimmed(text)) {
        const bool blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
        if (!blank)
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    return out;
}

// What `parse` makes of the text under `key`.
template <class T, class Parse>
std::optional<T> parsed(Fields& f, std::string_view key, Need need, std::string_view example, const Parse& parse) {
    const TomlValue* value = f.ask(key, Kind::text, need, example);
    if (!value) return std::nullopt;
    const Result<T> one = parse(value->text);
    if (one) return *one;
    f.refuse(key, one.refusal());
    return std::nullopt;
}

template <class Checks> std::vector<std::string> checked_list(Fields& f, std::string_view key, const Checks& checks) {
    const std::vector<std::string> found = f.list(key, "[\"first\", \"second\"]");
    for (std::size_t i = 0; i < found.size(); ++i)
        if (auto checked = checks(found[i]); !checked) f.refuse(std::string(key) + "/" + std::to_string(i), checked.refusal());
    return found;
}

// Two ways to state one bound may differ by rounding: 0.6 C of temperature (21 C is 69.8 F and is written 70
// F), a hundredth of anything else.
bool agree(const Measure& a, const Measure& b) {
    const std::int64_t apart = std::llabs(a.value - b.value);
    if (a.dimension() == Dimension::temperature) return apart <= 600;
    return apart <= std::llabs(a.value) / 100;
}

std::optional<Bound> bound_of(Fields& f, std::string_view key, const std::string& text) {
    const std::vector<std::string> parts = split(text, '|');
    const std::string found = std::string(key) + " is " + quoted(text);
    if (parts.size() > 2) {
        f.error(key, found, "one measure, or the same one in two units: \"21C | 70F\"", "leave two of them");
        return std::nullopt;
    }
    const Result<Measure> first = parse_measure(parts.front());
    if (!first) {
        f.refuse(key, first.refusal());
        return std::nullopt;
    }
    if (parts.size() == 1) return Bound{*first, std::nullopt};
    const Result<Measure> second = parse_measure(parts.back(), first->dimension());
    if (!second) {
        f.refuse(key, second.refusal());
        return std::nullopt;
    }
    if (first->unit == second->unit) {
        f.error(key, found, "two different units", "leave one of them");
    } else if (!agree(*first, *second)) {
        const int decimals = first->dimension() == Dimension::temperature ? 1 : 3;
        f.error(key, found + ", but " + to_text(*second) + " is " + to_text(second->value, first->unit, decimals),
                "two units that say the same", "correct one of the two numbers");
    } else {
        return Bound{*first, *second};
    }
    return std::nullopt;
}

}  // namespace

std::string Id::get(Fields& f) const {
    const std::string id = Code{"id", Need::yes}.get(f);
    if (!id.empty()) f.is_called(id);
    return id;
}

std::string Code::get(Fields& f) const {
    const TomlValue* value = f.ask(key, Kind::text, need, "\"rye-flour\"");
    if (!value) return {};
    if (auto checked = check_code(key, value->text); !checked) {
        f.refuse(key, checked.refusal());
        return {};
    }
    return value->text;
}

std::string Name::get(Fields& f) const {
    const TomlValue* value = f.ask(key, Kind::text, need, "\"...\"");
    if (!value) return {};
    if (auto checked = check_text(key, value->text, longest_name, true); !checked) f.refuse(key, checked.refusal());
    if (!check || value->text.empty()) return value->text;
    if (auto checked = check(value->text); !checked) f.refuse(key, checked.refusal());
    return value->text;
}

std::string Prose::get(Fields& f) const {
    const TomlValue* value = f.ask(key, Kind::text, need, "\"...\"");
    if (!value) return {};
    const std::string text = folded(value->text);
    if (auto checked = check_text(key, text, longest_note, true); !checked) f.refuse(key, checked.refusal());
    return text;
}

std::string OneOf::get(Fields& f) const {
    const TomlValue* value = f.ask(key, Kind::text, need, "\"" + std::string(words.front()) + "\"");
    if (!value) return need == Need::no ? std::string(words.front()) : "";
    if (std::find(words.begin(), words.end(), value->text) != words.end()) return value->text;
    const std::vector<std::string> known(words.begin(), words.end());
    f.error(key, std::string(key) + " is " + quoted(value->text), any_of(known),
            remedy_with(nearest(value->text, known, 1), "write one of these words"));
    return {};
}

std::optional<bool> IsWord::get(Fields& f) const {
    const std::string found = of.get(f);
    return found.empty() ? std::nullopt : std::optional(found == word);
}

std::optional<bool> Flag::get(Fields& f) const {
    const TomlValue* value = f.ask(key, Kind::flag, Need::no, "true");
    return value ? std::optional(value->flag) : std::nullopt;
}

std::optional<std::int64_t> Whole::get(Fields& f) const {
    const TomlValue* value = f.ask(key, Kind::whole, Need::no, "12");
    if (!value) return std::nullopt;
    constexpr std::int64_t most = 1'000'000'000;
    if (value->whole >= least && value->whole <= most) return value->whole;
    f.error(key, std::string(key) + " is " + std::to_string(value->whole),
            "a whole number from " + std::to_string(least) + " to " + std::to_string(most), "correct the number");
    return std::nullopt;
}

std::optional<std::int64_t> Thousandths::get(Fields& f) const {
    const TomlValue* there = f.find(key);
    const bool real = there && there->is(Kind::real);
    const TomlValue* value = f.ask(key, real ? Kind::real : Kind::whole, need, "5, or 6.5");
    if (!value) return std::nullopt;
    constexpr double most = 1000;
    const double number = real ? value->real : static_cast<double>(value->whole);
    if (number >= 0.001 && number <= most) return std::llround(number * 1000);
    f.error(key, std::string(key) + " is not above 0 and at most 1000", "a number like 5 or 6.5", "correct the number");
    return std::nullopt;
}

std::optional<Measure> Amount::get(Fields& f) const {
    if (!dimension) return parsed<Measure>(f, key, need, "\"0.5C\"", [](const std::string& text) { return parse_measure(text); });
    return parsed<Measure>(f, key, need, dimension == Dimension::mass ? "\"20kg\"" : "\"2.5%\"",
                           [&](const std::string& text) { return parse_measure(text, *dimension); });
}

std::optional<std::int64_t> MicroPercent::get(Fields& f) const {
    const auto percent = Amount{key, Dimension::percent}.get(f);
    return percent ? std::optional(percent->typed_micro) : std::nullopt;
}

std::optional<std::int64_t> ShareOfMillion::get(Fields& f) const {
    constexpr std::int64_t of_a_thousandth_percent = 10;
    const auto percent = Amount{key, Dimension::percent}.get(f);
    return percent ? std::optional(percent->value * of_a_thousandth_percent) : std::nullopt;
}

std::optional<Duration> Period::get(Fields& f) const {
    const auto found = parsed<Duration>(f, key, need, "\"2h30min\"", parse_duration);
    if (!found || found->ms > 0) return found;
    f.error(key, std::string(key) + " is " + quoted(f.find(key)->text), "a time longer than nothing", "correct the time");
    return std::nullopt;
}

std::optional<int> TimeOfDay::get(Fields& f) const {
    const TomlValue* value = f.ask(key, Kind::text, need, "\"04:30\"");
    if (!value) return std::nullopt;
    if (const std::optional<int> minutes = clock_minutes(value->text)) return minutes;
    f.error(key, std::string(key) + " is " + quoted(value->text), "a time of day from 00:00 to 23:59",
            "write it like " + std::string(key) + " = \"04:30\"");
    return std::nullopt;
}

std::optional<Bound> Edge::get(Fields& f) const {
    const TomlValue* value = f.ask(key, Kind::text, need, "\"21C\" or \"21C | 70F\"");
    return value ? bound_of(f, key, value->text) : std::nullopt;
}

std::optional<Unit> UnitSymbol::get(Fields& f) const {
    const std::string text = Name{key, Need::yes}.get(f);
    const std::optional<Unit> unit = unit_from_symbol(text);
    if (!unit && !text.empty()) f.error(key, "unit is " + quoted(text), "a unit of measure", "write it like unit = \"C\"");
    return unit;
}

std::vector<std::string> Codes::get(Fields& f) const {
    return checked_list(f, key, [this](const std::string& code) { return check_code(key, code); });
}

std::vector<std::string> Names::get(Fields& f) const {
    return checked_list(f, key, [this](const std::string& name) { return check_text(key, name, longest_name, true); });
}

std::vector<std::string> Allergens::get(Fields& f) const {
    const std::vector<std::string> ids = Names{key}.get(f);
    for (std::size_t i = 0; i < ids.size(); ++i)
        if (auto checked = check_allergen(ids[i]); !checked) f.refuse(std::string(key) + "/" + std::to_string(i), checked.refusal());
    return ids;
}

std::vector<std::string> Gtins::get(Fields& f) const {
    const TomlValue* there = f.find(key);
    std::vector<std::string> gtins;
    if (there && there->is(Kind::array)) {
        gtins = Names{key}.get(f);
    } else if (f.ask(key, Kind::text, Need::no, "\"4012345000009\"")) {
        gtins = {there->text};
        if (auto checked = check_text(key, there->text, longest_name, true); !checked) f.refuse(key, checked.refusal());
    }
    for (std::size_t i = 0; i < gtins.size(); ++i)
        if (auto checked = check_gtin(gtins[i]); !checked) f.refuse(std::string(key) + "/" + std::to_string(i), checked.refusal());
    return gtins;
}

std::vector<std::string> Weekdays::get(Fields& f) const {
    const std::vector<std::string> days = Names{key}.get(f);
    const std::vector<std::string> known(std::begin(weekdays), std::end(weekdays));
    for (std::size_t i = 0; i < days.size(); ++i)
        if (std::find(known.begin(), known.end(), days[i]) == known.end())
            f.error(std::string(key) + "/" + std::to_string(i), std::string(key) + " has " + quoted(days[i]), any_of(known),
                    remedy_with(nearest(days[i], known, 1), "write one of these words"));
    return days;
}

std::vector<Date> Dates::get(Fields& f) const {
    std::vector<Date> days;
    const std::vector<std::string> texts = f.list(key, "[\"2026-12-25\"]", true);
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const Result<Date> day = parse_date(texts[i]);
        if (day)
            days.push_back(*day);
        else
            f.refuse(std::string(key) + "/" + std::to_string(i), day.refusal());
    }
    return days;
}

}  // namespace peelbook::plan
