// Control points and their limits.
#include <algorithm>

#include "base/text.h"
#include "plan/sections.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

const std::vector<std::string> bound_keys = {"least", "most"};
const std::vector<std::string> limit_keys = {"time", "cooling", "before_packing", "yes_no", "label"};
constexpr std::string_view limit_forms =
    "one of: { least = \"93C\", most = \"99C\" }, { time = { from = \"mix\", until = \"bake\", most = \"4h\" "
    "} }, "
    "{ cooling = { from = \"57C\", stages = [ { to = \"21C\", within = \"2h\" } ], counted = \"start\" } }, "
    "{ before_packing = { most = \"35C\" } }, { yes_no = true }, { label = { at = [\"start\", \"end\"] } }";

std::optional<Limit> read_range(Fields& limit) {
    RangeLimit range{limit.bound("least"), limit.bound("most")};
    if (!range.least && !range.most) return std::nullopt;
    return range;
}

std::optional<Limit> read_time(Fields& time) {
    TimeLimit limit;
    limit.from = time.code("from", Need::yes);
    limit.until = time.code("until", Need::yes);
    limit.least = time.period("least");
    limit.most = time.period("most");
    if (!time.has("least") && !time.has("most"))
        time.lacks("bound", "least = \"1h\", most = \"4h\" or both", "write one");
    if (!limit.least && !limit.most) return std::nullopt;
    return limit;
}

std::optional<Limit> read_cooling(Fields& cooling) {
    const std::optional<Bound> from = cooling.bound("from", Need::yes);
    std::vector<CoolingLimit::Stage> stages;
    bool whole = true;
    cooling.each("stages", "stage", [&](Fields& stage) {
        const std::optional<Bound> to = stage.bound("to", Need::yes);
        const std::optional<Duration> within = stage.period("within", Need::yes);
        if (to && within)
            stages.push_back({*to, *within});
        else
            whole = false;
    });
    if (!cooling.has("stages"))
        cooling.lacks("stages", "stages = [ { to = \"21C\", within = \"2h\" } ]", "write at least one");
    const std::string counted = cooling.choice("counted", {"start", "previous"}, Need::yes);
    const std::string hot_at = cooling.code("hot_at", Need::no);
    if (!from || !whole || stages.empty()) return std::nullopt;
    return CoolingLimit{*from, stages, counted == "previous", hot_at};
}

std::optional<Limit> read_before_packing(Fields& packing) {
    const std::optional<Bound> most = packing.bound("most", Need::yes);
    if (!most) return std::nullopt;
    return BeforePackingLimit{*most};
}

std::optional<Limit> read_label_check(Fields& label) {
    LabelLimit limit;
    limit.at = label.names("at");
    limit.most_lost = label.whole("most_lost", 0).value_or(0);
    const std::vector<std::string> known(std::begin(label_moments), std::end(label_moments));
    for (std::size_t i = 0; i < limit.at.size(); ++i)
        if (std::find(known.begin(), known.end(), limit.at[i]) == known.end())
            label.error("at/" + std::to_string(i), "moment " + quoted(limit.at[i]), "one of: " + joined(known, ", "),
                        remedy_with(nearest(limit.at[i], known), "take it out"));
    if (std::find(limit.at.begin(), limit.at.end(), "start") == limit.at.end())
        label.error("at", "labels are not read at the start of a run", "\"start\" among the moments",
                    "write at = [\"start\", \"end\"]");
    return limit;
}

std::optional<Limit> read_one_limit(Fields& limit) {
    std::optional<Limit> found;
    std::vector<std::string> given;
    for (const std::string& key : bound_keys)
        if (limit.has(key) && given.empty()) given.emplace_back("least or most");
    for (const std::string& key : limit_keys)
        if (limit.has(key)) given.push_back(key);
    if (given.size() > 1)
        limit.error("", "more than one limit: " + all_of(given), "one limit a point",
                    "make a point of its own for each");
    if (const std::optional<Limit> range = read_range(limit)) found = range;
    limit.inside("time", [&](Fields& time) { found = read_time(time); });
    limit.inside("cooling", [&](Fields& cooling) { found = read_cooling(cooling); });
    limit.inside("before_packing", [&](Fields& packing) { found = read_before_packing(packing); });
    limit.inside("label", [&](Fields& label) { found = read_label_check(label); });
    const bool inspection = limit.flag("yes_no", false);
    if (inspection) found = YesNoLimit{};
    if (limit.has("yes_no") && !inspection)
        limit.error("yes_no", "yes_no is not true", "yes_no = true, or another limit",
                    "write what must hold");
    if (given.empty()) limit.error("", "no limit is given", std::string(limit_forms), "write what must hold");
    return found;
}

void read_warning(Fields& f, Point& point) {
    f.inside("warn", [&](Fields& warn) {
        point.warn_least = warn.bound("least");
        point.warn_most = warn.bound("most");
    });
}

