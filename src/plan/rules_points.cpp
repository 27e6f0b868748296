#include <algorithm>

#include "base/text.h"
#include "plan/rules.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

// Moments of a batch that a time limit may name besides its steps.
const std::vector<std::string> moments = {"start", "finish", "pack", "ship"};

void check_names(const Plan& plan, const Point& point, const std::string& path, Faults& faults) {
    const std::string what = "point " + quoted(point.id);
    check_all_known(faults, path + "/products", what + " products", "product", point.products, ids_of(plan.products));
    check_all_known(faults, path + "/materials", what + " materials", "material", point.materials, ids_of(plan.materials));
    check_all_known(faults, path + "/lines", what + " lines", "place", point.lines, ids_of(plan.places));
    check_known(faults, path + "/place", what + " place", "place", point.place, ids_of(plan.places));
    check_known(faults, path + "/hazard", what + " hazard", "hazard", point.hazard, ids_of(plan.hazards));
}

void check_where(const Point& point, const std::string& path, Faults& faults) {
    const std::string what = "point " + quoted(point.id);
    std::vector<std::string> kinds;
    if (!point.products.empty()) kinds.emplace_back("products");
    if (!point.materials.empty()) kinds.emplace_back("materials");
    if (!point.place.empty()) kinds.emplace_back("place");
    if (kinds.empty())
        faults.error(path, what + " is read nowhere", "products = [...], materials = [...] or place = \"...\"", "write what it is read on");
    if (kinds.size() > 1) faults.error(path, what + " is read on " + all_of(kinds), "one of the three", "make a point of its own for each");
    if (!point.materials.empty() && point.step != "receive")
        faults.error(path + "/step", what + " is read on materials at step " + quoted(point.step), "step \"receive\"",
                     "take step out, or read it on products");
    if (!point.place.empty() && kinds.size() == 1 && !point.step.empty())
        faults.error(path + "/step", what + " is read on a place at step " + quoted(point.step), "no step", "take step out");
}

void check_step(const Plan& plan, const Point& point, const std::string& path, const std::string& key, const std::string& step,
                const std::vector<std::string>& also, Faults& faults) {
    if (step.empty() || among(also, step)) return;
    for (const std::string& id : point.products) {
        const Product* product = plan.product(id);
        if (!product || product->steps.empty()) continue;
        if (among(product->steps, step)) continue;
        std::vector<std::string> known = product->steps;
        known.insert(known.end(), also.begin(), also.end());
        faults.error(
            path + "/" + key,
            "point " + quoted(point.id) + " " + key.substr(key.rfind('/') + 1) + ": product " + quoted(id) + " has no step " + quoted(step),
            "one of its steps: " + joined(known, ", "), remedy_with(nearest(step, known), "correct it, or the product's steps"));
    }
}

// "mix" must come before "bake" where both are steps of the product.
void check_order(const Plan& plan, const Point& point, const std::string& from_event, const std::string& until_event,
                 const std::string& path, Faults& faults) {
    const std::string what = "point " + quoted(point.id);
    if (from_event == until_event)
        faults.error(path, what + ": the time runs from " + quoted(from_event) + " to itself", "two different moments",
                     "correct one of the two");
    for (const std::string& id : point.products) {
        const Product* product = plan.product(id);
        if (!product) continue;
        const auto& steps = product->steps;
        const auto from = std::find(steps.begin(), steps.end(), from_event);
        const auto until = std::find(steps.begin(), steps.end(), until_event);
        if (from != steps.end() && until != steps.end() && until < from)
            faults.error(path, what + ": " + quoted(until_event) + " comes before " + quoted(from_event) + " in product " + quoted(id),
                         "the earlier step first", "swap from and until");
    }
}

void check_steps(const Plan& plan, const Point& point, const std::string& path, Faults& faults) {
    check_step(plan, point, path, "step", point.step, {}, faults);
    const auto* time = std::get_if<TimeLimit>(&point.limit);
    if (!point.products.empty() && point.step.empty() && !time)
        faults.error(path, "point " + quoted(point.id) + " has no step", "the step at which it is read", "write step = \"bake\"");
    if (time) {
        check_step(plan, point, path, "limit/time/from", time->from, moments, faults);
        check_step(plan, point, path, "limit/time/until", time->until, moments, faults);
        check_order(plan, point, time->from, time->until, path + "/limit/time", faults);
    }
    if (point.window) {
        check_step(plan, point, path, "window/from", point.window->from, moments, faults);
        check_step(plan, point, path, "window/until", point.window->until, moments, faults);
        if (!point.window->from.empty() && !point.window->until.empty())
            check_order(plan, point, point.window->from, point.window->until, path + "/window", faults);
    }
    if (const auto* cooling = std::get_if<CoolingLimit>(&point.limit)) {
        check_step(plan, point, path, "limit/cooling/hot_at", cooling->hot_at, {}, faults);
        check_step(plan, point, path, "limit/cooling/starts_at", cooling->starts_at, moments, faults);
    }
    if (const auto* souring = std::get_if<SouringLimit>(&point.limit))
        check_step(plan, point, path, "limit/souring/starts_at", souring->starts_at, moments, faults);
}

