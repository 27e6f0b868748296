#include <algorithm>
#include <limits>

#include "calc/cooling.h"

namespace peelbook::calc {
namespace {

// People type the time to the minute.
constexpr Duration of_a_typed_time = minutes(1);

// The least time in which `value` is reached from `from`, straight between one target and the next; nothing where it is not known.
Duration least_time_to(const CoolingRule& rule, std::int64_t value) {
    Duration reached{};
    std::int64_t top = rule.from;
    for (const CoolingStage& stage : rule.stages) {
        if (value >= top) break;
        const Duration counted = rule.each_from_previous ? reached : Duration{};
        const Duration next = stage.fastest ? std::max(reached, counted + *stage.fastest) : reached;
        if (value > stage.to) return reached + Duration{(next - reached).ms * (top - value) / (top - stage.to)};
        reached = next;
        top = stage.to;
    }
    return reached;
}

// Looks at one reading after the other, each against all before it. A clock that an event starts says nothing of the value at its
// start: then what is above the first target may have been on its way to there for as long as that takes.
class Search {
  public:
    Search(const CoolingRule& rule, const CoolingInput& input)
        : rule_(rule), scatter_(std::max(input.scatter, input.tolerance)), from_event_(input.started.has_value()) {}

    void start_anew() { cooled_ = falls_ = false; }

    // Nothing of its fall was over by then.
    void begins_to_fall(Instant at) { falls_since(at, Duration{}); }

    std::optional<Contradiction> look_at(const CoolingReading& r) {
        if (cooled_ && r.value > lowest_.value + scatter_) return Contradiction{Contradiction::Kind::rise, lowest_.at, r.at};
        const std::int64_t warmest = r.value + scatter_, first = rule_.stages.front().to;
        const Duration needed = from_event_ && warmest > first ? Duration{} : least_time_to(rule_, warmest);
        if (falls_ && needed - spent_ > r.at - latest_ + of_a_typed_time) return Contradiction{Contradiction::Kind::fall, latest_, r.at};
        const Duration spent = least_time_to(rule_, from_event_ ? std::min(r.value, first) : r.value);
        if (!falls_ || spent - spent_ <= r.at - latest_) falls_since(r.at, spent);
        if (r.value <= rule_.from && (!cooled_ || r.value < lowest_.value)) {
            lowest_ = r;
            cooled_ = true;
        }
        return std::nullopt;
    }

  private:
    void falls_since(Instant at, Duration spent) {
        falls_ = true;
        latest_ = at;
        spent_ = spent;
    }

    const CoolingRule& rule_;
    std::int64_t scatter_;
    bool from_event_;
    bool cooled_ = false, falls_ = false;  // something was read below `from`; something at all
    CoolingReading lowest_{};              // of those below
    Instant latest_;                       // the one that leaves the next the least time,
    Duration spent_;                       // and the least time that its fall had taken
};

// Of several at one instant the warmest, none before the clock starts.
std::vector<CoolingReading> warmest_of(const CoolingInput& input) {
    std::vector<CoolingReading> kept;
    for (const CoolingReading& r : input.readings) {
        if (input.started && r.at < *input.started) continue;
        if (kept.empty() || kept.back().at != r.at)
            kept.push_back(r);
        else
            kept.back().value = std::max(kept.back().value, r.value);
    }
    return kept;
}

}  // namespace

std::optional<Contradiction> contradiction_in(const CoolingRule& rule, const CoolingInput& input) {
    constexpr Instant never{std::numeric_limits<std::int64_t>::max()};
    Search search(rule, input);
    Instant hot = input.started.value_or(input.known_hot_at.value_or(never));  // still to come; never: it came, or nobody said it
    Instant again = input.heated_again.value_or(never), cold = never;
    for (const CoolingReading& r : warmest_of(input)) {
        if (r.at >= again) {
            search.start_anew();
            cold = never;
            if (hot != never && r.at < hot) continue;  // being heated
            again = never;
        }
        if (r.at >= hot) {
            if (cold != never && hot - cold > input.clocks) return Contradiction{Contradiction::Kind::hot, cold, hot};
            if (cold == never) search.begins_to_fall(hot);
            hot = never;
        }
        if (const auto found = search.look_at(r)) return found;
        if (cold == never && r.value <= rule.from) cold = r.at;
    }
    if (hot != never && cold != never && again == never && hot - cold > input.clocks)
        return Contradiction{Contradiction::Kind::hot, cold, hot};
    return std::nullopt;
}

}  // namespace peelbook::calc
