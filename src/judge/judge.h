#pragma once
// Pure judgement: plan + facts -> findings. No clock, no book: the same facts give the same findings for ever. What depends on
// now (a check that is due) is not a finding.
//
// Rules (limits are inclusive; numbers are compared as integers in the unit that was typed, or canonically):
//   - every reading of a point counts and the worst decides; an unprobed unit of the point is missing;
//   - a bad reading is an in-process correction, not a deviation, only when a later reading of the same unit taken before the
//     step's recorded end is within (a recorded further bake): the finding is then within and says so. Only a value below the
//     least, or a pH or water activity above the most, can be corrected so: food that was too warm stays so. Until the step takes
//     no more readings such a value is unsettled: no finding, and the point is open (range.cpp);
//   - a critical record typed after its point had fallen missing, and without a slip, can be no better than unproven (late.h);
//   - a failed inspection stays failed: a later yes never erases it;
//   - a critical reading without a valid instrument (when the point needs one) can be no better than unproven;
//   - guarded acceptance (a point may ask for it): a value that meets the limit as read, but not with the instrument's error
//     against it, is unproven; so is one without an instrument whose error is known. A value that breaks the limit as read stays
//     a deviation: guarded acceptance is stricter than simple acceptance, never milder;
//   - what is read outside the window of its point proves nothing (window.h);
//   - lethality is judged by the lower end of each interval (calc/lethality.h): within when that reaches the log wanted, deviation
//     when not even the higher end does and the step is over, else unproven. D and z of another kind of food: unproven;
//   - gluten and sulphites are judged by the label that a pack is under, a batch by all labels of its product: the strictest of their
//     markets decides, and nothing corrects a content that was too high (plan/boundaries.h);
//   - staged cooling is three-valued between readings (calc/cooling.h), and its detail states the assumption. With guarded
//     acceptance a stage is within only when each reading at the worst that its instrument allows shows it; one that is so only
//     as read is open while a further reading can show it, then unproven. Readings that contradict each other are open while it
//     cools, then unproven. Souring likewise;
//   - a point whose readings are all voided is not judged; one whose step has not passed is open: neither makes a finding,
//     and neither is within.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "judge/facts.h"
#include "judge/verdict.h"
#include "plan/plan.h"

namespace peelbook::judge {

struct Finding {
    std::string point;
    std::int64_t ord = 0;  // the unit's place in the point's list from 0; 0 without units
    std::string unit;
    Verdict verdict = Verdict::within;
    Instant happened;                    // the deciding reading, or the moment it became missing
    std::string measured;                // "92.1C", "2:12 to 21C" "1:20-2:10 to 21C", "no", "no reading"
    std::string detail;                  // the arithmetic and what bounds it, one or two sentences; durations, never clock times
    std::vector<std::int64_t> evidence;  // seqs of the readings behind it
    std::vector<std::int64_t> waits{};   // entries that wait for a countersign, and with which it would be milder
    // The number behind `measured` where no reading is it (plan::figure_dimension), canonical: milliseconds between two events,
    // thousandths of a percent lost. Absent: not measured, or the records contradict each other.
    std::optional<std::int64_t> figure{};
    std::string corrected{};  // values that further work corrected, as typed: "88.5C, 91C"
};

enum class Standing { judged, open, not_judged };

struct Judged {
    Standing standing = Standing::not_judged;
    std::vector<Finding> findings;  // at most one a unit; empty unless judged
    std::string next;               // for a baker: "21C within 1:20 of the last reading", a warning, or empty
    bool part_open = false;         // judged so far, but a unit or a stage is still open: not yet within
    bool owed = true;               // false: optional and not read; worst() passes over it
};

// One point of a batch or received lot: the worst of the worlds of its facts (worlds.h).
Judged judge_point(const plan::Point& point, const Facts& facts);

// A reading or inspection on a place: its own limit. `near`: others of the same point, soon before and after, that may agree with one
// that is beyond what can be (possible.h).
Finding judge_place_reading(const plan::Point& point, const ReadingFact& reading, const std::vector<ReadingFact>& near = {});
inline constexpr Duration near_at_place = minutes(15);  // common practice: who doubts a reading takes it again at once
// The same of many readings of one logger, a production day of them: each is judged as by judge_place_reading and the worst
// decides (of equal verdicts the one nearest to its limit). `outside` counts those that miss the limit; `longest` is the
// longest stretch of them, from its first to the first within again (to the last when none follows). A row that cannot be proves
// nothing, and leaves the day unproven at best. Rows in order of time.
class PlaceRows {
  public:
    // `like` has what all rows share: seq, unit, the instrument's errors. The point must outlive it.
    PlaceRows(const plan::Point& point, ReadingFact like);
    void add(Instant at, const Measure& value, InstrumentState instrument);
    Finding finding() const;  // of at least one row
    std::int64_t rows() const { return rows_; }
    std::int64_t outside() const { return outside_; }
    Duration longest() const { return longest_; }

