// Time between two events of a batch. Durations are differences of instants, so a clock change does not touch
// them.
//
// Both recorded: within or deviation. One of them past and not recorded: missing when it is a step, whose end
// was owed; unproven when it is one of the batch's own events (finish, pack, ship), which no person owes as a
// check. Open until then.
#include "judge/by_unit.h"
#include "judge/limits.h"
#include "plan/words.h"

namespace peelbook::judge {
namespace {

bool is_own_event(std::string_view name) { return name == "start" || name == "finish" || name == "pack" || name == "ship"; }

std::string limit_text(const plan::TimeLimit& limit) {
    if (limit.least && limit.most) return "from " + to_text(*limit.least) + " to " + to_text(*limit.most);
    if (limit.least) return "at least " + to_text(*limit.least);
    if (limit.most) return "at most " + to_text(*limit.most);
    return "any time";
}

std::vector<std::int64_t> evidence_of(const plan::TimeLimit& limit, const Facts& facts) {
    std::vector<const StepFact*> steps;
    for (const StepFact& done : facts.steps_done)
        if (done.step == limit.from || done.step == limit.until) steps.push_back(&done);
    return seqs_of(steps);
}

Finding both_recorded(const plan::TimeLimit& limit, Instant from, Instant until) {
    Finding finding;
    finding.happened = until;
    const Duration took = until - from;
    finding.measured = to_text(took);
    if (took >= Duration{}) finding.figure = took.ms;
    std::string text = "From " + plan::event_words(limit.from) + " to " + plan::event_words(limit.until) + ": " + finding.measured +
                       ", limit " + limit_text(limit);
    if (took < Duration{}) {
        finding.verdict = Verdict::unproven;
        text += "; the records contradict each other";
    } else if (limit.most && took > *limit.most) {
        finding.verdict = Verdict::deviation;
        text += ": " + to_text(took - *limit.most) + " too long";
    } else if (limit.least && took < *limit.least) {
        finding.verdict = Verdict::deviation;
        text += ": " + to_text(*limit.least - took) + " too short";
    }
    append_sentence(finding.detail, text);
    return finding;
}

Finding not_recorded(const plan::TimeLimit& limit, std::string_view event, Instant over) {
    Finding finding;
    finding.verdict = is_own_event(event) ? Verdict::unproven : Verdict::missing;
    finding.happened = over;
    finding.measured = "not recorded";
    append_sentence(finding.detail, plan::event_words(event) + " is over and was not recorded; limit " + limit_text(limit) + " from " +
                                        plan::event_words(limit.from) + " to " + plan::event_words(limit.until));
    finding.detail.front() = 'T';  // every event text begins with "the"
    return finding;
}

}  // namespace

Judged judge_time(const plan::Point& point, const plan::TimeLimit& limit, const Facts& facts) {
    Judged judged;
    const auto from = facts.event(limit.from);
    const auto until = facts.event(limit.until);
    const auto over = facts.event_over(limit.until);
    if (point.optional && !(from && until)) {
        judged.owed = false;
        return judged;
    }
    if (!over) {
        judged.standing = Standing::open;
        judged.next = plan::event_words(limit.until) + ", " + limit_text(limit) + " after " + plan::event_words(limit.from);
        return judged;
    }
    Finding finding = from && until ? both_recorded(limit, *from, *until) : not_recorded(limit, from ? limit.until : limit.from, *over);
    finding.point = point.id;
    finding.evidence = evidence_of(limit, facts);
    judged.standing = Standing::judged;
    judged.findings.push_back(std::move(finding));
    return judged;
}

}  // namespace peelbook::judge
