#include "site/ask/control_chart.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/text.h"
#include "calc/summary.h"
#include "fold/ledger.h"
#include "fold/logger/file.h"
#include "plan/words.h"
#include "site/ask/chart_subject.h"

namespace peelbook::site {
namespace {

constexpr double ms_a_day = 86'400'000;
constexpr std::size_t fewest_for_a_trend = 3;
constexpr std::size_t fewest_for_lines = 20;  // common practice: control lines from fewer values are provisional
constexpr std::size_t largest_subgroup = 10;  // of the table of constants (calc/chart.h)

std::string decimals(double number, int places) {
    const double scale = std::pow(10.0, places);
    return to_text(Cell{std::round(number * scale) / scale});
}

std::vector<std::string> items_of(const plan::Point& point) {
    auto items = point.products;
    items.insert(items.end(), point.materials.begin(), point.materials.end());
    return items;
}

std::string name_of(const ChartGroup& group) {
    std::vector<std::string> parts;
    for (const std::string& part : {group.product, group.unit, group.instrument, group.person}) {
        if (!part.empty()) parts.push_back(part);
    }
    return joined(parts, ", ");
}

// Readings of one group, before they are charted.
struct Sample {
    std::string label;
    Instant at;
    double value = 0;
};

class Groups {
  public:
    Groups(fold::Ledger& ledger, const ChartQuestion& question, Unit unit) : ledger_(ledger), question_(question), unit_(unit) {}

    void add(const book::ChartReading& r) {
        ChartGroup& group = of(r.item, r.unit, r.instrument, r.by);
        samples_[name_of(group)].push_back(
            {r.code.empty() ? to_text(ledger_.zone(), {r.happened}) : r.code, {r.happened}, in_unit(r.value, unit_)});
    }
    void add_day(const book::Series& series, const book::SeriesDay& day) {
        ChartGroup& group = of("daily mean of a logger", series.unit, series.instrument, "");
        const Date date = from_days(day.day);
        samples_[name_of(group)].push_back({to_text(date), {day.day * static_cast<std::int64_t>(ms_a_day)}, in_unit(day.mean, unit_)});
    }
    std::vector<ChartGroup> charted(const ChartSubject& subject);

  private:
    bool told_apart(ChartBy by) const { return std::find(question_.by.begin(), question_.by.end(), by) != question_.by.end(); }
    ChartGroup& of(const std::string& product, const std::string& unit, const std::string& instrument, const std::string& person) {
        ChartGroup group;
        group.product = product;
        if (told_apart(ChartBy::unit)) group.unit = unit;
        if (told_apart(ChartBy::instrument)) group.instrument = instrument;
        if (told_apart(ChartBy::person)) group.person = person;
        group.name = name_of(group);
        return groups_.emplace(group.name, group).first->second;
    }

