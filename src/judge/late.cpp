#include "judge/late.h"

#include "base/text.h"
#include "plan/words.h"

namespace peelbook::judge {

std::optional<Duration> late_by(const plan::Point& point, const Facts& facts, Instant at, std::optional<Instant> written) {
    if (point.grade != Grade::critical || !written || *written - at <= facts.late_after) return std::nullopt;
    const auto passed = facts.passed_at(point.step);
    if (!passed || *written - *passed <= std::max(facts.late_after, point.read_on)) return std::nullopt;
    return *written - at;
}

std::string from_memory_text(Duration late) {
    const Duration minute = minutes(1);
    return "Typed " + plan::period_text(Duration{late.ms - late.ms % minute.ms}) + " after, without a slip";
}

std::string from_slips_text(const std::vector<std::string>& slips) {
    if (slips.empty()) return "";
    return (slips.size() == 1 ? "From slip " : "From slips ") + joined(slips, ", ");
}

}  // namespace peelbook::judge