void read_interval(Fields& f, Point& point) {
    Interval interval;
    const std::optional<Duration> every = f.period("every");
    const std::string hours = f.name("hours", Need::no);
    interval.device_check = f.flag("device_check", false);
    if (!hours.empty()) {
        const std::vector<std::string> ends = split(hours, '-');
        interval.from_minutes = clock_minutes(trimmed(ends.front()));
        interval.until_minutes = ends.size() == 2 ? clock_minutes(trimmed(ends.back())) : std::nullopt;
        if (!interval.from_minutes || !interval.until_minutes ||
            interval.from_minutes == interval.until_minutes)
            f.error("hours", "hours is " + quoted(hours), "two different times of day",
                    "write it like hours = \"04:00-20:00\"");
        if (!f.has("every"))
            f.error("hours", "hours without every", "how often within these hours",
                    "write every = \"1h\" too");
    }
    if (interval.device_check && !f.has("every"))
        f.error("device_check", "device_check without every", "how often the device is checked",
                "write every = \"1h\" too");
    if (!every) return;
    interval.every = *every;
    point.interval = interval;
}

std::optional<Dimension> dimension_read(const Limit& limit) {
    if (const auto* range = std::get_if<RangeLimit>(&limit))
        return (range->least ? *range->least : *range->most).first.dimension();
    if (const auto* cooling = std::get_if<CoolingLimit>(&limit)) return cooling->from.first.dimension();
    if (const auto* packing = std::get_if<BeforePackingLimit>(&limit)) return packing->most.first.dimension();
    return std::nullopt;
}

void check_unit(Fields& f, const std::string& unit_text, const Point& point, bool limit_known) {
    if (unit_text.empty()) return;
    const std::optional<Unit> unit = unit_from_symbol(unit_text);
    if (!unit) {
        f.error("unit", "unit is " + quoted(unit_text), "a unit of measure", "write it like unit = \"C\"");
    } else if (limit_known && point.dimension && dimension_of(*unit) != *point.dimension) {
        f.error("unit",
                "unit " + quoted(unit_text) + " is of " + std::string(name_of(dimension_of(*unit))) +
                    ", but the limit is of " + std::string(name_of(*point.dimension)),
                "one and the same", "correct the unit or the limit");
    }
}

void read_what_it_is_for(Fields& f, Point& point) {
    point.how_often = f.prose("how_often", Need::no);
    point.who = f.prose("by", Need::no);
    point.basis = f.prose("basis", Need::no);
    f.inside("action", [&](Fields& action) {
        point.product_action = action.prose("product", Need::no);
        point.process_action = action.prose("process", Need::no);
    });
    if (point.grade != Grade::critical) return;
    if (point.basis.empty() && !f.has("basis"))
        f.lacks("basis", "the source or the validation that a critical limit rests on",
                "write basis = \"...\"");
    if (point.product_action.empty())
        f.lacks("action for the product", "what is done with the product when a critical limit breaks",
                "write action = { product = \"...\", process = \"...\" }");
    if (point.process_action.empty())
        f.lacks("action for the process", "what is done to the process when a critical limit breaks",
                "write action = { product = \"...\", process = \"...\" }");
}

Grade read_grade(Fields& f) {
    const std::string word = f.choice("class", {"critical", "operating", "quality"}, Need::yes);
    if (word == "operating") return Grade::operating;
    return word == "quality" ? Grade::quality : Grade::critical;
}

}  // namespace

std::optional<Limit> read_limit(Fields& point) {
    std::optional<Limit> found;
    if (!point.has("limit")) point.lacks("limit", std::string(limit_forms), "write what must hold");
    point.inside("limit", [&](Fields& limit) { found = read_one_limit(limit); });
    return found;
}

Point read_point(Fields& f) {
    Point point;
    point.id = f.id();
    point.name = f.name("name", Need::yes);
    point.step = f.code("step", Need::no);
    point.products = f.codes("products");
    point.materials = f.codes("materials");
    point.place = f.code("place", Need::no);
    point.grade = read_grade(f);
    point.hazard = f.code("hazard", Need::no);
    point.measures = f.name("measures", Need::no);
    const std::string unit = f.name("unit", Need::no);
    const std::optional<Limit> limit = read_limit(f);
    if (limit) {
        point.limit = *limit;
        point.dimension = dimension_read(*limit);
        point.limit_text = limit_words(*limit);
    }
    check_unit(f, unit, point, limit.has_value());
    read_warning(f, point);
    point.units = f.names("units");
    read_interval(f, point);
    point.optional = f.flag("optional", false);
    point.instrument_needed =
        f.flag("instrument", point.grade == Grade::critical && point.dimension.has_value());
    point.lines = f.codes("lines");
    read_what_it_is_for(f, point);
    if (point.step.empty() && !point.materials.empty()) point.step = "receive";
    return point;
}

}  // namespace peelbook::plan
