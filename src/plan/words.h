#pragma once
// Small phrases that messages and `plan show` share.
#include <string>
#include <string_view>
#include <vector>

#include "plan/plan.h"

namespace peelbook::plan {

std::string quoted(std::string_view name);                  // 'pan-loaf'
std::string any_of(const std::vector<std::string>& names);  // 'a', 'b' or 'c'
std::string all_of(const std::vector<std::string>& names);  // a, b and c
std::string percent_text(std::int64_t micro_percent);       // 62,500,000: "62.5%"
std::string thousandths_text(std::int64_t milli);           // 6,500: "6.5"
std::string period_text(Duration d);                        // "2 h", "2 h 30 min", "3 days"
std::string minute_of_day_text(int minutes);                // 245: "04:05"
std::optional<int> clock_minutes(std::string_view text);    // "04:05" to 245; nothing unless HH:MM up to 23:59

// The limit in words: "at least 93C", "mix to bake: at most 4 h", ...
std::string limit_words(const Limit& limit);
// An event of a batch as TimeLimit names it: "the start", "the first packing", "the end of mix".
std::string event_words(std::string_view event);
// What the figure of a limit (figure_dimension) is: "from the end of mix to the end of proof", "lost from scaled to finish"; empty
// when it has none.
std::string figure_words(const Limit& limit);
// "at least 93C", "at most 5C | 41F", "from 2C to 5C"; empty when both are absent.
std::string range_words(const std::optional<Bound>& least, const std::optional<Bound>& most);
// "every 1 h from 04:00 to 20:00"
std::string interval_words(const Interval& interval);
// "shown by a logger's file"; empty when the plan does not say
std::string closed_words(const Interval& interval);

std::string item_words(const FormulaItem& item);            // "62%, flour"
std::string character_words(const std::string& character);  // "a tab", "';'"
std::string column_words(const LoggerColumn& column);       // "in C, for chill-air"
std::string acceptance_words(const Point& point);           // empty for simple acceptance, which is the usual one
std::string read_on_words(const Point& point);              // empty when its readings end with its step
std::string reading_words(const Limit& limit);              // what its readings must be like to show anything; empty: nothing said
std::string window_words(const Window& window);             // "from the end of bake until 10 min after the end of cool"; empty: as usual
std::string source_of_d_and_z(const Limit& limit);          // empty for other kinds than lethality

}  // namespace peelbook::plan
