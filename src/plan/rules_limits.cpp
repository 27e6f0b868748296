#include "plan/rules.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

struct Where {
    std::string what, path;  // "point 'bake-core'", "point/3"
};

bool same_dimension(const Bound& a, const Bound& b) {
    return a.first.dimension() == b.first.dimension();
}

void told_unlike(Faults& faults, const Where& where, const std::string& key, const Bound& a, const Bound& b) {
    faults.error(where.path + "/" + key, where.what + ": " + to_text(b) + " stands beside " + to_text(a),
                 "measures of one kind", "correct the unit of one of them");
}

void check_pair(Faults& faults, const Where& where, const std::string& key, const std::optional<Bound>& least,
                const std::optional<Bound>& most) {
    if (!least || !most) return;
    if (!same_dimension(*least, *most)) return told_unlike(faults, where, key + "/most", *least, *most);
    if (least->first.value > most->first.value)
        faults.error(where.path + "/" + key + "/most",
                     where.what + ": least " + to_text(*least) + " is above most " + to_text(*most),
                     "least not above most", "swap the two, or correct one");
}

// An operating limit gives time to act before the critical one breaks, so it must lie inside it.
void check_warning(Faults& faults, const Where& where, const Point& point, const std::optional<Bound>& least,
                   const std::optional<Bound>& most) {
    check_pair(faults, where, "warn", point.warn_least, point.warn_most);
    const auto check = [&](const std::string& key, const std::optional<Bound>& warn,
                           const std::optional<Bound>& limit, bool below) {
        if (!warn) return;
        if (!limit) {
            faults.error(where.path + "/warn/" + key,
                         where.what + " warns at " + key + " " + to_text(*warn) + " and has no such limit",
                         "a limit that the warning comes before", "take the warning out, or write the limit");
        } else if (!same_dimension(*warn, *limit)) {
            told_unlike(faults, where, "warn/" + key, *limit, *warn);
        } else if (below ? warn->first.value < limit->first.value : warn->first.value > limit->first.value) {
            faults.error(where.path + "/warn/" + key,
                         where.what + " warns at " + key + " " + to_text(*warn) + ", beyond its limit " +
                             to_text(*limit),
                         "a warning that comes before the limit breaks", "bring it inside the limit");
        }
    };
    check("least", point.warn_least, least, true);
    check("most", point.warn_most, most, false);
}

void check_time(Faults& faults, const Where& where, const TimeLimit& limit) {
    if (limit.least && limit.most && limit.least->ms > limit.most->ms)
        faults.error(where.path + "/limit/time/most",
                     where.what + ": least " + period_text(*limit.least) + " is above most " +
                         period_text(*limit.most),
                     "least not above most", "swap the two, or correct one");
}

bool all_temperatures(Faults& faults, const Where& where, const CoolingLimit& limit) {
    bool right = true;
    const auto check = [&](const std::string& key, const Bound& bound) {
        if (bound.first.dimension() == Dimension::temperature) return;
        right = false;
        faults.error(where.path + "/limit/cooling/" + key,
                     where.what + " cools: " + to_text(bound) + " is no temperature",
                     "a temperature, like 57C or 135F", "correct the unit");
    };
    check("from", limit.from);
    for (std::size_t i = 0; i < limit.stages.size(); ++i)
        check("stages/" + std::to_string(i) + "/to", limit.stages[i].to);
    return right;
}

void check_cooling(Faults& faults, const Where& where, const CoolingLimit& limit) {
    if (!all_temperatures(faults, where, limit)) return;
    for (std::size_t i = 0; i < limit.stages.size(); ++i) {
        const Bound& above = i == 0 ? limit.from : limit.stages[i - 1].to;
        const CoolingLimit::Stage& stage = limit.stages[i];
        const std::string path = where.path + "/limit/cooling/stages/" + std::to_string(i);
        if (stage.to.first.value >= above.first.value)
            faults.error(path + "/to",
                         where.what + ": stage " + std::to_string(i + 1) + " cools from " + to_text(above) +
                             " to " + to_text(stage.to),
                         "a target below where the stage begins", "correct the temperatures, or their order");
        if (i > 0 && !limit.each_from_previous && stage.within.ms <= limit.stages[i - 1].within.ms)
            faults.error(path + "/within",
                         where.what + ": stage " + std::to_string(i + 1) + " ends " +
                             period_text(stage.within) + " from the start, the stage before " +
                             period_text(limit.stages[i - 1].within),
                         "times that rise, since each is counted from the start",
                         "correct the time, or write counted = \"previous\"");
    }
}

}  // namespace

void check_limits(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.points.size(); ++i) {
        const Point& point = plan.points[i];
        const Where where{"point " + quoted(point.id), path_at("point", i)};
        if (point.limit_text.empty()) continue;  // not told, or not understood: already reported
        std::optional<Bound> least, most;
        if (const auto* range = std::get_if<RangeLimit>(&point.limit)) {
            least = range->least;
            most = range->most;
            check_pair(faults, where, "limit", least, most);
        }
        if (const auto* packing = std::get_if<BeforePackingLimit>(&point.limit)) most = packing->most;
        check_warning(faults, where, point, least, most);
        if (const auto* time = std::get_if<TimeLimit>(&point.limit)) check_time(faults, where, *time);
        if (const auto* cooling = std::get_if<CoolingLimit>(&point.limit))
            check_cooling(faults, where, *cooling);
    }
}

}  // namespace peelbook::plan
