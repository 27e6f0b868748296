#include "judge/cooling_proof.h"

#include "judge/by_unit.h"
#include "judge/compare.h"
#include "judge/cooling_scale.h"

namespace peelbook::judge {
namespace {

bool proves_nothing(const plan::Point& point, const ReadingFact& reading) {
    return lacks_instrument(point, reading.instrument) || !reading.guard || reading.guard->dimension() != reading.value.dimension();
}

}  // namespace

plan::CoolingLimit falling_limit(const plan::SouringLimit& souring) {
    plan::CoolingLimit limit;
    limit.from = {measure_of(highest_ph_milli, Unit::ph), std::nullopt};
    limit.stages = souring.stages;
    limit.starts_at = souring.starts_at;
    return limit;
}

calc::CoolingResult proven(const plan::Point& point, const plan::CoolingLimit& limit, const Facts& facts,
                           const std::vector<const ReadingFact*>& readings, bool guarded, std::optional<Instant> ended) {
    ScaledCooling on_scale = scaled(limit, readings);
    for (std::size_t i = 0; i < readings.size(); ++i)
        if (proves_nothing(point, *readings[i])) on_scale.readings[i].guard.reset();
    calc::CoolingInput input;
    input.readings = std::move(on_scale.readings);
    input.tolerance = on_scale.tolerance;
    input.scatter = on_scale.scatter;
    input.clocks = facts.late_after;
    if (!limit.hot_at.empty()) input.known_hot_at = facts.last_end_of(limit.hot_at);
    for (const StepFact& told : facts.steps_done)
        if (told.again && told.step == limit.hot_at) input.heated_again = std::max(told.at, input.heated_again.value_or(told.at));
    if (!limit.starts_at.empty()) input.started = facts.event(limit.starts_at);
    input.ended = ended;
    return guarded ? calc::judge_cooling_guarded(on_scale.rule, input) : calc::judge_cooling(on_scale.rule, input);
}

const ReadingFact& least_sure(const plan::Point& point, const std::vector<const ReadingFact*>& readings) {
    const ReadingFact* found = nullptr;
    for (const ReadingFact* r : readings) {
        if (proves_nothing(point, *r)) return *r;
        if (!found || canonical_difference(*r->guard) > canonical_difference(*found->guard)) found = r;
    }
    return *found;
}

}  // namespace peelbook::judge
