#pragma once
// Entries that wait for a countersign (rule 59). An amendment of a measurement or of a time, and the void of a measurement, are no
// facts before another person has said so; nor may they be passed over where they make things worse. So a point is judged in each
// world that may be the true one: without any of them, with each alone, with all. The worst counts, so that the next honest reading
// launders nothing, and a finding names the entries with which it would be milder.
#include <cstdint>
#include <vector>

#include "judge/facts.h"

namespace peelbook::judge {

// The entries that the facts say wait, in order, each once.
std::vector<std::int64_t> waiting_in(const Facts& facts);
// The facts where of all that wait only `in_effect` counts.
Facts world_of(const Facts& facts, const std::vector<std::int64_t>& in_effect);

}  // namespace peelbook::judge
