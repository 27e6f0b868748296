#pragma once
// The proof that staged cooling and souring share: a value that falls, targets to reach in time.
#include <optional>
#include <string_view>
#include <vector>

#include "calc/cooling.h"
#include "judge/judge.h"

namespace peelbook::judge {

inline constexpr std::string_view souring_assumption = "pH assumed to fall strictly between readings.";
inline constexpr std::int64_t highest_ph_milli = 14'000;

// A souring as a falling limit: its event starts the clock, whatever the pH.
plan::CoolingLimit falling_limit(const plan::SouringLimit& souring);

// What the readings of one unit prove. Simple acceptance takes them as read; guarded acceptance (`guarded`) for
// the worst that their instruments allow, where a reading proves nothing whose instrument is not valid (when
// the point needs one) or whose error is not known. `ended`: no reading is to come.
calc::CoolingResult proven(const plan::Point& point, const plan::CoolingLimit& limit, const Facts& facts,
                           const std::vector<const ReadingFact*>& readings, bool guarded, std::optional<Instant> ended);

// The reading whose instrument leaves most open: the first that proves nothing, else the first of the largest
// error. Needs a reading.
const ReadingFact& least_sure(const plan::Point& point, const std::vector<const ReadingFact*>& readings);

// `assumption` ends each detail.
Judged judge_falling(const plan::Point& point, const plan::CoolingLimit& limit, const Facts& facts, std::string_view assumption);

}  // namespace peelbook::judge
