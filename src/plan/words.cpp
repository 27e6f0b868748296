#include "plan/words.h"

#include "base/text.h"
#include "base/units.h"
#include "plan/boundaries.h"

namespace peelbook::plan {
namespace {

std::string list_text(const std::vector<std::string>& names, std::string_view last_word) {
    if (names.empty()) return {};
    std::string text = names.front();
    for (std::size_t i = 1; i < names.size(); ++i) text += (i + 1 == names.size() ? " " + std::string(last_word) + " " : ", ") + names[i];
    return text;
}

std::string any_word(const std::vector<std::string>& names) { return list_text(names, "or"); }

std::string period_range(const std::optional<Duration>& least, const std::optional<Duration>& most) {
    if (least && most) return "from " + period_text(*least) + " to " + period_text(*most);
    if (least) return "at least " + period_text(*least);
    return most ? "at most " + period_text(*most) : "";
}

std::string words(const RangeLimit& l) { return range_words(l.least, l.most); }

std::string words(const TimeLimit& l) { return l.from + " to " + l.until + ": " + period_range(l.least, l.most); }

std::string words(const CoolingLimit& l) {
    std::string text = "from " + to_text(l.from);
    for (const CoolingLimit::Stage& stage : l.stages)
        text += (&stage == &l.stages.front() ? " to " : ", to ") + to_text(stage.to) + " within " + period_text(stage.within);
    text += l.each_from_previous ? ", each counted from the one before" : ", counted from the start";
    if (!l.hot_at.empty()) text += "; hot until the end of " + l.hot_at;
    if (!l.starts_at.empty()) text += "; the clock starts with " + l.starts_at;
    return text;
}

std::string words(const BeforePackingLimit& l) { return "at most " + to_text(l.most) + " before packing"; }

std::string words(const YesNoLimit&) { return "must pass"; }

std::string words(const LethalityLimit& l) {
    return "at least " + thousandths_text(l.wanted_milli_log) + " log: D " + period_text(l.d) + " at " + to_text(l.t_ref) + ", z " +
           to_text(l.z) + ", studied " + to_text(l.studied_from) + " to " + to_text(l.studied_to) + " for " + any_word(l.foods) + "; cap " +
           thousandths_text(l.cap_milli_log) + " log";
}

std::string words(const ClassLimit& l) {
    return std::string("pH and water activity need no temperature control by Table ") +
           (l.heat_treated_and_packaged ? "A (heat-treated and then packaged)" : "B (not heat-treated, or not packaged)");
}

std::string words(const LossLimit& l) { return range_words(l.least, l.most) + " lost from " + l.before + " to " + l.after; }

std::string words(const SouringLimit& l) {
    std::string text;
    for (const CoolingLimit::Stage& stage : l.stages)
        text += (text.empty() ? "at most " : ", at most ") + to_text(stage.to) + " within " + period_text(stage.within);
    return text + " of " + l.starts_at;
}

std::string words(const LabelLimit& l) {
    std::string text =
        "the label read at " + all_of(l.at) + " of a run is the one that is packed under; issued = applied + spoiled + returned";
    if (l.most_lost > 0) text += ", all but " + std::to_string(l.most_lost);
    return text;
}

// "gluten of the food as sold: at most 20mg/kg for gluten-free on label seed-1, market eu"
std::string words(const MarketLimit& l) {
    std::string text = l.of + (l.of == "sulphites" ? " as SO2: " : ": ");
    for (const MarketLimit::OfLabel& one : l.labels)
        text += (&one == &l.labels.front() ? "" : "; ") + allowed_words(one) + " " + boundary_of_words(l.of, one);
    return text;
}

}  // namespace

std::string quoted(std::string_view name) { return "'" + peelbook::shown(name) + "'"; }

std::string any_of(const std::vector<std::string>& names) {
    std::vector<std::string> quotes;
    for (const std::string& name : names) quotes.push_back(quoted(name));
    return list_text(quotes, "or");
}

std::string all_of(const std::vector<std::string>& names) { return list_text(names, "and"); }

std::string percent_text(std::int64_t micro_percent) { return to_text(Measure{0, micro_percent, Unit::percent}); }

std::string thousandths_text(std::int64_t milli) { return decimal_text(milli, 3, true); }

std::string period_text(Duration d) {
    constexpr std::int64_t second = 1000, minute = 60 * second, hour = 60 * minute, day = 24 * hour;
    if (d.ms >= 2 * day && d.ms % day == 0) return std::to_string(d.ms / day) + " days";
    std::vector<std::string> parts;
    if (d.ms / hour > 0) parts.push_back(std::to_string(d.ms / hour) + " h");
    if (d.ms % hour / minute > 0) parts.push_back(std::to_string(d.ms % hour / minute) + " min");
    if (d.ms % minute / second > 0) parts.push_back(std::to_string(d.ms % minute / second) + " s");
    if (d.ms % second > 0 || parts.empty()) parts.push_back(std::to_string(d.ms % second) + " ms");
    return joined(parts, " ");
}

std::string minute_of_day_text(int minutes) {
    const std::string hour = std::to_string(minutes / 60), minute = std::to_string(minutes % 60);
    return (hour.size() < 2 ? "0" : "") + hour + ":" + (minute.size() < 2 ? "0" : "") + minute;
}

std::optional<int> clock_minutes(std::string_view text) {
    const auto digit = [&](std::size_t at) { return text[at] - '0'; };
    if (text.size() != 5 || text[2] != ':') return std::nullopt;
    for (const std::size_t at : {0U, 1U, 3U, 4U})
        if (digit(at) < 0 || digit(at) > 9) return std::nullopt;
    const int hour = digit(0) * 10 + digit(1), minute = digit(3) * 10 + digit(4);
    if (hour > 23 || minute > 59) return std::nullopt;
    return hour * 60 + minute;
}

std::string limit_words(const Limit& limit) {
    return std::visit([](const auto& one) { return words(one); }, limit);
}

std::string event_words(std::string_view event) {
    if (event == "start") return "the start";
    if (event == "finish") return "the finish";
    if (event == "pack") return "the first packing";
    if (event == "ship") return "the last leaving";
    return "the end of " + std::string(event);
}

std::string figure_words(const Limit& limit) {
    if (const auto* time = std::get_if<TimeLimit>(&limit)) return "from " + event_words(time->from) + " to " + event_words(time->until);
    if (const auto* loss = std::get_if<LossLimit>(&limit)) return "lost from " + loss->before + " to " + loss->after;
    return "";
}

std::string range_words(const std::optional<Bound>& least, const std::optional<Bound>& most) {
    if (least && most) return "from " + to_text(*least) + " to " + to_text(*most);
    if (least) return "at least " + to_text(*least);
    return most ? "at most " + to_text(*most) : "";
}

std::string interval_words(const Interval& interval) {
    std::string text = "every " + period_text(interval.every);
    if (interval.from_minutes && interval.until_minutes)
        text += " from " + minute_of_day_text(*interval.from_minutes) + " to " + minute_of_day_text(*interval.until_minutes);
    if (!interval.at.empty()) text += ", at " + joined(interval.at, ", at ") + " of a run";
    return text;
}

std::string closed_words(const Interval& interval) {
    switch (interval.closed) {
        case Closed::unsaid:
            return "";
        case Closed::logger:
            return "shown by a logger's file";
        case Closed::min_max:
            return "shown by the highest or lowest value that the thermometer kept";
        case Closed::alarm:
            return "watched by the alarm that " + interval.alarm + " tests";
        case Closed::nothing:
            return "nothing is to be shown";
    }
    return "";
}

std::string item_words(const FormulaItem& item) {
    std::string text = item.absolute ? to_text(*item.absolute) : percent_text(item.micro_percent);
    if (item.flour) text += ", flour";
    if (item.optional) text += ", optional";
    return text;
}

// "" for simple acceptance, which is the usual one.
std::string acceptance_words(const Point& p) {
    return p.guarded ? "guarded: what the instrument's error could carry over the limit proves nothing" : "";
}

std::string read_on_words(const Point& p) { return p.read_on > Duration{} ? period_text(p.read_on) + " after the end of " + p.step : ""; }

std::string window_words(const Window& w) {
    std::vector<std::string> words;
    if (!w.from.empty()) words.push_back("from " + event_words(w.from));
    const std::string after = w.after ? period_text(*w.after) + " after " : "";
    if (!w.until.empty() || w.after) words.push_back("until " + after + (w.until.empty() ? "the end of its step" : event_words(w.until)));
    return joined(words, " ");
}

std::string source_of_d_and_z(const Limit& limit) {
    const auto* heat = std::get_if<LethalityLimit>(&limit);
    return heat ? heat->source : "";
}

std::string reading_words(const Limit& limit) {
    const auto earliest = [](const std::vector<CoolingLimit::Stage>& stages) {
        std::vector<std::string> each;
        for (const CoolingLimit::Stage& stage : stages)
            if (stage.fastest) each.push_back(to_text(stage.to) + " after " + period_text(*stage.fastest) + " at the earliest");
        return each.empty() ? "" : joined(each, ", ") + ": what is sooner contradicts the others";
    };
    if (const auto* cooling = std::get_if<CoolingLimit>(&limit)) return earliest(cooling->stages);
    if (const auto* souring = std::get_if<SouringLimit>(&limit)) return earliest(souring->stages);
    const auto* heat = std::get_if<LethalityLimit>(&limit);
    return heat ? "at most " + period_text(heat->longest_gap) + " apart: a longer gap counts nothing" : "";
}

std::string character_words(const std::string& character) {
    if (character == "\t") return "a tab";
    if (character == " ") return "a blank";
    return character.empty() ? "" : "'" + character + "'";
}

std::string column_words(const LoggerColumn& c) {
    std::string text = "in " + std::string(symbol(c.unit));
    if (!c.point.empty()) text += ", for " + c.point;
    if (!c.probed.empty()) text += ", " + c.probed;
    return text;
}

}  // namespace peelbook::plan
