#pragma once
// The forms in which a value may be written in a table of the plan: under which key, whether it must be there, and what is right.
// A form reads itself from the table that is being read: what is absent or wrong is told, and comes back as nothing, so that
// reading goes on and every fault is told. lists.h says which member of a struct has which form.
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "plan/fields.h"
#include "plan/plan.h"

namespace peelbook::plan {

struct Id {  // key "id": a code; the faults of the table name it from then on
    std::string get(Fields& f) const;
};
struct Code {
    std::string_view key;
    Need need = Need::no;
    std::string get(Fields& f) const;
};
struct Name {  // one line, at most longest_name bytes
    std::string_view key;
    Need need = Need::no;
    Check (*check)(std::string_view) = nullptr;  // of what is not empty
    std::string get(Fields& f) const;
};
struct Prose {  // any white space becomes one blank, at most longest_note bytes
    std::string_view key;
    Need need = Need::no;
    std::string get(Fields& f) const;
};
struct OneOf {  // one of `words`, the first when absent; of an enum each choice has its word
    std::string_view key;
    std::span<const std::string_view> words;
    Need need = Need::no;
    std::string get(Fields& f) const;
};
struct IsWord {  // true for one of the words of OneOf
    OneOf of;
    std::string_view word;
    std::optional<bool> get(Fields& f) const;
};
template <class Form> struct IfThere {  // empty when absent
    Form form;
    std::string get(Fields& f) const { return f.has(form.key) ? form.get(f) : ""; }
};
struct Flag {
    std::string_view key;
    std::optional<bool> get(Fields& f) const;
};
struct Whole {
    std::string_view key;
    std::int64_t least;
    std::optional<std::int64_t> get(Fields& f) const;
};
struct Thousandths {  // 5 or 6.5: above 0, at most 1000
    std::string_view key;
    Need need = Need::no;
    std::optional<std::int64_t> get(Fields& f) const;
};
struct Amount {  // a measure; of an integer its canonical value
    std::string_view key;
    std::optional<Dimension> dimension;  // none: any
    Need need = Need::no;
    std::optional<Measure> get(Fields& f) const;
};
struct MicroPercent {  // a percentage as typed, in millionths of a percent
    std::string_view key;
    std::optional<std::int64_t> get(Fields& f) const;
};
struct ShareOfMillion {  // a percentage as a share of 1,000,000
    std::string_view key;
    std::optional<std::int64_t> get(Fields& f) const;
};
struct Period {  // more than nothing
    std::string_view key;
    Need need = Need::no;
    std::optional<Duration> get(Fields& f) const;
};
struct TimeOfDay {  // "04:30": minutes after midnight
    std::string_view key;
    Need need = Need::no;
    std::optional<int> get(Fields& f) const;
};
struct Edge {  // a bound: "21C" or "21C | 70F"
    std::string_view key;
    Need need = Need::no;
    std::optional<Bound> get(Fields& f) const;
};
struct UnitSymbol {
    std::string_view key;
    std::optional<Unit> get(Fields& f) const;
};
struct Codes {  // a list of codes, no code twice
    std::string_view key;
    std::vector<std::string> get(Fields& f) const;
};
struct Names {
    std::string_view key;
    std::vector<std::string> get(Fields& f) const;
};
struct Allergens {  // words of the vocabulary
    std::string_view key;
    std::vector<std::string> get(Fields& f) const;
};
struct Gtins {  // one, or a list: goods of several suppliers bear several numbers
    std::string_view key;
    std::vector<std::string> get(Fields& f) const;
};
struct Weekdays {  // "mon" to "sun"
    std::string_view key;
    std::vector<std::string> get(Fields& f) const;
};
struct Dates {
    std::string_view key;
    std::vector<Date> get(Fields& f) const;
};

struct NothingMore {
    void operator()(const auto&...) const {}
};
struct Table {  // a table of its own: a struct that lists its fields
    std::string_view key;
};
template <class More = NothingMore> struct Tables {  // a list of them
    std::string_view key;
    std::string_view item;       // what one is called: "stage"
    std::string_view example{};  // of one; not empty: at least one must be there
    More more{};                 // what else is looked at in each: more(Fields&, item)
};
struct Section {  // [[key]] tables of the plan
    std::string_view key;
};

// Keys of a point's own table that are one value: every, hours, device_check, at, closed, alarm.
struct IntervalKeys {
    std::optional<Interval> get(Fields& f) const;
};
// The table `limit`, of whichever kind; none when it is absent or cannot be told.
struct LimitTable {
    std::optional<Limit> get(Fields& f) const;
};

}  // namespace peelbook::plan
