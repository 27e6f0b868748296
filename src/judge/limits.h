#pragma once
// One function a limit kind, each in a file of its own; judge.cpp picks. All judge one point of one batch or
// received lot by the rules of judge.h.
#include "judge/judge.h"

namespace peelbook::judge {

inline constexpr double celsius_in_milli = 1e-3, ms_a_minute = 60'000;  // from stored integers to what the formulas take

// In one world (worlds.h), where a step was ended twice, the worse of what the point comes to by either end (ends.h).
Judged judge_one(const plan::Point& point, const Facts& facts);

Judged judge_range(const plan::Point& point, const plan::RangeLimit& limit, const Facts& facts);
Judged judge_time(const plan::Point& point, const plan::TimeLimit& limit, const Facts& facts);
Judged judge_staged_cooling(const plan::Point& point, const plan::CoolingLimit& limit, const Facts& facts);
Judged judge_before_packing(const plan::Point& point, const plan::BeforePackingLimit& limit, const Facts& facts);
Judged judge_lethality(const plan::Point& point, const plan::LethalityLimit& limit, const Facts& facts);
Judged judge_class(const plan::Point& point, const plan::ClassLimit& limit, const Facts& facts);
Judged judge_loss(const plan::Point& point, const plan::LossLimit& limit, const Facts& facts);
Judged judge_souring(const plan::Point& point, const plan::SouringLimit& limit, const Facts& facts);
Judged judge_market(const plan::Point& point, const plan::MarketLimit& limit, const Facts& facts);
Judged judge_yes_no(const plan::Point& point, const Facts& facts);

}  // namespace peelbook::judge