    fold::Ledger& ledger_;
    const ChartQuestion& question_;
    Unit unit_;
    std::map<std::string, ChartGroup> groups_;  // by name: the order in which they are shown
    std::map<std::string, std::vector<Sample>> samples_;
};

void chart_individuals(ChartGroup& group, const std::vector<Sample>& samples) {
    std::vector<double> values;
    for (const Sample& sample : samples) {
        values.push_back(sample.value);
        group.values.push_back({sample.label, sample.at, sample.value, {}, {}});
    }
    if (const auto chart = calc::individuals_chart(values)) group.chart = *chart;
    for (std::size_t i = 1; group.chart && i < group.values.size(); ++i) group.values[i].range = group.chart->ranges[i - 1];
}

// The size that most lots have; of equally many the larger.
std::size_t usual_size(const std::vector<std::vector<const Sample*>>& lots) {
    std::map<std::size_t, std::size_t> sizes;
    for (const auto& lot : lots) {
        if (lot.size() >= 2 && lot.size() <= largest_subgroup) ++sizes[lot.size()];
    }
    std::size_t usual = 0, most = 0;
    for (const auto& [size, count] : sizes) {
        if (count < most) continue;
        usual = size;
        most = count;
    }
    return usual;
}

void chart_lots(ChartGroup& group, const std::vector<Sample>& samples) {
    std::vector<std::vector<const Sample*>> lots;
    std::map<std::string, std::size_t> place;
    for (const Sample& sample : samples) {
        const auto [known, fresh] = place.emplace(sample.label, lots.size());
        if (fresh) lots.emplace_back();
        lots[known->second].push_back(&sample);
    }
    group.subgroup = usual_size(lots);
    std::vector<std::vector<double>> subgroups;
    for (const auto& lot : lots) {
        if (lot.size() != group.subgroup) {
            ++group.left_out;
            continue;
        }
        auto& values = subgroups.emplace_back();
        for (const Sample* sample : lot) values.push_back(sample->value);
        group.values.push_back({lot.back()->label, lot.back()->at, 0, {}, {}});
    }
    const auto chart = subgroups.size() < 2 ? Result<calc::ControlChart>(Refusal{}) : calc::xbar_chart(subgroups);
    if (!chart) {
        group.values.clear();
        return;
    }
    group.chart = *chart;
    for (std::size_t i = 0; i < group.values.size(); ++i) {
        group.values[i].value = chart->values[i];
        group.values[i].range = chart->ranges[i];
    }
}

void find_signals(ChartGroup& group, calc::RuleSet rules, bool xbar) {
    if (!group.chart) return;
    const auto& chart = *group.chart;
    group.signals = calc::run_signals(chart.values, chart.value_limits.centre, chart.value_sigma, rules);
    const auto tell = [&](std::size_t at, const std::string& text) {
        std::string& signal = group.values[at].signal;
        signal += (signal.empty() ? "" : "; ") + text;
    };
    for (const auto& signal : group.signals) {
        const std::string rule(calc::rule_text(signal.rule));
        tell(signal.last, rule);
        group.notes.push_back((signal.first == signal.last ? group.values[signal.last].label
                                                           : group.values[signal.first].label + " to " + group.values[signal.last].label) +
                              ": " + rule);
    }
    for (std::size_t i = 0; i < chart.ranges.size(); ++i) {
        if (chart.ranges[i] <= chart.range_limits.upper && chart.ranges[i] >= chart.range_limits.lower) continue;
        const std::size_t at = xbar ? i : i + 1;
        group.wide.push_back(at);
        const std::string text = chart.ranges[i] > chart.range_limits.upper ? "its range is above the upper line of the ranges"
                                                                            : "its range is below the lower line of the ranges";
        tell(at, text);
        group.notes.push_back(group.values[at].label + ": " + text);
    }
}

void find_capability(ChartGroup& group, const std::vector<Sample>& samples, const ChartSubject& subject) {
    std::vector<double> values;
    for (const Sample& sample : samples) values.push_back(sample.value);
    const auto summary = calc::summarise(values);
    group.mean = summary.mean;
    group.sd = summary.sd.value_or(0);
    if (!subject.least && !subject.most) return;
    const auto capability = calc::capability({group.mean, group.sd, summary.n, subject.least, subject.most, 0.95});
    if (capability) group.capability = *capability;
}

void find_trend(ChartGroup& group, const std::vector<Sample>& samples, const ChartSubject& subject, const Zone& zone) {
    if (samples.size() < fewest_for_a_trend) return;
    const Instant begin = samples.front().at;
    const auto days_since = [&](Instant at) { return static_cast<double>((at - begin).ms) / ms_a_day; };
    std::vector<calc::Point> points;
    for (const Sample& sample : samples) points.push_back({days_since(sample.at), sample.value});
    const auto trend = calc::trend_towards(points, subject.least, subject.most);
    if (!trend) return;
    group.trend = *trend;
    if (!trend->real || !trend->limit || !trend->reaches_at) return;
    const auto day = [&](double days) { return to_text(zone.to_local(begin + Duration{static_cast<std::int64_t>(days * ms_a_day)}).date); };
    std::string note = std::string(trend->line.slope > 0 ? "rises by " : "falls by ") + decimals(std::abs(trend->line.slope), 3) +
                       " a day towards the limit of " + decimals(*trend->limit, 3) + ": there on about " + day(*trend->reaches_at);
    if (trend->early_at) note += ", a single value from " + day(*trend->early_at);
    group.notes.push_back(note + ", if it goes on so");
}

std::vector<ChartGroup> Groups::charted(const ChartSubject& subject) {
    std::vector<ChartGroup> out;
    for (auto& [name, group] : groups_) {
        auto& samples = samples_[name];
        std::stable_sort(samples.begin(), samples.end(), [](const Sample& a, const Sample& b) { return a.at < b.at; });
        if (question_.xbar) {
            chart_lots(group, samples);
        } else {
            chart_individuals(group, samples);
        }
        find_signals(group, question_.rules, question_.xbar);
        find_capability(group, samples, subject);
        find_trend(group, samples, subject, ledger_.zone());
        if (group.chart && group.values.size() < fewest_for_lines) {
            group.notes.push_back("lines from " + std::to_string(group.values.size()) + " values are provisional; " +
                                  std::to_string(fewest_for_lines) + " and more are usual");
        }
        out.push_back(std::move(group));
    }
    return out;
}

Result<const plan::Point*> point_to_chart(const plan::Plan& plan, const ChartQuestion& question) {
    const plan::Point* point = plan.point(question.point);
    std::vector<std::string> ids;
    for (const auto& one : plan.points)
        if (has_control_chart(one)) ids.push_back(one.id);
    if (!point)
        return Refusal{"point '" + shown(question.point) + "'", "a point of the plan that gives a number: " + joined(ids, ", "),
                       "check the name", nearest(question.point, ids)};
    if (!has_control_chart(*point)) {
        return Refusal{"point " + point->id + ", " + point->limit_text,
                       "a point that gives a single number: " + joined(ids, ", "),
                       "a cooling curve or a yes and no has no control chart",
                       {}};
    }
    if (question.xbar && plan::figure_dimension(point->limit)) {
        return Refusal{"--as xbar for " + point->id + ", " + point->limit_text,
                       "individuals: this point gives one figure of each batch",
                       "leave --as out: one figure makes no subgroup",
                       {}};
    }
    if (question.product.empty()) return point;
    const auto items = items_of(*point);
    if (std::find(items.begin(), items.end(), question.product) != items.end()) return point;
    return Refusal{"product '" + shown(question.product) + "' for " + point->id,
                   items.empty() ? "none: the point is read on a place" : "one of " + joined(items, ", "),
                   "leave --product out, or choose one", nearest(question.product, items)};
}

void read_place(fold::Ledger& ledger, const plan::Point& point, const ChartQuestion& question, Groups& groups) {
    for (const auto& r : ledger.rows().readings_of_place(point.place, point.id, question.from.ms, question.until.ms)) {
        if (r.voided_by || r.symbol.empty()) continue;
        groups.add({r.seq, "", "", r.unit, r.instrument, r.by, r.value, r.happened});
    }
    const auto first = ledger.production_day(question.from).day, last = ledger.production_day(question.until - Duration{1}).day;
    for (const auto& series : ledger.rows().series_within(point.place, point.id, question.from.ms, question.until.ms - 1)) {
        for (const auto& day : ledger.rows().series_days(series.seq)) {
            if (day.day >= first && day.day <= last) groups.add_day(series, day);
        }
    }
}

// The figures of an item's batches, as they were judged. Returns how many are left out: judged by a version of the
// plan in which the point measures something else.
std::int64_t read_figures(fold::Ledger& ledger, const plan::Point& point, const std::string& item, const ChartQuestion& question,
                          Groups& groups) {
    std::int64_t left_out = 0;
    for (const auto& figure : ledger.rows().figures_to_chart(item, point.id, question.from.ms, question.until.ms)) {
        const auto judged_by = ledger.plan_version(figure.plan_seq);
        const plan::Point* then = judged_by.plan->point(point.id);
        if (then && plan::figure_words(then->limit) == plan::figure_words(point.limit))
            groups.add(figure.of);
        else
            ++left_out;
    }
    return left_out;
}

// The same of every item that is asked for, figures or readings.
std::int64_t read_lots(fold::Ledger& ledger, const plan::Point& point, const ChartQuestion& question, Groups& groups) {
    std::int64_t left_out = 0;
    const auto items = question.product.empty() ? items_of(point) : std::vector<std::string>{question.product};
    for (const auto& item : items) {
        if (plan::figure_dimension(point.limit)) {
            left_out += read_figures(ledger, point, item, question, groups);
            continue;
        }
        for (const auto& reading : ledger.rows().readings_to_chart(item, point.id, question.from.ms, question.until.ms))
            groups.add(reading);
    }
    return left_out;
}

}  // namespace

std::string_view word(ChartBy by) {
    switch (by) {
        case ChartBy::product:
            return "product";
        case ChartBy::unit:
            return "unit";
        case ChartBy::instrument:
            return "instrument";
        case ChartBy::person:
            return "person";
    }
    return "";
}

std::string left_out_text(const ChartAnswer& answer) {
    const auto n = answer.judged_otherwise;
    if (n == 0) return "";
    return counted(n, "batch", "batches") + " left out: the version of the plan in force then measured something else at this point";
}

Result<ChartAnswer> control_chart(fold::Ledger& ledger, const ChartQuestion& question) {
    const auto governing = ledger.plan_at(question.until - Duration{1});
    const auto found = point_to_chart(*governing.plan, question);
    if (!found) return found.refusal();
    const plan::Point& point = **found;
    const ChartSubject subject = chart_subject(point);
    Groups groups(ledger, question, subject.unit);
    std::int64_t left_out = 0;
    if (point.place.empty())
        left_out = read_lots(ledger, point, question, groups);
    else
        read_place(ledger, point, question, groups);
    return ChartAnswer{point.id,
                       point.name.empty() ? point.id : point.name,
                       subject.what + (question.xbar ? ", the readings of a lot as a subgroup" : ""),
                       point.limit_text,
                       std::string(symbol(subject.unit)),
                       point.grade == plan::Grade::critical,
                       subject.least,
                       subject.most,
                       left_out,
                       groups.charted(subject)};
}

}  // namespace peelbook::site
