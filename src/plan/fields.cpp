#include "plan/fields.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "base/text.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

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

// Two ways to state one bound may differ by rounding: 0.6 C of temperature (21 C is 69.8 F and is written 70
// F), a hundredth of anything else.
bool agree(const Measure& a, const Measure& b) {
    const std::int64_t apart = std::llabs(a.value - b.value);
    if (a.dimension() == Dimension::temperature) return apart <= 600;
    return apart <= std::llabs(a.value) / 100;
}

}  // namespace

Fields::Fields(Faults& faults, int file, const TomlValue& table, std::string path, std::string what)
    : faults_(faults), file_(file), table_(table), path_(std::move(path)), what_(std::move(what)) {
    faults_.mark(path_, {file_, table_.at});
}

const TomlValue* Fields::asked(std::string_view key) {
    asked_.emplace_back(key);
    const TomlValue* value = table_.find(key);
    if (value) faults_.mark(path_of(key), {file_, value->at});
    return value;
}

const TomlValue* Fields::asked(std::string_view key, TomlValue::Kind kind, Need need,
                               std::string_view example) {
    const TomlValue* value = asked(key);
    const std::string shape = std::string(key) + " = " + std::string(example);
    if (!value) {
        if (need == Need::yes) lacks(key, shape, "write it into this table");
        return nullptr;
    }
    if (value->is(kind)) return value;
    error(key, std::string(key) + " is " + std::string(name_of(value->kind)), std::string(name_of(kind)),
          "write it like " + shape);
    return nullptr;
}

void Fields::error(std::string_view key, std::string found, std::string wanted, std::string remedy) {
    faults_.error(path_of(key), what_ + ": " + std::move(found), std::move(wanted), std::move(remedy));
}

void Fields::refuse(std::string_view key, const Refusal& refusal) {
    faults_.refuse(faults_.spot(path_of(key)), what_ + " " + std::string(key.substr(0, key.find('/'))),
                   refusal);
}

void Fields::lacks(std::string_view key, std::string wanted, std::string remedy) {
    faults_.error(path_, what_ + " has no " + std::string(key), std::move(wanted), std::move(remedy));
}

std::string Fields::id() {
    const std::string word = what_;
    const std::string id = code("id", Need::yes);
    if (!id.empty()) what_ = word + " " + quoted(id);
    return id;
}

std::string Fields::code(std::string_view key, Need need) {
    const TomlValue* value = asked(key, TomlValue::Kind::text, need, "\"rye-flour\"");
    if (!value) return {};
    if (const Check bad = check_code(key, value->text)) {
        refuse(key, *bad);
        return {};
    }
    return value->text;
}

std::string Fields::name(std::string_view key, Need need) {
    const TomlValue* value = asked(key, TomlValue::Kind::text, need, "\"...\"");
    if (!value) return {};
    if (const Check bad = check_text(key, value->text, longest_name, true)) refuse(key, *bad);
    return value->text;
}

std::string Fields::prose(std::string_view key, Need need) {
    const TomlValue* value = asked(key, TomlValue::Kind::text, need, "\"...\"");
    if (!value) return {};
    const std::string text = folded(value->text);
    if (const Check bad = check_text(key, text, longest_note, true)) refuse(key, *bad);
    return text;
}

bool Fields::flag(std::string_view key, bool otherwise) {
    const TomlValue* value = asked(key, TomlValue::Kind::flag, Need::no, "true");
    return value ? value->flag : otherwise;
}

std::optional<std::int64_t> Fields::whole(std::string_view key, std::int64_t least) {
    const TomlValue* value = asked(key, TomlValue::Kind::whole, Need::no, "12");
    if (!value) return std::nullopt;
    constexpr std::int64_t most = 1'000'000'000;
    if (value->whole >= least && value->whole <= most) return value->whole;
    error(key, std::string(key) + " is " + std::to_string(value->whole),
          "a whole number from " + std::to_string(least) + " to " + std::to_string(most),
          "correct the number");
    return std::nullopt;
}

