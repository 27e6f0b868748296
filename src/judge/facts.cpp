#include "judge/facts.h"

#include <algorithm>
#include <tuple>

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

void sort_by_time(std::vector<StepFact>& told) {
    std::stable_sort(told.begin(), told.end(),
                     [](const StepFact& a, const StepFact& b) { return std::tie(a.at, a.again) < std::tie(b.at, b.again); });
}

// Whether somebody had ended the stretch of work into which `moment` falls, by then.
bool ended_by(const std::vector<StepFact>& told, Instant moment) {
    bool ended = false;
    for (const StepFact& one : told) {
        if (one.at > moment) break;
        ended = !one.again;
    }
    return ended;
}

std::optional<Instant> begun_again(const Facts& facts, std::string_view step) {
    std::optional<Instant> last;
    for (const StepFact& done : facts.steps_done)
        if (done.again && done.step == step && (!last || done.at > *last)) last = done.at;
    return last;
}

}  // namespace

std::vector<StepFact> Facts::told_of(std::string_view step) const {
    std::vector<StepFact> told;
    for (const StepFact& done : steps_done)
        if (done.step == step) told.push_back(done);
    sort_by_time(told);
    const bool finishes = finish_ends && finished && !step.empty() && step == finish_step && !ended_by(told, *finished);
    if (finishes) told.push_back({0, std::string(step), *finished});
    if (is_receipt_of(*this, step)) told.push_back({0, std::string(step), started});
    sort_by_time(told);
    return told;
}

std::optional<Instant> Facts::last_end_of(std::string_view step) const {
    std::optional<Instant> end;
    for (const StepFact& told : told_of(step))
        if (!told.again) end = told.at;
    return end;
}

std::optional<Instant> Facts::end_of(std::string_view step) const {
    const auto end = last_end_of(step), again = begun_again(*this, step);
    return again && end && *end <= *again ? std::nullopt : end;
}

std::vector<Work> Facts::works(std::string_view step, Duration read_on) const {
    std::vector<Work> works(1);
    for (const StepFact& told : told_of(step)) {
        auto& until = works.back().until;
        if (!told.again) {
            if (!until) until = told.at;
        } else if (until && told.at <= *until + read_on) {
            works.push_back({told.at, std::nullopt});
        }
    }
    return works;
}

std::optional<Instant> Facts::over_at(std::string_view step, Duration read_on) const {
    const auto until = works(step, read_on).back().until;
    if (until && packed.empty() && shipped.empty() && as_of < *until + read_on) return std::nullopt;
    const auto passed = passed_at(step);
    return passed ? passed : until;
}

bool Facts::passed(std::string_view step) const { return passed_at(step).has_value(); }

std::optional<Instant> Facts::passed_at(std::string_view step) const {
    std::optional<Instant> first = earliest(shipped);
    const auto place = place_of(steps, step);
    const auto again = begun_again(*this, step);
    const auto shows = [&](std::optional<Instant> at) {
        if (!again || (at && *at > *again)) keep_earliest(first, at);
    };
    for (const StepFact& done : steps_done) {
        const auto other = place_of(steps, done.step);
        if (!done.again && (done.step == step || (place && other && *other > *place))) shows(done.at);
    }
    if (is_receipt_of(*this, step)) shows(started);
    if (!place) return first;
    if (finish_passes(*this, *place)) shows(finished);
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

std::optional<Instant> Facts::event_over(std::string_view name) const {
    if (const auto recorded = event(name)) return recorded;
    return passed_at(name == "finish" ? std::string_view(finish_step) : name);
}

Facts Facts::known_at(Instant moment) const {
    Facts known = *this;
    const auto later = [&](const auto& fact) { return fact.at > moment; };
    std::erase_if(known.steps_done, later);
    std::erase_if(known.readings, later);
    std::erase_if(known.inspections, later);
    std::erase_if(known.packed, [&](Instant at) { return at > moment; });
    std::erase_if(known.shipped, [&](Instant at) { return at > moment; });
    if (finished && *finished > moment) known.finished.reset();
    known.as_of = std::min(as_of, moment);
    return known;
}

}  // namespace peelbook::judge