bool verifies(const Plan& plan, const Point& point) {
    return std::any_of(plan.cleanings.begin(), plan.cleanings.end(), [&](const Cleaning& c) { return among(c.verify, point.id); });
}

void check_checks(const Point& point, bool verifies_cleaning, const std::string& path, Faults& faults) {
    const std::string what = "point " + quoted(point.id);
    const bool device = point.interval && point.interval->device_check;
    if (point.interval && point.place.empty())
        faults.error(path + "/every", what + " is owed at intervals and on no place", "place = \"...\", what is checked",
                     "write the place, or take every out");
    if (device && point.lines.empty())
        faults.error(path + "/device_check", what + " checks a device that no line runs through",
                     "lines = [\"...\"], whose batches pass it", "write the lines: a failed check holds what passed on them");
    if (!device && !point.lines.empty())
        faults.error(path + "/lines", what + " names lines and is no device check", "lines with device_check = true",
                     "write device_check = true, or take lines out");
    const bool at_its_moments = std::holds_alternative<LabelLimit>(point.limit) || verifies_cleaning;
    if (!point.place.empty() && !point.interval && !point.optional && !at_its_moments && !faults.written(path + "/every"))
        faults.warn(path, what + " is read on a place and never owed", "every = \"...\", or optional = true", "write how often it is owed");
    if (point.grade != Grade::critical) return;
    if (point.how_often.empty() && !point.interval)
        faults.warn(path, what + " is critical and does not say how often it is checked", "how_often = \"...\"", "write it");
    if (point.who.empty())
        faults.warn(path, what + " is critical and does not say who checks it", "by = \"...\", a role in words", "write it");
}

// A thermometer keeps the highest and lowest value of what it reads.
bool has_extremes(const Point& point) { return std::holds_alternative<RangeLimit>(point.limit); }

void check_closed(const Plan& plan, const Point& point, const std::string& path, Faults& faults) {
    if (!point.interval) return;
    const std::string what = "point " + quoted(point.id);
    const Interval& interval = *point.interval;
    if (interval.closed == Closed::unsaid && !plan.shifts.empty() && point.grade == Grade::critical && has_extremes(point))
        faults.error(path, what + " is critical and does not say what shows it while nobody is there",
                     "closed = \"logger\", \"min-max\", \"alarm\" or \"nothing\"", "write it: the plan has shifts");
    if (interval.closed == Closed::min_max && !has_extremes(point))
        faults.error(path + "/closed", what + " has no highest or lowest value that a thermometer could keep", "a limit in numbers",
                     "say what else shows the closed hours");
    if (interval.closed == Closed::min_max && !point.units.empty())
        faults.error(path + "/closed", what + " has units, and a reading of an extreme says max or min there", "a point for each of them",
                     "part the point, or say what else shows the closed hours");
    if (interval.alarm.empty()) return;
    check_known(faults, path + "/alarm", what + " alarm", "point", interval.alarm, ids_of(plan.points));
    const Point* alarm = plan.point(interval.alarm);
    if (alarm && (!alarm->interval || alarm->interval->closed == Closed::alarm))
        faults.error(path + "/alarm", what + " alarm: " + quoted(alarm->id) + " is no test that is owed again and again",
                     "a point of a place with every, which rests on no alarm itself", "name the test of the alarm");
}

// The temperatures from which the dough water is reckoned: points of the product, or of a place.
void check_dough_aim(const Plan& plan, const Product& product, const std::string& path, Faults& faults) {
    const DoughAim& aim = *product.dough;
    const auto check = [&](const std::string& key, const std::string& id, bool of_product) {
        if (id.empty()) return;
        const Point* point = plan.point(id);
        const auto fits = [&](const Point& p) {
            const bool here = among(p.products, product.id);
            return p.dimension == Dimension::temperature && (here || (!of_product && !p.place.empty()));
        };
        if (point && fits(*point)) return;
        std::vector<std::string> known;
        for (const Point& p : plan.points)
            if (fits(p)) known.push_back(p.id);
        faults.error(path + "/" + key,
                     "product " + quoted(product.id) + " dough " + key + ": " + quoted(id) + " reads no temperature of it",
                     of_product ? "a point of this product that reads a temperature"
                                : "a point of this product or of a place that reads a temperature",
                     remedy_with(nearest(id, known, 1), "write such a point, or take dough out"));
    };
    check("read", aim.dough, true);
    check("flour", aim.flour, false);
    check("water", aim.water, true);
    check("room", aim.room, false);
    check("preferment", aim.preferment, true);
}

}  // namespace

void check_points(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.products.size(); ++i)
        if (plan.products[i].dough) check_dough_aim(plan, plan.products[i], path_at("product", i) + "/dough", faults);
    for (std::size_t i = 0; i < plan.points.size(); ++i) {
        const std::string path = path_at("point", i);
        check_names(plan, plan.points[i], path, faults);
        check_where(plan.points[i], path, faults);
        check_steps(plan, plan.points[i], path, faults);
        check_closed(plan, plan.points[i], path, faults);
        check_checks(plan.points[i], verifies(plan, plan.points[i]), path, faults);
    }
}

}  // namespace peelbook::plan
