#pragma once
// Readings that cannot be (rule 56): 871 C where a loaf was 87.1. The plan says what a reading of a point can be at all.
//
//   typed by a person   what meets the limit is at best unproven until a second reading of the same unit, by another entry, agrees
//                       with it; one that is beyond itself must be another person's. What breaks a range counts as read.
//   a logger's row      proves nothing, neither way: a torn cable says -200 C, and a room never gets there without being read on the way
//
// A slip's true value is not known, so what stands beside it cannot make up for it.
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "judge/judge.h"
#include "judge/late.h"

namespace peelbook::judge {

using ReadingList = std::vector<const ReadingFact*>;

bool is_possible(const plan::Point& point, const Measure& value);  // within the point's bounds; without them everything is
// Of one unit, by two entries, and no further apart than both instruments' tolerances; temperatures no further than 3 C if that is
// more, which is what hand probes scatter (common practice).
bool agree(const ReadingFact& one, const ReadingFact& other);
// Outside the bounds, not told by a second reading of `all`, and no breach of a range that counts as read.
bool is_doubtful(const plan::Point& point, const ReadingFact& reading, const ReadingList& all);
std::string doubt_text(const plan::Point& point, const ReadingFact& doubtful);  // "871C is beyond what it can be, ..."

// The records without logger's rows that cannot be, and without anything doubtful.
struct Believed {
    ReadingList counted, sure;
    const ReadingFact* doubtful = nullptr;  // the first of those left out of `sure`
};
std::optional<Believed> believed(const plan::Point& point, const ReadingList& records);  // none when nothing is doubtful

// Judged with the doubtful and without: the worse of both, at best unproven.
template <class Fact, class JudgeUnit>
Outcome judge_believed(const plan::Point& point, const std::vector<const Fact*>& records, JudgeUnit judge_unit) {
    if constexpr (std::is_same_v<Fact, ReadingFact>) {
        if (const auto split = believed(point, records)) {
            Outcome outcome = judge_unit(split->counted);
            if (!outcome.finding) return outcome;
            Outcome without = judge_unit(split->sure);
            if (without.finding && without.finding->verdict != Verdict::missing && without.finding->verdict > outcome.finding->verdict)
                outcome = std::move(without);
            outcome.finding->verdict = worse(outcome.finding->verdict, Verdict::unproven);
            append_sentence(outcome.finding->detail, doubt_text(point, *split->doubtful));
            return outcome;
        }
    }
    return judge_unit(records);
}

}  // namespace peelbook::judge
