#include "site/ask/chart_subject.h"

#include "base/one_of.h"
#include "plan/boundaries.h"
#include "plan/words.h"

namespace peelbook::site {
namespace {

constexpr Duration read_in_hours_from = hours(2);

double in_unit_of(const Duration& time, Unit unit) { return in_unit(time.ms, unit); }
double in_unit_of(const plan::Bound& bound, Unit unit) { return in_unit(bound.first.value, unit); }

template <class Side> void take_sides(ChartSubject& subject, const std::optional<Side>& least, const std::optional<Side>& most) {
    if (least) subject.least = in_unit_of(*least, subject.unit);
    if (most) subject.most = in_unit_of(*most, subject.unit);
}

Unit unit_stated(const std::optional<plan::Bound>& least, const std::optional<plan::Bound>& most) {
    return (least ? *least : *most).first.unit;
}

struct OfLimit {
    const plan::Point& point;

    ChartSubject operator()(const plan::TimeLimit& limit) const {
        const auto smaller = limit.least ? limit.least : limit.most;
        ChartSubject subject;
        subject.unit = smaller && *smaller >= read_in_hours_from ? Unit::hour : Unit::minute;
        take_sides(subject, limit.least, limit.most);
        subject.what = subject.unit == Unit::hour ? "hours " : "minutes ";
        return figure(subject);
    }
    ChartSubject operator()(const plan::LossLimit& limit) const {
        ChartSubject subject;
        subject.unit = Unit::percent;
        take_sides(subject, limit.least, limit.most);
        subject.what = "percent ";
        return figure(subject);
    }
    ChartSubject operator()(const plan::RangeLimit& limit) const {
        ChartSubject subject;
        subject.unit = unit_stated(limit.least, limit.most);
        take_sides(subject, limit.least, limit.most);
        return readings(subject);
    }
    ChartSubject operator()(const plan::BeforePackingLimit& limit) const {
        ChartSubject subject;
        subject.unit = limit.most.first.unit;
        subject.most = in_unit_of(limit.most, subject.unit);
        return readings(subject);
    }
    ChartSubject operator()(const plan::SouringLimit&) const {
        ChartSubject subject;
        subject.unit = Unit::ph;
        return readings(subject);
    }
    ChartSubject operator()(const plan::MarketLimit& limit) const {
        ChartSubject subject;
        subject.unit = Unit::mg_per_kg;
        take_sides<plan::Bound>(subject, {}, plan::strictest(limit));
        return readings(subject);
    }
    template <OneOf<plan::CoolingLimit, plan::YesNoLimit, plan::LethalityLimit, plan::ClassLimit, plan::LabelLimit> Limit>
    ChartSubject operator()(const Limit&) const {
        return readings({});
    }

    ChartSubject figure(ChartSubject subject) const {
        subject.what += plan::figure_words(point.limit) + ", each batch";
        return subject;
    }
    ChartSubject readings(ChartSubject subject) const {
        const std::string& of = point.measures.empty() ? (point.name.empty() ? point.id : point.name) : point.measures;
        subject.what = of + ", in " + std::string(symbol(subject.unit)) + (point.place.empty() ? ", each reading" : ", each check");
        return subject;
    }
};

}  // namespace

bool has_control_chart(const plan::Point& point) {
    if (plan::figure_dimension(point.limit)) return true;
    return point.dimension && !std::holds_alternative<plan::CoolingLimit>(point.limit);
}

ChartSubject chart_subject(const plan::Point& point) { return std::visit(OfLimit{point}, point.limit); }

}  // namespace peelbook::site
