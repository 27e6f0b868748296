#include <algorithm>

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

    void start_anew() { lowest_.reset(), latest_.reset(); }

    // Nothing of its fall was over by then.
    void begins_to_fall(Instant at) { latest_ = {at, Duration{}}; }

    std::optional<Contradiction> look_at(const CoolingReading& r) {
        if (lowest_ && r.value > lowest_->value + scatter_) return Contradiction{Contradiction::Kind::rise, lowest_->at, r.at};
        const std::int64_t warmest = r.value + scatter_, first = rule_.stages.front().to;
        const Duration needed = from_event_ && warmest > first ? Duration{} : least_time_to(rule_, warmest);
        if (latest_ && needed - latest_->spent > r.at - latest_->at + of_a_typed_time)
            return Contradiction{Contradiction::Kind::fall, latest_->at, r.at};
        const Duration spent = least_time_to(rule_, from_event_ ? std::min(r.value, first) : r.value);
        if (!latest_ || spent - latest_->spent <= r.at - latest_->at) latest_ = {r.at, spent};
        if (r.value <= rule_.from && (!lowest_ || r.value < lowest_->value)) lowest_ = r;
        return std::nullopt;
    }

  private:
    struct Fallen {
        Instant at;
        Duration spent;
    };
    const CoolingRule& rule_;
    std::int64_t scatter_;
    bool from_event_;
    std::optional<CoolingReading> lowest_;
    std::optional<Fallen> latest_;  // the one that leaves the next the least time
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
    Search search(rule, input);
    auto hot = input.started ? input.started : input.known_hot_at;
    auto again = input.heated_again;
    std::optional<Instant> cold;
    for (const CoolingReading& r : warmest_of(input)) {
        if (again && r.at >= *again) {
            search.start_anew();
            cold.reset();
            if (hot && r.at < *hot) continue;  // being heated
            again.reset();
        }
        if (hot && r.at >= *hot) {
            if (cold && *hot - *cold > input.clocks) return Contradiction{Contradiction::Kind::hot, *cold, *hot};
            if (!cold) search.begins_to_fall(*hot);
            hot.reset();
        }
        if (const auto found = search.look_at(r)) return found;
        if (!cold && r.value <= rule.from) cold = r.at;
    }
    if (hot && cold && !again && *hot - *cold > input.clocks) return Contradiction{Contradiction::Kind::hot, *cold, *hot};
    return std::nullopt;
}

}  // namespace peelbook::calc
