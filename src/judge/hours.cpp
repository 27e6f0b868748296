#include "judge/hours.h"

#include <algorithm>

namespace peelbook::judge {

std::optional<Facts> in_the_second_hour(const plan::Point& point, const Facts& facts) {
    const auto unclear = [&](const ReadingFact& r) { return r.or_at && r.point == point.id; };
    if (std::none_of(facts.readings.begin(), facts.readings.end(), unclear)) return std::nullopt;
    Facts later = facts;
    for (ReadingFact& r : later.readings)
        if (unclear(r)) r.at = *r.or_at;
    std::stable_sort(later.readings.begin(), later.readings.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    return later;
}

}  // namespace peelbook::judge
