#pragma once
// Records of a batch that were typed late, after their point had fallen missing (rule 47). From a slip, a paper original made at the
// time, they count as if typed then, and the finding says so. From memory they prove nothing: they may only make things worse.
#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "judge/judge.h"

namespace peelbook::judge {

// What became of one unit: a finding, or none while it is open; `next` says what is wanted.
struct Outcome {
    std::optional<Finding> finding;
    std::string next;
    bool part_open = false;
};

void append_sentence(std::string& text, std::string_view sentence);  // with a full stop and one blank between

// How long after it happened a critical record was written, when that is more than the site's `late_after`, and also longer than
// `late_after` and the point's `read_on` after its step had passed. Absent: in time.
std::optional<Duration> late_by(const plan::Point& point, const Facts& facts, Instant at, std::optional<Instant> written);

std::string from_memory_text(Duration late);                         // "Typed 50 min after, without a slip"
std::string from_slips_text(const std::vector<std::string>& slips);  // "From slip 17", "From slips 17, 18"; empty without

// Judged with all records, then, where some are from memory, without these: what they would make better, they do not, but that
// what would be missing or open is unproven.
template <class Fact, class JudgeUnit>
Outcome judge_late(const plan::Point& point, const Facts& facts, const std::vector<const Fact*>& records, JudgeUnit judge_unit) {
    std::vector<const Fact*> sure;
    std::vector<std::string> slips;
    std::vector<std::int64_t> from_memory;
    Duration latest{};
    for (const Fact* record : records) {
        const auto late = late_by(point, facts, record->at, record->written);
        if (late && record->slip.empty()) {
            latest = std::max(latest, *late);
            from_memory.push_back(record->seq);
        } else {
            sure.push_back(record);
            if (late && std::find(slips.begin(), slips.end(), record->slip) == slips.end()) slips.push_back(record->slip);
        }
    }
    Outcome outcome = judge_unit(records);
    if (outcome.finding && sure.size() < records.size() && outcome.finding->verdict <= Verdict::unproven) {
        Outcome without = judge_unit(sure);
        const bool shown = without.finding && without.finding->verdict != Verdict::missing;
        if (shown && without.finding->verdict > outcome.finding->verdict) outcome = std::move(without);
        if (!shown) outcome.finding->verdict = Verdict::unproven;
        if (outcome.finding->verdict > Verdict::within) {
            append_sentence(outcome.finding->detail, from_memory_text(latest));
            outcome.finding->waits = from_memory;
        }
    }
    if (outcome.finding) append_sentence(outcome.finding->detail, from_slips_text(slips));
    return outcome;
}

}  // namespace peelbook::judge
