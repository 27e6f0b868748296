#pragma once
// Staged cooling, proven from sparse readings.
//
// Rule: from `from` to each stage's `to` within `within`, limits inclusive. Two rules exist: every stage
// counted from the start (FDA Food Code 2022, 3-501.14(A): 57 C to 21 C in 2 h and to 5 C in a total of 6 h,
// so 1 h + 5 h passes), or each stage from the one before (60 C to 21 C in 2 h, then to 5 C in 4 h more).
//
// Method: between readings the temperature is assumed to fall strictly (print that assumption), so a
// threshold is crossed after the last reading above it and not later than the first reading at or below it; a
// reading equal to a threshold is its crossing. That bounds each stage's duration from both sides, and the
// verdict follows from the bounds alone. Straight-line interpolation is not used: it proves nothing.
//
// The clock starts at the last moment known above `from`. After a rise back over a threshold by more than
// `tolerance` the later crossing is the one judged; a deviation proven before a reheating stays. Once the last
// target is reached and its time is over, only a rise beyond `scatter` moves the crossing; once `ended` is over too, none: then the
// product is kept.
//
// Readings contradict each other when one rises above an earlier one by more than `scatter`, and when the value
// fell faster than `fastest` lets a product of this kind fall: one of them is wrong, and nothing tells which. Such a
// series shows nothing (rule 54); what its last crossings leave too late stays a deviation.
//
// Guarded acceptance (JCGM 106:2012, 8.3.2; from memory) takes each reading for the worst that its instrument
// allows: a clock starts at the last reading that is above for certain, a target is reached at the first that
// is at or below it for certain. It can keep a stage from being within, and never makes or excuses a deviation.
//
// Units: temperatures are integers in the unit the limit was typed in (thousandths of a degree C, millionths
// of a degree F): 70 F meets 70 F exactly. No floating point here.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "base/instant.h"
#include "base/result.h"

namespace peelbook::calc {

struct CoolingReading {
    Instant at;
    std::int64_t value = 0;
    // What the value may be off by, either way, >= 0; absent: not known, so that the reading proves nothing
    // when acceptance is guarded. Simple acceptance does not look at it.
    std::optional<std::int64_t> guard{};
};

struct CoolingStage {
    std::int64_t to = 0;
    Duration within;
    std::optional<Duration> fastest{};  // no product of this kind gets here sooner; counted as `within` is. Absent: not known
};

struct CoolingRule {
    std::int64_t from = 0;
    std::vector<CoolingStage> stages;
    bool each_from_previous = false;  // false: every stage is counted from the start
};

struct CoolingInput {
    std::vector<CoolingReading> readings;  // in order of time; of several at one instant the warmest counts
    // A step's end: a moment known to be above `from` without a reading. Ignored when an earlier reading is
    // already at or below `from`.
    std::optional<Instant> known_hot_at;
    // The clock starts at this event, whatever the temperature: food made from ingredients at ambient
    // temperature (Food Code 3-501.14(B)).
    std::optional<Instant> started;
    std::int64_t tolerance = 0;    // of the instrument, in the unit of the readings
    std::optional<Instant> ended;  // packed or step done: no reading is to come
    std::int64_t scatter = 0;      // what two readings of one product may differ by, being taken in two places by hand
    Duration clocks{};             // what a recorded time may be off by: `known_hot_at` after a reading at or below `from`, `ended`
    // When it began to be heated anew, as recorded: what is hotter from then on contradicts nothing before it.
    std::optional<Instant> heated_again{};
};

// When a threshold was crossed: after `after` and not later than `by`; exactly then when the two are equal.
struct Crossing {
    std::optional<Instant> after;  // absent: never recorded above the threshold
    std::optional<Instant> by;     // absent: not recorded at or below it since
};

enum class StageVerdict { within, unproven, deviation, open };

struct StageResult {
    StageVerdict verdict = StageVerdict::open;
    Duration shortest;                // it took at least this long (so far, when the target is not reached)
    std::optional<Duration> longest;  // it took at most this long; absent: nothing bounds it
    Crossing start;                   // the readings that bound the start of this stage's clock
    Crossing end;                     // ... and its end
    std::optional<Instant> prove_by;  // a reading at or below `to` up to here proves it; absent: none can
    bool before_reheating = false;    // the deviation was proven before a reheating above `from`
    bool by_guard = false;            // the bounds are the worst that the instruments allow, not those as read; only
                                      // `shortest` is as read once the target is reached
};

// Two records of which one must be wrong.
struct Contradiction {
    enum class Kind { rise, fall, hot };  // warmer again; colder too soon; known to be hot after it was read colder
    Kind kind = Kind::rise;
    Instant earlier, later;
};
// The first one, of all readings; absent: none.
std::optional<Contradiction> contradiction_in(const CoolingRule& rule, const CoolingInput& input);

struct CoolingResult {
    std::vector<StageResult> stages;  // one for each stage of the rule
    std::optional<Contradiction> contradiction{};
    StageVerdict worst() const;  // deviation, then unproven, then open, then within; of the stages
    bool shown() const { return worst() == StageVerdict::within && !contradiction; }
};

// Refuses: no stage, a target not below the one before (or `from`), a time not above zero, and, when counted
// from the start, a later stage that must end before an earlier one.
Check check(const CoolingRule& rule);

// Verdict of a stage whose target is reached: within when longest <= limit; deviation when it took longer
// than the limit for certain; else unproven. Not reached: deviation once a reading at the limit or later is
// above the target; open while a reading could still prove the stage and none of `ended` or a missing hot
// record forbids it; else unproven.
// Needs a rule that check() accepts.
CoolingResult judge_cooling(const CoolingRule& rule, const CoolingInput& input);
// The same by guarded acceptance: of each stage the worse of its verdict as read and of its verdict with every
// reading at the worst that its guard allows, where a stage that only then takes too long is unproven. So no
// verdict is milder than judge_cooling's. An open stage's `prove_by` then asks for a reading whose guard too is
// at or below `to`.
CoolingResult judge_cooling_guarded(const CoolingRule& rule, const CoolingInput& input);

}  // namespace peelbook::calc
