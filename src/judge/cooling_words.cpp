#include "judge/cooling_words.h"

#include "judge/by_unit.h"
#include "judge/compare.h"

namespace peelbook::judge {

using calc::StageResult;
using calc::StageVerdict;

std::size_t CoolingStory::deciding_stage() const {
    const StageVerdict worst = result.worst();
    std::size_t stage = 0;
    while (result.stages[stage].verdict != worst) ++stage;
    return stage;
}

// Where the clock of a stage starts: "57C", or "the end of mix" when an event starts it.
std::string CoolingStory::start_text(std::size_t stage) const {
    if (limit.each_from_previous && stage > 0) return to_text(shown_in(limit.stages[stage - 1].to, typed()));
    if (!limit.starts_at.empty()) return limit.starts_at;
    return to_text(shown_in(limit.from, typed()));
}

// "2:00", "1:20-2:10", "1:20 or more", "more than 2:10".
std::string CoolingStory::took_text(std::size_t stage) const {
    const StageResult& s = result.stages[stage];
    if (!s.end.by) return "more than " + to_text(s.shortest);
    if (!s.longest) return to_text(s.shortest) + " or more";
    if (*s.longest == s.shortest) return to_text(s.shortest);
    return to_text(s.shortest) + "-" + to_text(*s.longest);
}

std::string CoolingStory::measured() const {
    const auto text = [&](std::size_t i) {
        const std::string target = to_text(shown_in(limit.stages[i].to, typed()));
        const StageResult& s = result.stages[i];
        if (s.by_guard && !s.start.by) return target + " not shown";
        if (!s.end.by) return target + (s.by_guard ? " not surely reached in " : " not reached in ") + to_text(s.shortest);
        return took_text(i) + " to " + target;
    };
    if (result.worst() != StageVerdict::within) return text(deciding_stage());
    std::string all;
    for (std::size_t i = 0; i < result.stages.size(); ++i) all += (i == 0 ? "" : ", ") + text(i);
    return all;
}

std::string CoolingStory::reading_text(Instant at) const {
    const ReadingFact* warmest = nullptr;
    for (const ReadingFact* r : readings)
        if (r->at == at && (!warmest || r->value.value > warmest->value.value)) warmest = r;
    if (warmest) return to_text(warmest->value);
    return limit.starts_at.empty() ? "the end of " + limit.hot_at : limit.starts_at;
}

// What bounds a crossing: "at 57C", "between 60C and 48C", "after 23C".
std::string CoolingStory::crossing_text(const calc::Crossing& crossing) const {
    if (crossing.after && crossing.by) {
        if (*crossing.after == *crossing.by) return "at " + reading_text(*crossing.by);
        return "between " + reading_text(*crossing.after) + " and " + reading_text(*crossing.by);
    }
    if (crossing.by) return "before " + reading_text(*crossing.by) + ", with no record from above";
    return crossing.after ? "after " + reading_text(*crossing.after) : "not on record";
}

// "57C to 21C within 2:00: took 1:20-2:10; start between 60C and 48C, end between 23C and 19C"
std::string CoolingStory::stage_text(std::size_t stage) const {
    const StageResult& s = result.stages[stage];
    std::string text =
        start_text(stage) + " to " + to_text(shown_in(limit.stages[stage].to, typed())) + " within " + to_text(limit.stages[stage].within);
    if (s.by_guard) text += ", each reading at the worst that its instrument allows";
    if (s.before_reheating) text += ", before it was reheated";
    if (!s.start.by && s.by_guard) return text + ": none shows the start for certain";
    if (!s.start.by) return text + ": the start was not reached, the last reading is " + to_text(readings.back()->value);
    text += ": took " + took_text(stage) + "; ";
    if (limit.starts_at.empty() || (limit.each_from_previous && stage > 0)) text += "start " + crossing_text(s.start) + ", ";
    return text + "end " + crossing_text(s.end);
}

std::string CoolingStory::detail() const {
    std::string text;
    if (result.worst() != StageVerdict::within) {
        append_sentence(text, stage_text(deciding_stage()));
    } else {
        for (std::size_t i = 0; i < result.stages.size(); ++i) append_sentence(text, stage_text(i));
    }
    append_sentence(text, assumption);
    return text;
}

std::string CoolingStory::spare_text() const {
    const Measure* largest = nullptr;
    for (const ReadingFact* r : readings) {
        if (!r->guard || r->guard->dimension() != r->value.dimension()) continue;
        if (!largest || canonical_difference(*r->guard) > canonical_difference(*largest)) largest = &*r->guard;
    }
    return largest ? " less " + to_text(*largest) + " for the instrument" : " by an instrument whose error is known";
}

std::string CoolingStory::next() const {
    for (std::size_t i = 0; i < result.stages.size(); ++i) {
        const StageResult& s = result.stages[i];
        if (s.verdict != StageVerdict::open) continue;
        const std::string target = to_text(shown_in(limit.stages[i].to, typed())) + (s.by_guard ? spare_text() : std::string());
        if (s.prove_by) return target + " within " + to_text(*s.prove_by - readings.back()->at) + " of the last reading";
        return target + " within " + to_text(limit.stages[i].within) + " of " + start_text(i);
    }
    return "";
}

std::string CoolingStory::contradiction() const {
    if (!result.contradiction) return "";
    const auto& [kind, earlier, later] = *result.contradiction;
    const std::string before = reading_text(earlier), after = reading_text(later), time = to_text(later - earlier);
    if (kind == calc::Contradiction::Kind::hot) return "The end of " + limit.hot_at + " is stated " + time + " after " + before;
    if (kind == calc::Contradiction::Kind::rise) return after + " stands " + time + " after " + before + ", which does not rise again";
    return "From " + before + " to " + after + " in " + time + " is faster than such a product gets there";
}

Instant CoolingStory::decided() const {
    const std::size_t stage = result.worst() == StageVerdict::within ? result.stages.size() - 1 : deciding_stage();
    const auto reached = result.stages[stage].end.by;
    return reached ? *reached : readings.back()->at;
}

std::string first_target(const plan::CoolingLimit& limit) {
    const plan::CoolingLimit::Stage& first = limit.stages.front();
    const std::string start = limit.starts_at.empty() ? to_text(limit.from.first) : limit.starts_at;
    return to_text(first.to.first) + " within " + to_text(first.within) + " of " + start;
}

}  // namespace peelbook::judge
