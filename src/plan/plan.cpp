#include "plan/plan.h"

#include <algorithm>

#include "base/text.h"

namespace peelbook::plan {
namespace {

template <class Applies> std::vector<const Point*> points_where(const std::vector<Point>& points, Applies applies) {
    std::vector<const Point*> found;
    for (const Point& point : points)
        if (applies(point)) found.push_back(&point);
    return found;
}

}  // namespace

std::string to_text(const Bound& b) { return b.second ? to_text(b.first) + " | " + to_text(*b.second) : to_text(b.first); }

bool Calendar::is_open(Date day) const {
    if (std::find(closed.begin(), closed.end(), day) != closed.end()) return false;
    return open.empty() || among(open, weekdays[static_cast<std::size_t>(iso_weekday(day) - 1)]);
}

std::optional<Dimension> dimension_of(const Limit& limit) {
    if (const auto* range = std::get_if<RangeLimit>(&limit)) return (range->least ? *range->least : *range->most).first.dimension();
    if (const auto* cooling = std::get_if<CoolingLimit>(&limit)) return cooling->from.first.dimension();
    if (const auto* packing = std::get_if<BeforePackingLimit>(&limit)) return packing->most.first.dimension();
    if (std::holds_alternative<LethalityLimit>(limit)) return Dimension::temperature;
    if (std::holds_alternative<SouringLimit>(limit)) return Dimension::ph;
    if (std::holds_alternative<MarketLimit>(limit)) return Dimension::per_million;
    return std::nullopt;
}

std::optional<Dimension> figure_dimension(const Limit& limit) {
    if (std::holds_alternative<TimeLimit>(limit)) return Dimension::duration;
    if (std::holds_alternative<LossLimit>(limit)) return Dimension::percent;
    return std::nullopt;
}

bool Interval::is_at(LabelMoment moment) const { return std::find(at.begin(), at.end(), word(moment)) != at.end(); }

bool Point::checks_device_of(std::string_view line) const {
    return interval && interval->device_check && std::find(lines.begin(), lines.end(), line) != lines.end();
}

bool takes_window(const Limit& limit) {
    return !std::holds_alternative<TimeLimit>(limit) && !std::holds_alternative<CoolingLimit>(limit) &&
           !std::holds_alternative<SouringLimit>(limit) && !std::holds_alternative<LossLimit>(limit) &&
           !std::holds_alternative<LabelLimit>(limit);
}

bool is_measured(const Point& p) { return p.dimension || std::holds_alternative<ClassLimit>(p.limit); }

bool is_read_in(const Point& p, Dimension d) {
    if (std::holds_alternative<ClassLimit>(p.limit)) return d == Dimension::ph || d == Dimension::water_activity;
    return p.dimension == d;
}

std::vector<const Equipment*> Plan::pieces_of(std::string_view product, std::string_view line) const {
    std::vector<const Equipment*> found;
    for (const Equipment& one : equipment)
        if (among(one.lines, line) && (one.products.empty() || among(one.products, product))) found.push_back(&one);
    return found;
}

std::vector<const Point*> Plan::points_of_product(std::string_view product) const {
    return points_where(points, [&](const Point& p) { return among(p.products, product); });
}

std::vector<const Point*> Plan::points_of_material(std::string_view material) const {
    return points_where(points, [&](const Point& p) { return among(p.materials, material); });
}

std::vector<const Point*> Plan::points_of_place(std::string_view place) const {
    return points_where(points, [&](const Point& p) { return !place.empty() && p.place == place; });
}

Clocks Plan::clocks_of(std::string_view item) const {
    const auto of = [](const auto& good) { return Clocks{good.opened_within, good.thawed_within, good.refreeze}; };
    if (const Material* m = material(item)) return of(*m);
    const Product* p = product(item);
    return p ? of(*p) : Clocks{};
}

std::string Plan::name_of(std::string_view item) const {
    if (const Material* m = material(item)) return m->name;
    if (const Product* p = product(item)) return p->name;
    return std::string(item);
}

}  // namespace peelbook::plan
