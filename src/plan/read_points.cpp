// Control points; their limits are read_limits.cpp.
#include "base/text.h"
#include "plan/complete.h"
#include "plan/lists.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

// A limit that was read: a range has a bound.
bool is_known(const Limit& limit) {
    const auto* range = std::get_if<RangeLimit>(&limit);
    return !range || range->least || range->most;
}

void check_unit(Fields& f, const Point& point) {
    const TomlValue* text = f.find("unit");
    if (!text || !text->is(TomlValue::Kind::text) || text->text.empty()) return;
    if (std::holds_alternative<ClassLimit>(point.limit)) return;
    const std::optional<Unit> unit = unit_from_symbol(text->text);
    if (!unit)
        f.error("unit", "unit is " + quoted(text->text), "a unit of measure", "write it like unit = \"C\"");
    else if (point.dimension && dimension_of(*unit) != *point.dimension)
        f.error("unit",
                "unit " + quoted(text->text) + " is of " + std::string(name_of(dimension_of(*unit))) + ", but the limit is of " +
                    std::string(name_of(*point.dimension)),
                "one and the same", "correct the unit or the limit");
}

void check_critical(Fields& f, const Point& point) {
    if (point.grade != Grade::critical) return;
    const std::string actions = "write action = { product = \"...\", process = \"...\" }";
    if (point.basis.empty() && !f.has("basis"))
        f.lacks("basis", "the source or the validation that a critical limit rests on", "write basis = \"...\"");
    if (point.product_action.empty())
        f.lacks("action for the product", "what is done with the product when a critical limit breaks", actions);
    if (point.process_action.empty())
        f.lacks("action for the process", "what is done to the process when a critical limit breaks", actions);
}

}  // namespace

std::optional<Interval> IntervalKeys::get(Fields& f) const {
    Interval interval;
    const std::optional<Duration> every = Period{"every"}.get(f);
    const std::string hours = Name{"hours"}.get(f);
    interval.device_check = Flag{"device_check"}.get(f).value_or(false);
    if (!hours.empty()) {
        const std::vector<std::string> ends = split(hours, '-');
        interval.from_minutes = clock_minutes(trimmed(ends.front()));
        interval.until_minutes = ends.size() == 2 ? clock_minutes(trimmed(ends.back())) : std::nullopt;
        if (!interval.from_minutes || !interval.until_minutes || interval.from_minutes == interval.until_minutes)
            f.error("hours", "hours is " + quoted(hours), "two different times of day", "write it like hours = \"04:00-20:00\"");
        if (!f.has("every")) f.error("hours", "hours without every", "how often within these hours", "write every = \"1h\" too");
    }
    if (interval.device_check && !f.has("every"))
        f.error("device_check", "device_check without every", "how often the device is checked", "write every = \"1h\" too");
    interval.at = Names{"at"}.get(f);
    const std::vector<std::string> known(std::begin(run_moments), std::end(run_moments));
    for (std::size_t i = 0; i < interval.at.size(); ++i)
        if (!among(known, interval.at[i]))
            f.error("at/" + std::to_string(i), "moment " + quoted(interval.at[i]), "one of: " + joined(known, ", "),
                    remedy_with(nearest(interval.at[i], known), "take it out"));
    if (!interval.at.empty() && !interval.device_check)
        f.error("at", "at of a check that is of no device", "at with device_check = true", "write device_check = true, or take at out");
    const std::string closed = IfThere<OneOf>{{"closed", ways_closed, Need::yes}}.get(f);
    interval.closed = from_word<Closed>(closed).value_or(Closed::unsaid);
    interval.alarm = Code{"alarm"}.get(f);
    for (const std::string_view key : {"closed", "alarm"})
        if (f.has(key) && !f.has("every"))
            f.error(key, std::string(key) + " without every", "how often it is checked while the house is open",
                    "write every = \"1h\" too");
    if (f.has("alarm") != (closed == "alarm"))
        f.error(f.has("alarm") ? "alarm" : "closed",
                f.has("alarm") ? "alarm without closed = \"alarm\"" : "closed = \"alarm\" and no alarm",
                "closed = \"alarm\", alarm = \"POINT\" that tests it", "write both, or neither");
    if (!every) return std::nullopt;
    interval.every = *every;
    return interval;
}

void complete(Fields& f, Point& point) {
    const bool known = is_known(point.limit);
    if (known) {
        point.dimension = dimension_of(point.limit);
        point.limit_text = limit_words(point.limit);
    }
    check_unit(f, point);
    if (point.chart && known && !point.dimension && !figure_dimension(point.limit))
        f.error("chart", "chart of a point that gives no number", "a measured value, a time between two events or a loss",
                "take chart out");
    const TomlValue* instrument = f.find("instrument");
    if (!instrument || !instrument->is(TomlValue::Kind::flag))
        point.instrument_needed = point.grade == Grade::critical && is_measured(point);
    check_critical(f, point);
    if (point.step.empty() && !point.materials.empty()) point.step = "receive";
}

}  // namespace peelbook::plan
