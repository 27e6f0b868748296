#include "base/text.h"
#include "plan/boundaries.h"
#include "plan/rules.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

struct Where {
    std::string what, path;  // "point 'bake-core'", "point/3"
};

template <class... Kinds> bool is_one_of(const Limit& limit) { return (std::holds_alternative<Kinds>(limit) || ...); }

bool same_dimension(const Bound& a, const Bound& b) { return a.first.dimension() == b.first.dimension(); }

void told_unlike(Faults& faults, const Where& where, const std::string& key, const Bound& a, const Bound& b) {
    faults.error(where.path + "/" + key, where.what + ": " + to_text(b) + " stands beside " + to_text(a), "measures of one kind",
                 "correct the unit of one of them");
}

void check_pair(Faults& faults, const Where& where, const std::string& key, const std::optional<Bound>& least,
                const std::optional<Bound>& most) {
    if (!least || !most) return;
    if (!same_dimension(*least, *most)) return told_unlike(faults, where, key + "/most", *least, *most);
    if (least->first.value > most->first.value)
        faults.error(where.path + "/" + key + "/most", where.what + ": least " + to_text(*least) + " is above most " + to_text(*most),
                     "least not above most", "swap the two, or correct one");
}

// An operating limit gives time to act before the critical one breaks, so it must lie inside it.
void check_warning(Faults& faults, const Where& where, const Point& point, const std::optional<Bound>& least,
                   const std::optional<Bound>& most) {
    check_pair(faults, where, "warn", point.warn_least, point.warn_most);
    const auto check = [&](const std::string& key, const std::optional<Bound>& warn, const std::optional<Bound>& limit, bool below) {
        if (!warn) return;
        if (!limit) {
            faults.error(where.path + "/warn/" + key, where.what + " warns at " + key + " " + to_text(*warn) + " and has no such limit",
                         "a limit that the warning comes before", "take the warning out, or write the limit");
        } else if (!same_dimension(*warn, *limit)) {
            told_unlike(faults, where, "warn/" + key, *limit, *warn);
        } else if (below ? warn->first.value < limit->first.value : warn->first.value > limit->first.value) {
            faults.error(where.path + "/warn/" + key,
                         where.what + " warns at " + key + " " + to_text(*warn) + ", beyond its limit " + to_text(*limit),
                         "a warning that comes before the limit breaks", "bring it inside the limit");
        }
    };
    check("least", point.warn_least, least, true);
    check("most", point.warn_most, most, false);
}

void check_time(Faults& faults, const Where& where, const TimeLimit& limit) {
    if (limit.least && limit.most && limit.least->ms > limit.most->ms)
        faults.error(where.path + "/limit/time/most",
                     where.what + ": least " + period_text(*limit.least) + " is above most " + period_text(*limit.most),
                     "least not above most", "swap the two, or correct one");
}

// Of stages whose times all count from the start.
void check_times_ascend(Faults& faults, const Where& where, const std::string& path, const std::vector<CoolingLimit::Stage>& stages,
                        std::size_t i, const std::string& remedy) {
    if (i == 0 || stages[i].within.ms > stages[i - 1].within.ms) return;
    faults.error(path + "/within",
                 where.what + ": stage " + std::to_string(i + 1) + " ends " + period_text(stages[i].within) +
                     " from the start, the stage before " + period_text(stages[i - 1].within),
                 "times in ascending order, since each is counted from the start", remedy);
}

// A stray value, 4.0 for 40, would end a cooling if nothing said how fast such a product can fall.
void check_fastest(Faults& faults, const Where& where, const std::string& path, const Point& point,
                   const std::vector<CoolingLimit::Stage>& stages, std::size_t i) {
    const CoolingLimit::Stage& stage = stages[i];
    const std::string which = where.what + ": stage " + std::to_string(i + 1);
    if (!stage.fastest) {
        if (point.grade == Grade::critical)
            faults.error(path + "/fastest", which + " does not say how fast " + to_text(stage.to) + " can be reached",
                         "fastest = \"15min\", counted as within is: a reading that gets there sooner contradicts the others",
                         "write the shortest time that such a product has ever taken, with something to spare");
    } else if (stage.fastest->ms >= stage.within.ms) {
        faults.error(path + "/fastest",
                     which + " gets there in " + period_text(*stage.fastest) + " at the fastest, and within " + period_text(stage.within),
                     "fastest shorter than within", "correct one of the two");
    }
}

