// The share of a mass that is gone between two weighings of a batch: bake loss, proof-to-bake loss.
//
// A point weighed several times counts by its mean; all that went in and what `finish` weighed are masses of
// the whole batch. Compared in whole numbers: loss <= limit means (before - after) x 100 % <= limit x before.
// More after than before is a weighing error, and proves nothing.
#include "base/units.h"
#include "judge/by_unit.h"
#include "judge/limits.h"

namespace peelbook::judge {
namespace {

constexpr std::int64_t whole = 100'000;  // 100 % in thousandths of a percent

// A mean kept as sum / count, so that nothing is rounded.
struct Weighed {
    Wide sum_mg = 0;
    std::int64_t count = 0;
    std::optional<Instant> last;
    std::vector<const ReadingFact*> readings;
    std::int64_t mean_mg() const { return static_cast<std::int64_t>(divided(sum_mg, count)); }
};

Weighed weighed(const Facts& facts, const std::string& what) {
    Weighed out;
    const auto& of_batch = what == "inputs" ? facts.input_mg : facts.made_mg;
    if (what == "inputs" || what == "finish") {
        if (of_batch) out.sum_mg = *of_batch, out.count = 1, out.last = facts.finished;
        return out;
    }
    for (const ReadingFact& r : facts.readings) {
        if (r.point != what || r.voided) continue;
        out.sum_mg += r.value.value;
        ++out.count;
        out.last = r.at;
        out.readings.push_back(&r);
    }
    return out;
}

// loss - limit, times what is positive: its sign compares them.
int compared(const Weighed& before, const Weighed& after, const plan::Bound& limit) {
    const Wide b = before.sum_mg * after.count, a = after.sum_mg * before.count;
    const Wide apart = (b - a) * whole - b * limit.first.value;
    return apart < 0 ? -1 : (apart > 0 ? 1 : 0);
}

std::string name_of_weighing(const std::string& what) {
    if (what == "inputs") return "all that went in";
    return what == "finish" ? "the finished batch" : what;
}

std::string mean_text(const std::string& what, const Weighed& w) {
    return name_of_weighing(what) + " " + mass_text(w.mean_mg()) +
           (w.count > 1 ? " (mean of " + std::to_string(w.count) + ")" : std::string());
}

Finding compared_finding(const plan::LossLimit& limit, const Weighed& before, const Weighed& after) {
    Finding finding;
    finding.happened = after.last.value_or(Instant{});
    const Wide b = before.sum_mg * after.count, a = after.sum_mg * before.count;
    std::string text = mean_text(limit.before, before) + ", " + mean_text(limit.after, after);
    if (a > b || b == 0) {
        finding.verdict = Verdict::unproven;
        finding.measured = "weighing error";
        append_sentence(finding.detail, text + ": more after than before is a weighing error");
        return finding;
    }
    const auto lost = static_cast<std::int64_t>(divided((b - a) * whole, b));
    finding.measured = to_text(lost, Unit::percent, 2);
    finding.figure = lost;
    const bool low = limit.least && compared(before, after, *limit.least) < 0;
    const bool high = limit.most && compared(before, after, *limit.most) > 0;
    finding.verdict = low || high ? Verdict::deviation : Verdict::within;
    text += ": " + finding.measured + " lost";
    if (limit.least) text += ", at least " + plan::to_text(*limit.least);
    if (limit.most) text += std::string(limit.least ? " and" : ",") + " at most " + plan::to_text(*limit.most);
    append_sentence(finding.detail, text + (low ? ": too little" : high ? ": too much" : ""));
    return finding;
}

std::optional<Finding> judged(const plan::Point& point, const plan::LossLimit& limit, const Facts& facts) {
    const Weighed before = weighed(facts, limit.before), after = weighed(facts, limit.after);
    Finding finding;
    if (before.count > 0 && after.count > 0) {
        finding = compared_finding(limit, before, after);
        finding.evidence = seqs_of(before.readings);
        for (const std::int64_t seq : seqs_of(after.readings)) finding.evidence.push_back(seq);
    } else {
        const auto passed = facts.passed_at(point.step);
        if (!passed) return std::nullopt;
        const std::string& lacking = before.count == 0 ? limit.before : limit.after;
        finding.verdict = Verdict::missing;
        finding.happened = *passed;
        finding.measured = "not weighed";
        append_sentence(finding.detail, "The step " + point.step + " has passed without a mass of " + name_of_weighing(lacking));
    }
    finding.point = point.id;
    return finding;
}

}  // namespace

Judged judge_loss(const plan::Point& point, const plan::LossLimit& limit, const Facts& facts) {
    Judged out;
    auto finding = judged(point, limit, facts);
    if (point.optional && (!finding || finding->verdict == Verdict::missing)) {
        out.owed = false;
        return out;
    }
    if (!finding) {
        out.standing = Standing::open;
        out.next = name_of(point) + ", " + point.limit_text;
        return out;
    }
    out.standing = Standing::judged;
    out.findings.push_back(std::move(*finding));
    return out;
}

}  // namespace peelbook::judge
