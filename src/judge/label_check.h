#pragma once
// What was read from a label on a line, against what was packed there; and labels counted. Pure.
//   start   the last reading on the line before the packing, of the same run: label, printed code and date as read are the pack's;
//           none, or the run had ended: missing
//   end     the first reading after it that ends the run, when the plan asks for one; another run's start before it: missing;
//           none yet: not owed yet
//   reel    the next reading, on a new reel of the same run, shows another label: a deviation, since nobody knows from when on that reel
//           ran; the same label says nothing
// A code or a date that was not read is not compared.
#include <cstdint>
#include <string>
#include <vector>

#include "base/label_moment.h"
#include "judge/judge.h"

namespace peelbook::judge {

struct LabelReading {
    std::int64_t seq = 0;
    Instant at;
    LabelMoment moment = LabelMoment::start;
    std::string label, printed_code, date;
};

struct PackFact {
    Instant at;
    std::string label, printed_code, date;
};

inline constexpr std::int64_t label_start_ord = 0, label_end_ord = 1, label_reel_ord = 2;

// `readings` of the line in order of time, voided ones left out.
std::vector<Finding> judge_label_readings(const plan::Point& point, const plan::LabelLimit& limit, const PackFact& pack,
                                          const std::vector<LabelReading>& readings);

struct LabelCount {
    Instant at;
    std::int64_t issued = 0, applied = 0, spoiled = 0, returned = 0;
};
// Deviation when issued - applied - spoiled - returned is more than may be lost, or less than nothing.
Finding judge_label_count(const plan::Point& point, const plan::LabelLimit& limit, const LabelCount& count);

}  // namespace peelbook::judge