std::optional<std::int64_t> Fields::thousandths(std::string_view key, Need need) {
    const TomlValue* there = table_.find(key);
    const bool real = there && there->is(TomlValue::Kind::real);
    const TomlValue* value =
        asked(key, real ? TomlValue::Kind::real : TomlValue::Kind::whole, need, "5, or 6.5");
    if (!value) return std::nullopt;
    constexpr double most = 1000;
    const double number = real ? value->real : static_cast<double>(value->whole);
    if (number >= 0.001 && number <= most) return std::llround(number * 1000);
    error(key, std::string(key) + " is not above 0 and at most 1000", "a number like 5 or 6.5",
          "correct the number");
    return std::nullopt;
}

std::string Fields::choice(std::string_view key, const std::vector<std::string>& words, Need need) {
    const TomlValue* value = asked(key, TomlValue::Kind::text, need, "\"" + words.front() + "\"");
    if (!value) return need == Need::yes ? "" : words.front();
    if (std::find(words.begin(), words.end(), value->text) != words.end()) return value->text;
    error(key, std::string(key) + " is " + quoted(value->text), any_of(words),
          remedy_with(nearest(value->text, words, 1), "write one of these words"));
    return {};
}

std::vector<std::string> Fields::list(std::string_view key, std::string_view example, bool dates) {
    std::vector<std::string> found;
    const TomlValue* value = asked(key, TomlValue::Kind::array, Need::no, example);
    if (!value) return found;
    for (const TomlValue& item : value->items) {
        const std::string place = path_of(key) + "/" + std::to_string(found.size());
        if (!item.is(TomlValue::Kind::text) && !(dates && item.is(TomlValue::Kind::date))) {
            faults_.error({file_, item.at},
                          what_ + ": " + std::string(key) + " holds " + std::string(name_of(item.kind)),
                          "texts only", "write it like " + std::string(key) + " = " + std::string(example));
            continue;
        }
        faults_.mark(place, {file_, item.at});
        if (std::find(found.begin(), found.end(), item.text) != found.end())
            faults_.error({file_, item.at},
                          what_ + ": " + std::string(key) + " names " + quoted(item.text) + " twice",
                          "each name once", "take one of the two out");
        else
            found.push_back(item.text);
    }
    return found;
}

std::vector<std::string> Fields::codes(std::string_view key) {
    const std::vector<std::string> found = list(key, "[\"first\", \"second\"]", false);
    for (std::size_t i = 0; i < found.size(); ++i)
        if (const Check bad = check_code(key, found[i]))
            refuse(std::string(key) + "/" + std::to_string(i), *bad);
    return found;
}

std::vector<std::string> Fields::names(std::string_view key) {
    const std::vector<std::string> found = list(key, "[\"first\", \"second\"]", false);
    for (std::size_t i = 0; i < found.size(); ++i)
        if (const Check bad = check_text(key, found[i], longest_name, true))
            refuse(std::string(key) + "/" + std::to_string(i), *bad);
    return found;
}

std::vector<std::string> Fields::one_or_more(std::string_view key, std::string_view example) {
    const TomlValue* value = table_.find(key);
    if (value && value->is(TomlValue::Kind::array)) return names(key);
    value = asked(key, TomlValue::Kind::text, Need::no, example);
    if (!value) return {};
    if (const Check bad = check_text(key, value->text, longest_name, true)) refuse(key, *bad);
    faults_.mark(path_of(key) + "/0", faults_.spot(path_of(key)));
    return {value->text};
}

std::vector<std::string> Fields::date_texts(std::string_view key) {
    return list(key, "[\"2026-12-25\"]", true);
}

std::optional<Measure> Fields::measure(std::string_view key, Dimension wanted, Need need) {
    const std::string_view example = wanted == Dimension::mass ? "\"20kg\"" : "\"2.5%\"";
    const TomlValue* value = asked(key, TomlValue::Kind::text, need, example);
    if (!value) return std::nullopt;
    const Result<Measure> parsed = parse_measure(value->text, wanted);
    if (parsed) return *parsed;
    refuse(key, parsed.refusal());
    return std::nullopt;
}

std::optional<Measure> Fields::any_measure(std::string_view key) {
    const TomlValue* value = asked(key, TomlValue::Kind::text, Need::no, "\"0.5C\"");
    if (!value) return std::nullopt;
    const Result<Measure> parsed = parse_measure(value->text);
    if (parsed) return *parsed;
    refuse(key, parsed.refusal());
    return std::nullopt;
}

