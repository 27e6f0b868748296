// Staged cooling of a batch: calc/cooling.h proves, this says what the point makes of it.
//
// Any stage that broke its limit is a deviation, any that cannot be shown is unproven, and while a stage can
// still be shown the point is open, unless the step is over. Readings of an instrument that is not valid
// count against the batch, never for it: within needs the valid readings alone to show it.
//
// With guarded acceptance within also needs each reading at the worst that its instrument allows to show it. A
// stage that is within only as read is open while a further reading can show it, then unproven.
//
// Readings that contradict each other show nothing (rule 54): while the step takes readings such a point is open, for a slip
// of the keys can be set right, then it is unproven.
#include "judge/by_unit.h"
#include "judge/cooling_proof.h"
#include "judge/cooling_words.h"
#include "judge/limits.h"

namespace peelbook::judge {
namespace {

using calc::StageVerdict;
using Readings = std::vector<const ReadingFact*>;

struct Cooling {
    const plan::Point& point;
    const plan::CoolingLimit& limit;
    const Facts& facts;
    std::string_view assumption;
    std::optional<Instant> ended;  // the step is over, or a later one or packing shows that it must be
};

calc::CoolingResult proven_by(const Cooling& cooling, const Readings& readings, bool guarded = false) {
    return proven(cooling.point, cooling.limit, cooling.facts, readings, guarded, cooling.ended);
}

// Why a cooling that all readings show as within is not, when only the valid instruments' readings are
// believed.
std::string doubt_of(const Cooling& cooling, const Readings& readings) {
    Readings believed;
    const ReadingFact* doubtful = nullptr;
    for (const ReadingFact* r : readings) {
        if (!lacks_instrument(cooling.point, r->instrument)) {
            believed.push_back(r);
        } else if (!doubtful) {
            doubtful = r;
        }
    }
    if (!doubtful) return "";
    if (!believed.empty() && proven_by(cooling, believed).shown()) return "";
    return "Within by its readings, " + instrument_fault(doubtful->instrument) + " for " + to_text(doubtful->value);
}

// What guarded acceptance found otherwise than simple acceptance; empty: nothing.
std::string guard_text(const Cooling& cooling, const CoolingStory& as_read, const calc::CoolingResult& result) {
    const bool by_guard = std::any_of(result.stages.begin(), result.stages.end(),
                                      [](const auto& stage) { return stage.by_guard && stage.verdict == StageVerdict::unproven; });
    if (!by_guard) return "";
    const ReadingFact& reading = least_sure(cooling.point, as_read.readings);
    const bool lacking = lacks_instrument(cooling.point, reading.instrument);
    return "As read " + as_read.measured() + ", " + (lacking ? instrument_fault(reading.instrument) : guard_fault(reading));
}

Verdict verdict_of(StageVerdict worst) {
    if (worst == StageVerdict::deviation) return Verdict::deviation;
    return worst == StageVerdict::within ? Verdict::within : Verdict::unproven;
}

Finding start_not_recorded(const Cooling& cooling, Instant ended) {
    Finding finding;
    finding.verdict = Verdict::unproven;
    finding.happened = ended;
    finding.measured = "start not recorded";
    append_sentence(finding.detail, "The clock starts with " + cooling.limit.starts_at + ", which was not recorded");
    return finding;
}

Outcome judge_readings(const Cooling& cooling, const Readings& readings) {
    if (readings.empty()) {
        Outcome outcome = missing_or_open(cooling.point, cooling.facts, "reading");
        if (!outcome.finding) outcome.next = first_target(cooling.limit);
        return outcome;
    }
    Outcome outcome;
    if (!cooling.limit.starts_at.empty() && !cooling.facts.event(cooling.limit.starts_at)) {
        outcome.next = first_target(cooling.limit);
        if (cooling.ended) outcome.finding = start_not_recorded(cooling, *cooling.ended);
        return outcome;
    }
    const calc::CoolingResult as_read = proven_by(cooling, readings);
    const std::string doubt = as_read.shown() ? doubt_of(cooling, readings) : "";
    const bool guarded = cooling.point.guarded && doubt.empty();
    const calc::CoolingResult result = guarded ? proven_by(cooling, readings, true) : as_read;
    const CoolingStory story{cooling.limit, readings, result, cooling.assumption};
    const std::string contradiction = story.contradiction();
    outcome.next = story.next();
    if (!contradiction.empty() && !cooling.ended)
        outcome.next += (outcome.next.empty() ? "" : "; ") + contradiction + ": look what is right, and read again";
    outcome.part_open = !outcome.next.empty();
    const bool unsettled = result.worst() == StageVerdict::within && !contradiction.empty() && !cooling.ended;
    if (result.worst() == StageVerdict::open || unsettled) return outcome;
    Finding finding;
    finding.verdict = std::max(verdict_of(result.worst()), doubt.empty() && contradiction.empty() ? Verdict::within : Verdict::unproven);
    finding.happened = story.decided();
    finding.measured = story.measured();
    finding.detail = story.detail();
    append_sentence(finding.detail, contradiction);
    append_sentence(finding.detail, doubt);
    append_sentence(finding.detail, guard_text(cooling, {cooling.limit, readings, as_read, {}}, result));
    outcome.finding = std::move(finding);
    return outcome;
}

}  // namespace

Judged judge_staged_cooling(const plan::Point& point, const plan::CoolingLimit& limit, const Facts& facts) {
    return judge_falling(point, limit, facts, cooling_assumption);
}

Judged judge_falling(const plan::Point& point, const plan::CoolingLimit& limit, const Facts& facts, std::string_view assumption) {
    const Cooling cooling{point, limit, facts, assumption, facts.passed_at(point.step)};
    return judge_units(point, facts, facts.readings, [&](const Readings& readings) { return judge_readings(cooling, readings); });
}

}  // namespace peelbook::judge
