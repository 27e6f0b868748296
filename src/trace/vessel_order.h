#pragma once
// A vessel's history put in order, and what its clocks leave open. Inside the layer only.
#include <cstdint>
#include <vector>

#include "trace/vessel.h"

namespace peelbook::trace {

struct OrderedHistory {
    explicit OrderedHistory(const VesselHistory& history);  // throws std::logic_error on values that cannot be

    // Fills [0, n) may have begun at `at`, for all the clocks say.
    std::size_t begun_by(std::int64_t at) const;
    // Fills whose widened span holds `at`, latest first.
    std::vector<std::size_t> spans_around(std::int64_t at) const;
    // Does an emptying that counts lie between the start of fill `older` and the start of the next one?
    bool emptied_after(std::size_t older) const { return ends_[older] != never; }
    // When that emptying was; `never` when there was none.
    std::int64_t emptied_at(std::size_t older) const { return ends_[older]; }
    // The earliest emptying that does not count and may lie between the start of fill `older` and the end of every fill up to
    // `newer`; or `never`. It may have taken out `older`.
    std::int64_t doubt_between(std::size_t older, std::size_t newer) const;

    static constexpr std::int64_t never = INT64_MAX;

    std::int64_t clock;  // uncertainty
    std::vector<VesselFill> fills;
    std::vector<VesselDraw> draws;

  private:
    void place_emptyings(const VesselHistory& history);
    std::vector<std::int64_t> ends_;          // by fill
    std::vector<std::int64_t> latest_until_;  // over this fill and all before
    std::vector<std::int64_t> doubts_;        // emptyings that do not count, in order
};

std::vector<DrawContents> mixed_contents(const VesselHistory& history);
std::vector<DrawContents> first_in_contents(const VesselHistory& history);

}  // namespace peelbook::trace