std::optional<Duration> Fields::period(std::string_view key, Need need) {
    const TomlValue* value = asked(key, TomlValue::Kind::text, need, "\"2h30min\"");
    if (!value) return std::nullopt;
    const Result<Duration> parsed = parse_duration(value->text);
    if (!parsed) {
        refuse(key, parsed.refusal());
        return std::nullopt;
    }
    if (parsed->ms > 0) return *parsed;
    error(key, std::string(key) + " is " + quoted(value->text), "a time longer than nothing",
          "correct the time");
    return std::nullopt;
}

std::optional<Bound> Fields::bound(std::string_view key, Need need) {
    const TomlValue* value = asked(key, TomlValue::Kind::text, need, "\"21C\" or \"21C | 70F\"");
    return value ? bound_of(key, value->text) : std::nullopt;
}

std::optional<Bound> Fields::bound_of(std::string_view key, const std::string& text) {
    const std::vector<std::string> parts = split(text, '|');
    const std::string found = std::string(key) + " is " + quoted(text);
    if (parts.size() > 2) {
        error(key, found, "one measure, or the same one in two units: \"21C | 70F\"", "leave two of them");
        return std::nullopt;
    }
    const Result<Measure> first = parse_measure(parts.front());
    if (!first) {
        refuse(key, first.refusal());
        return std::nullopt;
    }
    if (parts.size() == 1) return Bound{*first, std::nullopt};
    const Result<Measure> second = parse_measure(parts.back(), first->dimension());
    if (!second) {
        refuse(key, second.refusal());
        return std::nullopt;
    }
    if (first->unit == second->unit) {
        error(key, found, "two different units", "leave one of them");
    } else if (!agree(*first, *second)) {
        const int decimals = first->dimension() == Dimension::temperature ? 1 : 3;
        error(key,
              found + ", but " + to_text(*second) + " is " + to_text(second->value, first->unit, decimals),
              "two units that say the same", "correct one of the two numbers");
    } else {
        return Bound{*first, *second};
    }
    return std::nullopt;
}

std::optional<int> Fields::clock(std::string_view key) {
    const TomlValue* value = asked(key, TomlValue::Kind::text, Need::no, "\"04:30\"");
    if (!value) return std::nullopt;
    if (const std::optional<int> minutes = clock_minutes(value->text)) return minutes;
    error(key, std::string(key) + " is " + quoted(value->text), "a time of day from 00:00 to 23:59",
          "write it like " + std::string(key) + " = \"04:30\"");
    return std::nullopt;
}

bool Fields::inside(std::string_view key, const std::function<void(Fields&)>& read) {
    const TomlValue* value = asked(key, TomlValue::Kind::table, Need::no, "{ ... }");
    if (!value) return false;
    Fields inner(faults_, file_, *value, path_of(key), what_ + " " + std::string(key));
    read(inner);
    inner.done();
    return true;
}

bool Fields::each(std::string_view key, const std::string& item_word,
                  const std::function<void(Fields&)>& read) {
    const TomlValue* value = asked(key, TomlValue::Kind::array, Need::no, "[ { ... }, { ... } ]");
    if (!value) return false;
    for (std::size_t i = 0; i < value->items.size(); ++i) {
        const TomlValue& item = value->items[i];
        const std::string place = path_of(key) + "/" + std::to_string(i);
        const std::string what = what_ + " " + item_word + " " + std::to_string(i + 1);
        if (!item.is(TomlValue::Kind::table)) {
            faults_.error({file_, item.at}, what + " is " + std::string(name_of(item.kind)), "a table",
                          "write it like " + std::string(key) + " = [ { ... }, { ... } ]");
            continue;
        }
        Fields inner(faults_, file_, item, place, what);
        read(inner);
        inner.done();
    }
    return true;
}

void Fields::done() {
    for (const TomlEntry& entry : table_.entries) {
        if (std::find(asked_.begin(), asked_.end(), entry.key) != asked_.end()) continue;
        faults_.error({file_, entry.at}, what_ + ": unknown key " + quoted(entry.key), "a key of this table",
                      remedy_with(nearest(entry.key, asked_), "it may be one of: " + joined(asked_, ", ")));
    }
}

}  // namespace peelbook::plan
