// First-in vessels: what each draw may hold of the queue. The rules stand in trace/vessel.h.
#include <algorithm>

#include "trace/vessel_queue.h"

namespace peelbook::trace {
namespace {

// What one draw holds of one period, standing at place `i` among its draws (there already, or put in
// between).
class Drawn {
  public:
    Drawn(const Queue& queue, const Period& period, std::size_t i, const VesselDraw& draw) : queue_(queue), period_(period), draw_(draw) {
        begun_ = std::clamp(queue.history.begun_by(draw.at), period.first + 1, period.last);
        const std::int64_t start = i < period.before.size() ? period.before[i] : period.drawn;
        written_ = {start, start + draw.mass_mg};
        possible_ = written_;
        const bool own = i < period.draws.size() && other(i).id == draw.id;
        const std::int64_t clock = queue.history.clock;
        for (std::size_t j = i; j-- > 0 && other(j).at + clock >= draw.at;) possible_.begin -= other(j).mass_mg;
        for (std::size_t j = own ? i + 1 : i; j < period.draws.size() && other(j).at <= draw.at + clock; ++j) {
            possible_.end += other(j).mass_mg;
        }
    }

    // By fill; expected masses only when the draw is of this period by the times as written.
    std::vector<Content> contents(bool as_written) const {
        std::vector<std::size_t> sides = open_sides();
        auto [first, last] = queue_.near(period_.first, begun_, possible_);
        for (const std::size_t side : sides) {
            first = std::min(first, side);
            last = std::max(last, side + 1);
        }
        const std::size_t standing = begun_as_written();
        std::vector<Content> found;
        for (std::size_t fill = first; fill < last; ++fill) {
            Content content{queue_.history.fills[fill].id, queue_.history.fills[fill].lot, 0, 0, false};
            if (as_written && fill < standing) content.expected_mg = queue_.written(fill, standing).overlap(written_);
            const bool side = std::find(sides.begin(), sides.end(), fill) != sides.end();
            content.largest_mg = std::max(content.expected_mg, side ? most(fill) : largest(fill));
            content.certain = sides.empty() && is_certain(fill);
            if (content.largest_mg > 0) found.push_back(content);
        }
        return found;
    }

  private:
    const VesselDraw& other(std::size_t j) const { return queue_.history.draws[period_.draws[j]]; }

    // One after the last fill that had begun by the times as written.
    std::size_t begun_as_written() const {
        std::size_t standing = begun_;
        while (standing > period_.first + 1 && queue_.history.fills[standing - 1].from > draw_.at) --standing;
        return standing;
    }

    std::int64_t most(std::size_t fill) const { return std::min(draw_.mass_mg, queue_.history.fills[fill].mass_mg); }

    std::int64_t largest(std::size_t fill) const { return std::min(most(fill), queue_.widest(fill, begun_).overlap(possible_)); }

    // Wherever the draw starts, it meets the part of the fill that no boundary touches.
    bool is_certain(std::size_t fill) const {
        const Stretch core = queue_.narrowest(fill, period_.first, begun_);
        return core.begin < core.end && possible_.begin + draw_.mass_mg > core.begin && possible_.end - draw_.mass_mg < core.end;
    }

    // Within the span of a fill on top of another one both sides are possible, and nothing is certain.
    std::vector<std::size_t> open_sides() const {
        std::vector<std::size_t> sides;
        for (const std::size_t fill : queue_.history.spans_around(draw_.at)) {
            if (fill > period_.first && fill < begun_) sides.insert(sides.end(), {fill - 1, fill});
        }
        return sides;
    }

    const Queue& queue_;
    const Period& period_;
    const VesselDraw draw_;
    std::size_t begun_ = 0;  // one after the last fill that may have begun
    Stretch written_;        // running mass drawn, by the times as written
    Stretch possible_;       // and over every order of draws that the clocks allow
};

void append(std::vector<Content>& contents, const std::vector<Content>& more) { contents.insert(contents.end(), more.begin(), more.end()); }

// The contents of draw `i` of period `p`, with what stands on the other side of an emptying that was too
// close to tell.
std::vector<Content> across_emptyings(const Queue& queue, std::size_t p, std::size_t i) {
    const OrderedHistory& history = queue.history;
    const VesselDraw& draw = history.draws[queue.periods[p].draws[i]];
    const std::vector<Content> own = Drawn(queue, queue.periods[p], i, draw).contents(true);
    bool open = queue.emptied_at(p) != OrderedHistory::never && draw.at > queue.emptied_at(p) + history.clock;
    std::vector<Content> contents;
    if (p > 0 && draw.at <= queue.emptied_at(p - 1) + history.clock) {
        const Period& earlier = queue.periods[p - 1];
        append(contents, Drawn(queue, earlier, earlier.draws.size(), draw).contents(false));
        open = true;
    }
    append(contents, own);
    if (p + 1 < queue.periods.size() && history.begun_by(draw.at) > queue.periods[p + 1].first) {
        append(contents, Drawn(queue, queue.periods[p + 1], 0, draw).contents(false));
        open = true;
    }
    if (open) {
        for (Content& content : contents) content.certain = false;
    }
    return contents;
}

}  // namespace

std::vector<DrawContents> first_in_contents(const VesselHistory& history) {
    const Queue queue(history);
    std::vector<DrawContents> result;
    for (const VesselDraw& draw : queue.history.draws) result.push_back({draw.id, {}});
    for (std::size_t p = 0; p < queue.periods.size(); ++p) {
        for (std::size_t i = 0; i < queue.periods[p].draws.size(); ++i) {
            result[queue.periods[p].draws[i]].contents = across_emptyings(queue, p, i);
        }
    }
    return result;
}

std::vector<DrawContents> draw_contents(const VesselHistory& history) {
    return history.model == VesselModel::mixed ? mixed_contents(history) : first_in_contents(history);
}

}  // namespace peelbook::trace
