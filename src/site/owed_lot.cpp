#include <algorithm>

#include "site/lot_facts.h"

namespace peelbook::site {
namespace {

struct Deadline {
    Instant opens, due;
    std::string what;
};

// When the cooling clock last started, as a baker reads it: the end of the hot step, or the last reading above the start.
// The judge bounds the true moment; a deadline needs one moment, and this is the latest.
Instant last_hot(const plan::Point& point, const plan::CoolingLimit& limit, const judge::Facts& facts) {
    Instant hot{0};
    if (const auto end = facts.end_of(limit.hot_at); end && !limit.hot_at.empty()) hot = *end;
    for (const auto& r : facts.readings) {
        if (r.point == point.id && !r.voided && r.value.value > limit.from.first.value) hot = std::max(hot, r.at);
    }
    return hot;
}

std::optional<Deadline> next_stage(const plan::Point& point, const plan::CoolingLimit& limit, const judge::Facts& facts) {
    const Instant hot = last_hot(point, limit, facts);
    if (hot.ms == 0) return {};
    std::int64_t coldest = limit.from.first.value;
    for (const auto& r : facts.readings) {
        if (r.point == point.id && !r.voided && r.at >= hot) coldest = std::min(coldest, r.value.value);
    }
    for (const auto& stage : limit.stages) {
        if (coldest > stage.to.first.value) return Deadline{hot, hot + stage.within, point.name + ": " + plan::to_text(stage.to)};
    }
    return {};
}

bool deviates(const judge::Judged& judged) {
    return std::any_of(judged.findings.begin(), judged.findings.end(),
                       [](const auto& f) { return f.verdict == judge::Verdict::deviation; });
}

std::optional<Deadline> deadline(const plan::Point& point, const judge::Facts& facts) {
    if (const auto* cooling = std::get_if<plan::CoolingLimit>(&point.limit)) return next_stage(point, *cooling, facts);
    const auto* time = std::get_if<plan::TimeLimit>(&point.limit);
    if (!time || !time->most || facts.event(time->until)) return {};
    const auto from = facts.event(time->from);
    if (!from) return {};
    return Deadline{*from, *from + *time->most, point.name + ": " + point.limit_text};
}

}  // namespace

void owe_next(Derivation& d, const LotFacts& lot) {
    std::vector<book::Owed> rows;
    if (lot.row.kind == "batch" || lot.row.kind == "rack") {
        const auto governing = d.ledger.plan_version(lot.row.plan_seq);
        for (const auto* point : governing.plan->points_of_product(lot.row.item)) {
            if (!judged_here(lot, *point) || lot.facts.passed(point->step)) continue;
            const auto judged = judge::judge_point(*point, lot.facts);
            if (judged.standing == judge::Standing::judged && (!judged.part_open || deviates(judged))) continue;
            if (const auto next = deadline(*point, lot.facts)) {
                rows.push_back({book::SubjectKind::lot, lot.row.code, point->id, 0, next->opens.ms, next->due.ms, next->what});
            }
        }
    }
    d.ledger.rows().set_owed(book::SubjectKind::lot, lot.row.code, rows);
}

}  // namespace peelbook::site
