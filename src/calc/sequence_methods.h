#pragma once
// The methods behind calc/sequence.h, each on a question that has been checked.
#include <optional>

#include "calc/sequence.h"

namespace peelbook::calc {

// Minutes of the changeover from job `from` to job `to`; `from` absent: before the first. Absent: not
// allowed.
std::optional<std::int64_t> changeover_minutes(const SequenceQuestion& question, std::optional<std::size_t> from, std::size_t to);

// What lies between an order's product at `i` and the one before it, or the line's start.
Changeover before_position(const SequenceQuestion& question, const std::vector<std::size_t>& order, std::size_t i);

SequenceCheck checked(const SequenceQuestion& question, const std::vector<std::size_t>& order);
inline bool works(const SequenceCheck& check) { return check.late.empty() && check.forbidden.empty(); }

// The order with the least cleaning that works; absent when none does. Up to most_jobs_exact jobs.
std::optional<std::vector<std::size_t>> exact_order(const SequenceQuestion& question);

// A good order by local search: no worse than that of the due times; it may not work. Any number of jobs from
// 1.
std::vector<std::size_t> searched_order(const SequenceQuestion& question);

// Minutes of cleaning that every order needs whatever is due. Absent: the changeovers allow no order at all.
std::optional<std::int64_t> cleaning_bound(const SequenceQuestion& question);

// Why no order works: each reason holds by itself. Empty when none of the simple reasons applies.
std::vector<std::string> reasons_against(const SequenceQuestion& question);

}  // namespace peelbook::calc