  private:
    const plan::Point& point_;
    ReadingFact row_, worst_, impossible_;  // the worst that counts; the first that cannot be
    std::int64_t rows_ = 0, impossible_rows_ = 0, outside_ = 0;
    std::optional<Instant> outside_since_;
    Duration longest_{};
};
Finding judge_place_inspection(const plan::Point& point, const InspectionFact& inspection);

// A gap between two consecutive checks of an interval point that is longer than the interval allows: `missing` since it was due.
// `owed`: how much owed time lies in it, `late`: how much of that after it was due (owed_time.h).
Finding judge_gap(const plan::Point& point, Instant due, Duration owed, Duration late);
// Hours in which nobody was there, and which the records do not show as the plan asks: `missing` since they could be shown no more.
Finding judge_closed_hours(const plan::Point& point, Instant by, Duration closed, const std::string& wanted);

// One formula item at `finish`: used against wanted, in mg; the tolerance is thousandths of a percent of wanted. Missing when
// less than wanted - tolerance; deviation when more than wanted + tolerance: too much was weighed, never a critical limit.
// None when within (inclusive) or the item is optional. The finding's unit is the item; its ord is left at 0 for the caller.
struct ItemUse {
    std::string item, name;
    std::int64_t wanted_mg = 0, used_mg = 0;
    bool optional = false;
};
std::optional<Finding> judge_item(const ItemUse& use, std::int64_t tolerance_milli_percent, Instant finished);
// The pieces that came out of a batch, spoiled ones too, against those that its dough makes; the tolerance as of an item. Further off
// either way: a deviation, never of a critical limit. None within it (inclusive), or where nothing is expected.
std::optional<Finding> judge_yield(std::int64_t good, std::int64_t spoiled, std::int64_t expected, std::int64_t tolerance_milli_percent,
                                   Instant finished);
std::string yield_limit_text(std::int64_t expected, std::int64_t tolerance_milli_percent);  // "120 pieces, give or take 10%"
inline constexpr std::string_view yield_point = "yield";
inline constexpr std::string_view missing_use_point = "missing-use";  // findings that no plan point names
inline constexpr std::string_view label_point = "label";
inline constexpr std::string_view declaration_point = "declaration";
inline constexpr std::string_view changeover_point = "changeover";
inline constexpr std::string_view negative_stock_point = "negative-stock";
inline constexpr std::string_view already_done_point = "already-done";
inline constexpr std::string_view outage_point = "outage";
inline constexpr std::string_view printed_date_point = "printed-date";

// Worst over findings and standings. Within only when every owed point is judged to its end and within; none when nothing
// is worse but a point is open or not judged, or when there is no point at all.
std::optional<Verdict> worst(const std::vector<Judged>& all);

// Instrument state at a moment from its plan and calibrations.
struct CalibrationFact {
    Instant at;
    bool passed = false;
};
// What a calibration shows, for its figures decide (rule 57): true only when read and reference are no further apart than the
// tolerance; false when they are, or when somebody says that it failed; nothing when it is said to have passed and figures or
// tolerance are lacking.
std::optional<bool> calibration_shows(bool said_passed, const std::optional<Measure>& read, const std::optional<Measure>& reference,
                                      const std::optional<Measure>& tolerance);
struct ServiceFact {
    Instant at;
    bool in_service = true;
};
struct StateSpan {
    Instant from;
    std::optional<Instant> until;
    InstrumentState state = InstrumentState::valid;
};
// Spans from the first fact on. A failed calibration turns everything since the last good one to failed; without a good one
// within `calibrate_every` the instrument is lapsed, without any uncalibrated. One without calibrate_every is valid while in service.
// In service until an entry says otherwise, and from a good check on; when the first service entry puts it in service, it was out
// before that. Of several states at once the one told is failed, then out of service, then lapsed. Facts in any order.
std::vector<StateSpan> instrument_spans(std::optional<Duration> calibrate_every, const std::vector<ServiceFact>& service,
                                        const std::vector<CalibrationFact>& calibrations);
// The same at one moment, before the first fact too.
InstrumentState instrument_state(std::optional<Duration> calibrate_every, const std::vector<ServiceFact>& service,
                                 const std::vector<CalibrationFact>& calibrations, Instant at);

}  // namespace peelbook::judge