bool all_temperatures(Faults& faults, const Where& where, const CoolingLimit& limit) {
    bool right = true;
    const auto check = [&](const std::string& key, const Bound& bound) {
        if (bound.first.dimension() == Dimension::temperature) return;
        right = false;
        faults.error(where.path + "/limit/cooling/" + key, where.what + " cools: " + to_text(bound) + " is no temperature",
                     "a temperature, like 57C or 135F", "correct the unit");
    };
    check("from", limit.from);
    for (std::size_t i = 0; i < limit.stages.size(); ++i) check("stages/" + std::to_string(i) + "/to", limit.stages[i].to);
    return right;
}

void check_cooling(Faults& faults, const Where& where, const Point& point, const CoolingLimit& limit) {
    if (!all_temperatures(faults, where, limit)) return;
    for (std::size_t i = 0; i < limit.stages.size(); ++i) {
        const Bound& above = i == 0 ? limit.from : limit.stages[i - 1].to;
        const CoolingLimit::Stage& stage = limit.stages[i];
        const std::string path = where.path + "/limit/cooling/stages/" + std::to_string(i);
        if (stage.to.first.value >= above.first.value)
            faults.error(path + "/to",
                         where.what + ": stage " + std::to_string(i + 1) + " cools from " + to_text(above) + " to " + to_text(stage.to),
                         "a target below where the stage begins", "correct the temperatures, or their order");
        if (!limit.each_from_previous)
            check_times_ascend(faults, where, path, limit.stages, i, "correct the time, or write counted = \"previous\"");
        check_fastest(faults, where, path, point, limit.stages, i);
    }
}

void check_lethality(const Plan& plan, Faults& faults, const Where& where, const Point& point, const LethalityLimit& limit) {
    const std::string path = where.path + "/limit/lethality";
    const bool below_zero = limit.z.typed_micro <= 0;
    if (below_zero)
        faults.error(path + "/z", where.what + ": z is " + to_text(limit.z), "a difference above 0, like \"10.4C\" or \"10F\"",
                     "take z from the study");
    if (limit.studied_from.value >= limit.studied_to.value)
        faults.error(path + "/studied", where.what + ": studied from " + to_text(limit.studied_from) + " to " + to_text(limit.studied_to),
                     "the lower temperature first", "swap the two, or correct one");
    else if (limit.t_ref.value < limit.studied_from.value || limit.t_ref.value > limit.studied_to.value)
        faults.error(path + "/t_ref",
                     where.what + ": D is stated at " + to_text(limit.t_ref) + ", outside the studied " + to_text(limit.studied_from) +
                         " to " + to_text(limit.studied_to),
                     "a temperature of the study", "state D at a temperature that was studied");
    if (limit.longest_gap <= Duration{})
        faults.error(path + "/longest_gap", where.what + " does not say how far apart two readings may be", "longest_gap = \"2min\"",
                     "write the time in which the core cannot have cooled and warmed again unseen");
    if (limit.cap_milli_log < limit.wanted_milli_log)
        faults.error(path + "/cap",
                     where.what + ": cap " + thousandths_text(limit.cap_milli_log) + " log is below the wanted " +
                         thousandths_text(limit.wanted_milli_log) + " log",
                     "a cap at or above the log wanted", "correct one of the two");
    for (const std::string& id : point.products) {
        const Product* product = plan.product(id);
        if (!product || among(limit.foods, product->sort)) continue;
        faults.warn(path + "/food",
                    where.what + ": D and z are of " + all_of(limit.foods) + ", product " + quoted(id) + " is " +
                        (product->sort.empty() ? "of no stated sort" : product->sort),
                    "a study of the same kind of food",
                    "every verdict of it will be unproven; find a study of this food, or correct food or sort");
    }
}

