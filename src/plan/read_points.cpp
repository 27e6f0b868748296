// Control points; their limits are read_limits.cpp.
#include "base/text.h"
#include "base/words.h"
#include "plan/sections.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

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

void check_unit(Fields& f, const std::string& unit_text, const Point& point, bool limit_known) {
    if (unit_text.empty() || (limit_known && std::holds_alternative<ClassLimit>(point.limit))) return;
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
    return from_word<Grade>(f.choice("class", {"critical", "operating", "quality"}, Need::yes)).value_or(Grade::critical);
}

}  // namespace

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
        point.dimension = dimension_of(*limit);
        point.limit_text = limit_words(*limit);
    }
    check_unit(f, unit, point, limit.has_value());
    read_warning(f, point);
    point.units = f.names("units");
    read_interval(f, point);
    point.chart = f.flag("chart", false);
    if (point.chart && limit && !point.dimension && !figure_dimension(*limit))
        f.error("chart", "chart of a point that gives no number", "a measured value, a time between two events or a loss",
                "take chart out");
    point.optional = f.flag("optional", false);
    point.instrument_needed = f.flag("instrument", point.grade == Grade::critical && is_measured(point));
    point.guarded = f.choice("acceptance", {"simple", "guarded"}, Need::no) == "guarded";
    point.room = f.measure("room", Dimension::temperature);
    point.room_point = f.code("room_point", Need::no);
    point.lines = f.codes("lines");
    read_what_it_is_for(f, point);
    if (point.step.empty() && !point.materials.empty()) point.step = "receive";
    return point;
}

}  // namespace peelbook::plan
