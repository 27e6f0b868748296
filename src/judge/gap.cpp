// The gap between two checks of an interval point. Inclusive: a check exactly `every` after the one before is
// in time.
#include <algorithm>

#include "judge/by_unit.h"

namespace peelbook::judge {

std::optional<Finding> judge_gap(const plan::Point& point, Instant before, Instant after, Duration owed_between) {
    if (!point.interval || owed_between <= point.interval->every) return std::nullopt;
    const Duration too_long = owed_between - point.interval->every;
    Finding finding;
    finding.point = point.id;
    finding.verdict = Verdict::missing;
    // The moment it became missing, when the owed hours run on up to `after`; if they pause, the latest it
    // can have been.
    finding.happened = std::max(before + point.interval->every, after - too_long);
    finding.measured = to_text(owed_between) + " without a check";
    append_sentence(finding.detail, "A check of " + name_of(point) + " is owed every " + to_text(point.interval->every) + "; this gap is " +
                                        to_text(too_long) + " longer");
    return finding;
}

}  // namespace peelbook::judge
