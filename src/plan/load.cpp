#include "plan/load.h"

#include <algorithm>
#include <bitset>

#include "base/text.h"
#include "base/units.h"

namespace peelbook::plan {
namespace {

constexpr int day_minutes = 24 * 60;

bool is_open_weekday(const Plan& plan, std::string_view day) { return plan.calendar.open.empty() || among(plan.calendar.open, day); }

// Minutes of a usual week in which a place is owed its checks.
std::int64_t minutes_owed(const Plan& plan, const Interval& interval) {
    std::bitset<7 * day_minutes> owed;
    const auto add = [&](const std::vector<std::string>& days, int from, int until) {
        if (until <= from) until += day_minutes;  // over midnight, or the whole day
        for (int day = 0; day < 7; ++day) {
            const auto name = weekdays[static_cast<std::size_t>(day)];
            if (days.empty() ? !is_open_weekday(plan, name) : !among(days, name)) continue;
            for (int minute = from; minute < until; ++minute) owed.set(static_cast<std::size_t>(day * day_minutes + minute) % owed.size());
        }
    };
    if (interval.from_minutes && interval.until_minutes)
        add({}, *interval.from_minutes, *interval.until_minutes);
    else if (plan.shifts.empty())
        add({}, 0, day_minutes);
    else
        for (const Shift& shift : plan.shifts) add(shift.days, shift.from_minutes, shift.until_minutes);
    return static_cast<std::int64_t>(owed.count());
}

// Readings or looks of one batch, place or delivery.
struct Each {
    std::int64_t operator()(const CoolingLimit& l) const { return static_cast<std::int64_t>(l.stages.size()) + 1; }
    std::int64_t operator()(const SouringLimit& l) const { return static_cast<std::int64_t>(l.stages.size()) + 1; }
    std::int64_t operator()(const LabelLimit& l) const { return static_cast<std::int64_t>(l.at.size()); }
    std::int64_t operator()(const LethalityLimit&) const { return 5; }
    std::int64_t operator()(const ClassLimit&) const { return 2; }  // pH and water activity
    std::int64_t operator()(const TimeLimit&) const { return 0; }
    std::int64_t operator()(const LossLimit&) const { return 0; }
    template <class L> std::int64_t operator()(const L&) const { return 1; }
};

}  // namespace

Load load_of(const Plan& plan) {
    Load load;
    load.people = plan.site.people;
    load.days = std::count_if(std::begin(weekdays), std::end(weekdays), [&](auto day) { return is_open_weekday(plan, day); });
    const auto batches = [&](const Product& product) { return product.a_week > 0 ? product.a_week : load.days; };
    for (const Point& point : plan.points) {
        std::int64_t times = 0;
        for (const auto& id : point.products)
            if (const Product* product = plan.product(id)) times += batches(*product);
        for (const auto& id : point.materials)
            if (const Material* material = plan.material(id)) times += std::max<std::int64_t>(1, material->a_week);
        if (point.interval)
            times += (minutes_owed(plan, *point.interval) * ms_a_minute + point.interval->every.ms - 1) / point.interval->every.ms;
        const bool of_run = std::holds_alternative<LabelLimit>(point.limit);
        const std::int64_t looks = of_run || !point.interval ? 0 : static_cast<std::int64_t>(point.interval->at.size());
        for (const Product& product : plan.products) {  // what is looked at with each packing run
            if (!among(product.steps, "pack")) continue;
            if (of_run && product.line == point.place) times += batches(product);
            if (among(point.lines, product.line)) times += looks * batches(product);
        }
        const std::int64_t units = std::max<std::int64_t>(1, static_cast<std::int64_t>(point.units.size()));
        const std::int64_t checks = point.optional ? 0 : times * units * std::visit(Each{}, point.limit);
        const Duration usual = is_measured(point) ? time_of_reading : time_of_looking;
        const Duration takes = point.takes.value_or(usual);
        if (checks > 0) load.points.push_back({point.id, checks, {checks * takes.ms}});
    }
    std::stable_sort(load.points.begin(), load.points.end(), [](const auto& a, const auto& b) { return a.time > b.time; });
    return load;
}

std::string to_text(const Load& load) {
    std::int64_t checks = 0;
    Duration time{};
    for (const auto& one : load.points) {
        checks += one.checks;
        time = time + one.time;
    }
    const auto a_day = [&](std::int64_t checks_a_week, Duration time_a_week) {
        const std::string number = decimal_text(checks_a_week * 10 / load.days, 1, true);
        return number + (number == "1" ? " check, " : " checks, ") +
               decimal_text(time_a_week.ms * 10 / (load.days * ms_a_minute), 1, true) + " min";
    };
    std::string text = "load of a usual day: " + a_day(checks, time);
    if (load.people > 0) {
        const Duration each{time.ms / (load.days * load.people)};
        text += ", of which each of " + std::to_string(load.people) + " people has " + decimal_text(each.ms * 10 / ms_a_minute, 1, true) +
                " min";
        if (each > most_a_person) text += "\n  more than 15 min a person: what nobody has time for is left out or made up";
    }
    for (const auto& one : load.points) text += "\n  " + one.point + ": " + a_day(one.checks, one.time);
    return text + "\n";
}

}  // namespace peelbook::plan
