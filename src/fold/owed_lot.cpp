#include "fold/owed_lot.h"

#include <algorithm>

#include "fold/lot_racks.h"
#include "judge/cooling_ahead.h"
#include "judge/ends.h"

namespace peelbook::fold {
namespace {

struct Deadline {
    Instant opens, due;
    std::string what;
};

bool deviates(const judge::Judged& judged) {
    return std::any_of(judged.findings.begin(), judged.findings.end(),
                       [](const auto& f) { return f.verdict == judge::Verdict::deviation; });
}

std::optional<Deadline> deadline_by(const plan::Point& point, const judge::Facts& facts) {
    if (const auto stage = judge::next_stage(point, facts))
        return Deadline{stage->opens, stage->due, point.name + ": " + plan::to_text(stage->to)};
    const auto* time = std::get_if<plan::TimeLimit>(&point.limit);
    if (!time || !time->most || facts.event(time->until)) return {};
    const auto from = facts.event(time->from);
    if (!from) return {};
    return Deadline{*from, *from + *time->most, point.name + ": " + point.limit_text};
}

// By whichever end of a step comes first, where one was ended twice.
std::optional<Deadline> deadline(const plan::Point& point, const judge::Facts& facts) {
    std::optional<Deadline> first;
    judge::over_choices_of_ends(point, facts, [&](const judge::Facts& choice) {
        const auto one = deadline_by(point, choice);
        if (one && (!first || one->due < first->due)) first = one;
    });
    return first;
}

}  // namespace

void owe_next(Derivation& d, const LotFacts& lot) {
    std::vector<book::Owed> rows;
    if (lot.row.kind == LotKind::batch || lot.row.kind == LotKind::rack) {
        const auto governing = d.ledger.plan_version(lot.row.plan_seq);
        for (const auto* point : governing.plan->points_of_product(lot.row.item)) {
            if (!judged_here(lot, *point) || lot.facts.passed(point->step)) continue;
            const auto next = deadline(*point, lot.facts);
            if (!next) continue;
            const auto judged = judge::judge_point(*point, lot.facts);
            if (judged.standing == judge::Standing::judged && (!judged.part_open || deviates(judged))) continue;
            rows.push_back({book::SubjectKind::lot, lot.row.code, point->id, 0, next->opens.ms, next->due.ms, next->what});
        }
    }
    d.ledger.rows().set_owed(book::SubjectKind::lot, lot.row.code, rows);
}

}  // namespace peelbook::fold
