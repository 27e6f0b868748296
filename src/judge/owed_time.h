#pragma once
// When a check that is owed again and again is owed (rule 11): in the house's shifts on its open days, or in the point's own hours
// on open days; where the plan states neither, always. An interval of a day or more counts open days whole: shifts part a day, and
// 24 hours of them would be three. Outages are taken out. Pure: of calendar, interval and zone alone.
//
// Hours are the site's local ones and belong to the day on which they begin, so that a night shift before a closed day runs to its
// end. Across a clock change they are an hour longer or shorter. A beginning or end that the change skips is the first moment
// after it; one that comes twice is the first of the two.
#include <optional>
#include <vector>

#include "base/zone.h"
#include "plan/plan.h"

namespace peelbook::judge {

struct Span {
    Instant from, until;  // until not included
    bool operator==(const Span&) const = default;
};

// The beginning of the first shift that begins at or after `at`; `at` itself where the plan has no shifts.
Instant first_shift(const plan::Plan& plan, const Zone& zone, Instant at);

class OwedTime {
  public:
    // `outages`: in any order; they may overlap. Plan and zone must outlive this.
    OwedTime(const plan::Plan& plan, const plan::Interval& interval, const Zone& zone, std::vector<Span> outages = {});

    // How much owed time lies in [from, until).
    Duration between(Instant from, Instant until) const;
    // The last moment at which the check after one at `last` is in time: between(last, t) <= every up to it, and more after it.
    // Looks no further than the interval and `furthest` ahead, and says that moment where less is owed up to it.
    Instant due(Instant last) const;
    static constexpr Duration furthest = days(400);

    // Hours in [from, until) in which nobody is there; outages are not such hours.
    std::vector<Span> closed(Instant from, Instant until) const;
    // The whole stretch of closed hours that ended last in (from, until]; none: none ended there.
    std::optional<Span> closed_last(Instant from, Instant until) const;
    // When hours begin next, at or after `at`; none within `furthest`, or where the house is always open.
    std::optional<Instant> reopens(Instant at) const;

  private:
    // In order, apart from each other; those that touch [from, until), whole. Of the open days, or of the hours on them.
    std::vector<Span> hours(Instant from, Instant until, bool whole_days) const;
    std::vector<Span> owed(Instant from, Instant until) const;  // within [from, until), outages taken out

    const plan::Plan& plan_;
    const plan::Interval& interval_;
    const Zone& zone_;
    std::vector<Span> outages_;
    bool always_;
};

}  // namespace peelbook::judge
