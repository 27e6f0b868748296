#include "judge/facts.h"

#include <algorithm>

namespace peelbook::judge {
namespace {

constexpr std::string_view pack_step = "pack";
constexpr std::string_view receive_step = "receive";

void keep_earliest(std::optional<Instant>& kept, std::optional<Instant> other) {
    if (other && (!kept || *other < *kept)) kept = other;
}

std::optional<Instant> earliest(const std::vector<Instant>& moments) {
    if (moments.empty()) return std::nullopt;
    return *std::min_element(moments.begin(), moments.end());
}

// The place of a step in the product's order; absent for a step that is not of this product.
std::optional<std::size_t> place_of(const std::vector<std::string>& steps, std::string_view step) {
    const auto found = std::find(steps.begin(), steps.end(), step);
    if (found == steps.end()) return std::nullopt;
    return static_cast<std::size_t>(found - steps.begin());
}

bool is_receipt_of(const Facts& facts, std::string_view step) { return step == receive_step && place_of(facts.steps, step).has_value(); }

// `finish` ends finish_step and so passes the steps up to it; a plan that names none means the last before
// packing.
bool finish_passes(const Facts& facts, std::size_t place) {
    if (const auto last = place_of(facts.steps, facts.finish_step)) return place <= *last;
    const auto pack = place_of(facts.steps, pack_step);
    return !pack || place < *pack;
}

bool packing_passes(const Facts& facts, std::size_t place) {
    const auto pack = place_of(facts.steps, pack_step);
    return !pack || place < *pack;
}

}  // namespace

std::optional<Instant> Facts::end_of(std::string_view step) const {
    std::optional<Instant> end;
    const auto extend = [&](Instant at) {
        if (!end || at > *end) end = at;
    };
    for (const StepFact& done : steps_done)
        if (done.step == step) extend(done.at);
    if (finished && !step.empty() && step == finish_step) extend(*finished);
    if (is_receipt_of(*this, step)) extend(started);
    return end;
}

bool Facts::passed(std::string_view step) const { return passed_at(step).has_value(); }

std::optional<Instant> Facts::passed_at(std::string_view step) const {
    std::optional<Instant> first = earliest(shipped);
    const auto place = place_of(steps, step);
    for (const StepFact& done : steps_done) {
        const auto other = place_of(steps, done.step);
        if (done.step == step || (place && other && *other > *place)) keep_earliest(first, done.at);
    }
    if (is_receipt_of(*this, step)) keep_earliest(first, started);
    if (!place) return first;
    if (finish_passes(*this, *place)) keep_earliest(first, finished);
    if (packing_passes(*this, *place)) keep_earliest(first, earliest(packed));
    return first;
}

std::optional<Instant> Facts::event(std::string_view name) const {
    if (name == "start") return started;
    if (name == "finish") return finished;
    if (name == "pack" && !packed.empty()) return earliest(packed);
    if (name == "ship") {
        if (shipped.empty()) return std::nullopt;
        return *std::max_element(shipped.begin(), shipped.end());
    }
    return end_of(name);
}

}  // namespace peelbook::judge
