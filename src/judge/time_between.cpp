// Time between two events of a batch. Durations are differences of instants, so a clock change does not touch
// them.
//
// Both recorded: within or deviation. One of them past and not recorded: missing when it is a step, whose end
// was owed; unproven when it is one of the batch's own events (finish, pack, ship), which no person owes as a
// check. Open until then.
#include "judge/by_unit.h"
#include "judge/limits.h"

namespace peelbook::judge {
namespace {

bool is_own_event(std::string_view name) {
    return name == "start" || name == "finish" || name == "pack" || name == "ship";
}

std::string event_text(std::string_view name) {
    if (name == "start") return "the start";
    if (name == "finish") return "the finish";
    if (name == "pack") return "the first packing";
    if (name == "ship") return "the last leaving";
    return "the end of " + std::string(name);
}

// When an event that is not recorded must have been over.
std::optional<Instant> over_at(const Facts& facts, std::string_view event) {
    if (event == "start") return facts.started;
    if (event == "finish") return facts.passed_at(facts.finish_step);
    return facts.passed_at(event);
}

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
    std::string text = "From " + event_text(limit.from) + " to " + event_text(limit.until) + ": " +
                       finding.measured + ", limit " + limit_text(limit);
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
    append_sentence(finding.detail, event_text(event) + " is over and was not recorded; limit " +
                                        limit_text(limit) + " from " + event_text(limit.from) + " to " +
                                        event_text(limit.until));
    finding.detail.front() = 'T';  // every event text begins with "the"
    return finding;
}

}  // namespace

Judged judge_time(const plan::Point& point, const plan::TimeLimit& limit, const Facts& facts) {
    Judged judged;
    const auto from = facts.event(limit.from);
    const auto until = facts.event(limit.until);
    const auto over = until ? until : over_at(facts, limit.until);
    if (point.optional && !(from && until)) {
        judged.owed = false;
        return judged;
    }
    if (!over) {
        judged.standing = Standing::open;
        judged.next = event_text(limit.until) + ", " + limit_text(limit) + " after " + event_text(limit.from);
        return judged;
    }
    Finding finding = from && until ? both_recorded(limit, *from, *until)
                                    : not_recorded(limit, from ? limit.until : limit.from, *over);
    finding.point = point.id;
    finding.evidence = evidence_of(limit, facts);
    judged.standing = Standing::judged;
    judged.findings.push_back(std::move(finding));
    return judged;
}

}  // namespace peelbook::judge
