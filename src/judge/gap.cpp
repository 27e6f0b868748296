// The gap between two checks of an interval point. Inclusive: a check at the moment it is due is in time.
#include "judge/by_unit.h"

namespace peelbook::judge {

Finding judge_gap(const plan::Point& point, Instant due, Duration owed, Duration late) {
    Finding finding;
    finding.point = point.id;
    finding.verdict = Verdict::missing;
    finding.happened = due;
    finding.measured = to_text(owed) + " without a check";
    append_sentence(finding.detail, "A check of " + name_of(point) + " is owed every " + to_text(point.interval->every) + "; this gap is " +
                                        to_text(late) + " longer");
    return finding;
}

Finding judge_closed_hours(const plan::Point& point, Instant by, Duration closed, const std::string& wanted) {
    Finding finding;
    finding.point = point.id;
    finding.verdict = Verdict::missing;
    finding.happened = by;
    finding.measured = to_text(closed) + " closed, not shown";
    append_sentence(finding.detail, "After closed hours " + name_of(point) + " wants " + wanted);
    return finding;
}

}  // namespace peelbook::judge
