// The kinds of words and options that options.h offers, apart from the parser.
#include <algorithm>
#include <charconv>
#include <memory>
#include <utility>

#include "base/text.h"
#include "cli/frame/options.h"

namespace peelbook::cli {
namespace {

// A refusal about a value says which option it was typed for.
Refusal about_option(const std::string& name, Refusal refusal) {
    refusal.given = name + ": " + refusal.given;
    return refusal;
}

// Takes one value through `read`, a function from text to Result.
template <class To, class Read> Options::Take one_value(To& to, std::string name, Read read) {
    return [&to, name = std::move(name), read](const std::vector<std::string>& typed) -> Check {
        auto value = read(typed.front());
        if (!value) return about_option(name, value.refusal());
        to = std::move(*value);
        return {};
    };
}

Options::Take plain(std::string& to) {
    return [&to](const std::vector<std::string>& typed) -> Check {
        to = typed.front();
        return {};
    };
}

Options::Take all_of(std::vector<std::string>& to) {
    return [&to](const std::vector<std::string>& typed) -> Check {
        to = typed;
        return {};
    };
}

Result<std::int64_t> whole_number(std::string_view text, std::int64_t least, std::string_view what) {
    std::int64_t n = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), n);
    const std::string wanted = "a whole number of " + std::string(what) + " from " + std::to_string(least);
    if (error != std::errc() || end != text.data() + text.size() || n < least || n > 1'000'000'000'000)
        return Refusal{"'" + shown(text) + "'", wanted, "type digits only", {}};
    return n;
}

}  // namespace

Result<std::int64_t> parse_count(std::string_view text) { return whole_number(text, 1, "pieces"); }

Result<Amount> parse_amount(std::string_view text) {
    if (text == "rest") return Amount{.mass = {}, .pieces = 0, .rest = true};
    const auto measure = parse_measure(text);
    if (!measure) return measure.refusal();
    if (measure->dimension() == Dimension::mass) return Amount{.mass = *measure, .pieces = 0, .rest = false};
    if (measure->dimension() == Dimension::pieces) return Amount{.mass = {}, .pieces = measure->value, .rest = false};
    return Refusal{
        "'" + shown(text) + "'", "a mass (90kg, 200lb), pieces (240pcs) or the word rest", "type the quantity with its unit", {}};
}

Result<Amount> parse_part_amount(std::string_view text) {
    const bool bare = !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
    if (!bare) return parse_amount(text);
    const auto pieces = parse_count(text);
    if (!pieces) return pieces.refusal();
    return Amount{.mass = {}, .pieces = *pieces, .rest = false};
}

Options& Options::row(Row row) {
    row.common = common_;
    rows_.push_back(std::move(row));
    return *this;
}

Options& Options::common_from_here() {
    common_ = true;
    return *this;
}

Options& Options::word(std::string& to, std::string name, std::string about, Need need) {
    return row({std::move(name), "", std::move(about), need == Need::wanted, false, plain(to)});
}

Options& Options::words(std::vector<std::string>& to, std::string name, std::string about, Need need) {
    return row({std::move(name), "", std::move(about), need == Need::wanted, true, all_of(to)});
}

Options& Options::amount(Amount& to, std::string name, std::string about, Need need) {
    return row({name, "", std::move(about), need == Need::wanted, false,
                one_value(to, name, [](const std::string& text) { return parse_amount(text); })});
}

Options& Options::seq_word(std::int64_t& to, std::string name, std::string about) {
    return row({name, "", std::move(about), true, false,
                one_value(to, name, [](const std::string& text) { return whole_number(text, 1, "the entry"); })});
}

Options& Options::text(std::string& to, std::string name, std::string value, std::string about, Need need) {
    return row({std::move(name), std::move(value), std::move(about), need == Need::wanted, false, plain(to)});
}

Options& Options::each(std::vector<std::string>& to, std::string name, std::string value, std::string about, Need need) {
    return row({std::move(name), std::move(value), std::move(about), need == Need::wanted, true, all_of(to)});
}

Options& Options::list(std::vector<std::string>& to, std::string name, std::string about) {
    return row({std::move(name), "A,B", std::move(about), false, true, [&to](const std::vector<std::string>& typed) -> Check {
                    for (const std::string& text : typed)
                        for (const std::string& part : split(text, ','))
                            if (!trimmed(part).empty()) to.emplace_back(trimmed(part));
                    return {};
                }});
}

Options& Options::flag(bool& to, std::string name, std::string about) {
    return row({std::move(name), "", std::move(about), false, false, [&to](const std::vector<std::string>&) -> Check {
                    to = true;
                    return {};
                }});
}

Options& Options::pieces(std::int64_t& to, std::string name, std::string about) {
    return row({name, "N", std::move(about), false, false, one_value(to, name, [](const std::string& text) { return parse_count(text); })});
}

Options& Options::mass(std::optional<Measure>& to, std::string name, std::string about) {
    return row({name, "MASS", std::move(about), false, false,
                one_value(to, name, [](const std::string& text) { return parse_measure(text, Dimension::mass); })});
}

Options& Options::temperature(std::optional<Measure>& to, std::string name, std::string about) {
    return row({name, "TEMPERATURE", std::move(about), false, false,
                one_value(to, name, [](const std::string& text) { return parse_measure(text, Dimension::temperature); })});
}

Options& Options::measure(std::optional<Measure>& to, std::string name, std::string about) {
    return row(
        {name, "VALUE", std::move(about), false, false, one_value(to, name, [](const std::string& text) { return parse_measure(text); })});
}

Options& Options::duration(std::optional<Duration>& to, std::string name, std::string about) {
    return row(
        {name, "TIME", std::move(about), false, false, one_value(to, name, [](const std::string& text) { return parse_duration(text); })});
}

Options& Options::date(std::optional<Date>& to, std::string name, std::string about) {
    return row(
        {name, "DATE", std::move(about), false, false, one_value(to, name, [](const std::string& text) { return parse_date(text); })});
}

Options& Options::one_of(std::string& to, std::string name, std::vector<std::string> allowed, std::string about, Need need) {
    const auto read = [allowed](const std::string& text) -> Result<std::string> {
        if (std::find(allowed.begin(), allowed.end(), text) != allowed.end()) return text;
        return Refusal{"'" + shown(text) + "'", "one of " + joined(allowed, ", "), "type one of these words",
                       peelbook::nearest(text, allowed)};
    };
    const bool named = name.starts_with("--");
    return row({name, named ? joined(allowed, "|") : "", std::move(about), need == Need::wanted, false, one_value(to, name, read)});
}

}  // namespace peelbook::cli