void check_souring(Faults& faults, const Where& where, const Point& point, const SouringLimit& limit) {
    for (std::size_t i = 0; i < limit.stages.size(); ++i) {
        const std::string path = where.path + "/limit/souring/stages/" + std::to_string(i);
        const CoolingLimit::Stage& stage = limit.stages[i];
        if (stage.to.first.dimension() != Dimension::ph)
            faults.error(path + "/to", where.what + " sours: " + to_text(stage.to) + " is no pH", "a pH, like 4.2pH", "correct the unit");
        else if (i > 0 && stage.to.first.value >= limit.stages[i - 1].to.first.value)
            faults.error(path + "/to", where.what + ": pH " + to_text(stage.to) + " does not fall from " + to_text(limit.stages[i - 1].to),
                         "values that fall from stage to stage", "correct the values, or their order");
        check_times_ascend(faults, where, path, limit.stages, i, "correct the time");
        check_fastest(faults, where, path, point, limit.stages, i);
    }
}

void check_loss(const Plan& plan, Faults& faults, const Where& where, const Point& point, const LossLimit& limit) {
    const std::string path = where.path + "/limit/loss";
    check_pair(faults, where, "limit/loss", limit.least, limit.most);
    for (const auto& [key, bound] : {std::pair{"least", limit.least}, std::pair{"most", limit.most}})
        if (bound && bound->first.dimension() != Dimension::percent)
            faults.error(path + "/" + key, where.what + " loses " + to_text(*bound), "a share, like 12%", "correct the unit");
    const auto check = [&](const std::string& key, const std::string& id, const std::string& word) {
        if (id == word) return;
        const Point* weighed = plan.point(id);
        std::vector<std::string> known = {word};
        for (const Point& p : plan.points)
            if (p.dimension == Dimension::mass) known.push_back(p.id);
        if (!weighed || weighed->dimension != Dimension::mass) {
            faults.error(path + "/" + key, where.what + " loss " + key + ": " + quoted(id) + " is not weighed",
                         quoted(word) + ", or a point whose limit is a mass",
                         remedy_with(nearest(id, known, 1), "name the point at which it is weighed"));
            return;
        }
        for (const std::string& product : point.products)
            if (!among(weighed->products, product))
                faults.error(path + "/" + key, where.what + " loss " + key + ": " + quoted(id) + " is not weighed of " + quoted(product),
                             "a point of the same product", "add the product there, or take it out here");
    };
    check("before", limit.before, "inputs");
    check("after", limit.after, "finish");
    if (limit.before == limit.after)
        faults.error(path + "/after", where.what + " loses from " + quoted(limit.before) + " to itself", "two different weighings",
                     "correct one of the two");
}

void check_cooling_start(Faults& faults, const Where& where, const Point& point) {
    const bool cools = is_one_of<CoolingLimit, BeforePackingLimit>(point.limit);
    if (!cools && (point.room || !point.room_point.empty()))
        faults.error(where.path + (point.room ? "/room" : "/room_point"), where.what + " names a room and cools nothing",
                     "a room on a point with a limit cooling or before_packing", "take it out");
    if (point.room && !point.room_point.empty())
        faults.error(where.path + "/room_point", where.what + " names both room and room_point", "one of the two", "leave one out");
}

void check_room_point(const Plan& plan, Faults& faults, const Where& where, const Point& point) {
    if (point.room_point.empty()) return;
    const Point* read = plan.point(point.room_point);
    if (read && !read->place.empty() && read->dimension == Dimension::temperature) return;
    std::vector<std::string> known;
    for (const Point& p : plan.points)
        if (!p.place.empty() && p.dimension == Dimension::temperature) known.push_back(p.id);
    faults.error(where.path + "/room_point", where.what + " room_point: " + quoted(point.room_point) + " reads no place's temperature",
                 "a point on a place that reads a temperature",
                 remedy_with(nearest(point.room_point, known, 1), "write room = \"4C\" when no point reads it"));
}

