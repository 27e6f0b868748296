#pragma once
// The proof that staged cooling and souring share: a value that falls, targets to reach in time.
#include <string_view>

#include "judge/judge.h"

namespace peelbook::judge {

inline constexpr std::string_view souring_assumption = "pH assumed to fall strictly between readings.";
inline constexpr std::int64_t highest_ph_milli = 14'000;

// `assumption` ends each detail.
Judged judge_falling(const plan::Point& point, const plan::CoolingLimit& limit, const Facts& facts,
                     std::string_view assumption);

}  // namespace peelbook::judge
