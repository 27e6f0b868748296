#include "trace/vessel_order.h"

#include <algorithm>
#include <stdexcept>
#include <string>
#include <tuple>

namespace peelbook::trace {
namespace {

void refuse_unless(bool good, const std::string& what) {
    if (!good) throw std::logic_error("vessel history: " + what);
}

void check(const VesselHistory& history) {
    refuse_unless(history.heel_mg >= 0 && history.smear_mg >= 0 && history.clock_uncertainty_ms >= 0,
                  "heel, smear and clock uncertainty are not negative");
    for (const VesselFill& fill : history.fills) {
        refuse_unless(fill.mass_mg > 0, "the mass of fill " + std::to_string(fill.id) + " is above 0");
        refuse_unless(fill.until >= fill.from, "fill " + std::to_string(fill.id) + " ends after it starts");
    }
    for (const VesselDraw& draw : history.draws) {
        refuse_unless(draw.mass_mg > 0, "the mass of draw " + std::to_string(draw.id) + " is above 0");
    }
}

}  // namespace

OrderedHistory::OrderedHistory(const VesselHistory& history)
    : clock(history.clock_uncertainty_ms), fills(history.fills), draws(history.draws) {
    check(history);
    std::sort(fills.begin(), fills.end(),
              [](const VesselFill& a, const VesselFill& b) { return std::tie(a.from, a.id) < std::tie(b.from, b.id); });
    std::sort(draws.begin(), draws.end(),
              [](const VesselDraw& a, const VesselDraw& b) { return std::tie(a.at, a.id) < std::tie(b.at, b.id); });
    for (const VesselFill& fill : fills) {
        latest_until_.push_back(latest_until_.empty() ? fill.until : std::max(latest_until_.back(), fill.until));
    }
    place_emptyings(history);
}

void OrderedHistory::place_emptyings(const VesselHistory& history) {
    ends_.assign(fills.size(), never);
    for (const VesselEmptied& emptied : history.emptied) {
        if (!emptied.inspected || !spans_around(emptied.at).empty()) {
            doubts_.push_back(emptied.at);
            continue;
        }
        const std::size_t begun = begun_by(emptied.at);
        if (begun > 0) ends_[begun - 1] = std::min(ends_[begun - 1], emptied.at);
    }
    std::sort(doubts_.begin(), doubts_.end());
}

std::int64_t OrderedHistory::doubt_between(std::size_t older, std::size_t newer) const {
    const auto doubt = std::lower_bound(doubts_.begin(), doubts_.end(), fills[older].from - clock);
    return doubt != doubts_.end() && *doubt <= latest_until_[newer] + clock ? *doubt : never;
}

std::size_t OrderedHistory::begun_by(std::int64_t at) const {
    const auto end =
        std::upper_bound(fills.begin(), fills.end(), at + clock, [](std::int64_t t, const VesselFill& fill) { return t < fill.from; });
    return static_cast<std::size_t>(end - fills.begin());
}

std::vector<std::size_t> OrderedHistory::spans_around(std::int64_t at) const {
    std::vector<std::size_t> found;
    for (std::size_t i = begun_by(at); i-- > 0 && latest_until_[i] + clock >= at;) {
        if (fills[i].until + clock >= at) found.push_back(i);
    }
    return found;
}

}  // namespace peelbook::trace