void check_acceptance(Faults& faults, const Where& where, const Point& point) {
    const bool fits =
        is_one_of<RangeLimit, BeforePackingLimit, CoolingLimit, SouringLimit, LethalityLimit, ClassLimit, MarketLimit>(point.limit);
    if (point.guarded && !fits)
        faults.error(where.path + "/acceptance", where.what + " is guarded and its limit has no value with an error of its own",
                     "guarded acceptance of a range, before_packing, cooling, souring, lethality, ph_aw or market",
                     "take acceptance out: no instrument reads what this limit is about");
}

// What is reckoned over a batch cannot be told of a place; a received lot has neither uses nor steps.
void check_subject(Faults& faults, const Where& where, const Point& point) {
    const bool of_batch = is_one_of<LethalityLimit, LossLimit, SouringLimit>(point.limit);
    const bool of_lot = of_batch || std::holds_alternative<ClassLimit>(point.limit);
    if ((of_lot && !point.place.empty()) || (of_batch && !point.materials.empty()))
        faults.error(where.path + "/limit",
                     where.what + " is reckoned over a batch and read on " + (point.place.empty() ? "materials" : "a place"),
                     "products = [\"...\"]", "read it on the products that it is about");
}

// What cools after its step can only have been hotter in it; of any other limit a later reading says nothing.
void check_read_on(Faults& faults, const Where& where, const Point& point) {
    const auto* range = std::get_if<RangeLimit>(&point.limit);
    if (point.read_on <= Duration{} || (range && range->least && !point.products.empty())) return;
    faults.error(where.path + "/read_on", where.what + " is read on after its step and has no least limit on products",
                 "limit = { least = ... } on products", "take read_on out");
}

// A cooling, a souring and a time between events have their events in the limit, a loss has two weighings; a place has no events.
void check_window(Faults& faults, const Where& where, const Point& point) {
    if (!point.window) return;
    const Window& window = *point.window;
    if (!takes_window(point.limit) || !point.place.empty())
        faults.error(where.path + "/window", where.what + " has a window, and its limit or place has no use for one",
                     "a window of a range, yes_no, before_packing, lethality, ph_aw or market, not on a place", "take window out");
    if (std::holds_alternative<BeforePackingLimit>(point.limit) && (!window.until.empty() || window.after))
        faults.error(where.path + "/window", where.what + " is read before packing, which ends its window", "from alone",
                     "take until and after out");
    if (!point.materials.empty() && !(window.from.empty() && window.until.empty()))
        faults.error(where.path + "/window", where.what + " is read on materials, which have no steps", "after alone",
                     "take from and until out");
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
        if (const auto* market = std::get_if<MarketLimit>(&point.limit)) most = strictest(*market);
        check_warning(faults, where, point, least, most);
        if (const auto* time = std::get_if<TimeLimit>(&point.limit)) check_time(faults, where, *time);
        if (const auto* cooling = std::get_if<CoolingLimit>(&point.limit)) check_cooling(faults, where, point, *cooling);
        if (const auto* heat = std::get_if<LethalityLimit>(&point.limit)) check_lethality(plan, faults, where, point, *heat);
        if (const auto* souring = std::get_if<SouringLimit>(&point.limit)) check_souring(faults, where, point, *souring);
        if (const auto* loss = std::get_if<LossLimit>(&point.limit)) check_loss(plan, faults, where, point, *loss);
        check_subject(faults, where, point);
        check_acceptance(faults, where, point);
        check_read_on(faults, where, point);
        check_window(faults, where, point);
        check_cooling_start(faults, where, point);
        check_room_point(plan, faults, where, point);
    }
}

}  // namespace peelbook::plan
