#include "site/ask/owed_now.h"

#include <algorithm>

#include "base/text.h"
#include "base/words.h"
#include "fold/owed/device.h"
#include "fold/standing.h"

namespace peelbook::site {
namespace {

DueItem due_item(const fold::Duty& duty, Instant now) {
    DueItem item;
    item.owed = {book::SubjectKind::place, duty.place, duty.point, 0, duty.since.ms, duty.due.ms, duty.what};
    if (duty.never) item.owed.what += "; never read";
    if (!duty.closed.empty()) item.owed.what += "; after closed hours: " + duty.closed;
    item.name = duty.name;
    item.grade = duty.grade;
    item.overdue = duty.overdue(now);
    item.never = duty.never;
    return item;
}

DueItem due_item(const fold::OverdueInstrument& one, Instant in_force_since) {
    const book::Int due = one.due.value_or(in_force_since).ms;
    DueItem item;
    item.owed = {book::SubjectKind::instrument,
                 one.instrument,
                 "calibration",
                 0,
                 due,
                 due,
                 one.name + (one.due ? ": calibration is overdue" : ": never calibrated")};
    item.name = one.name;
    item.grade = Grade::operating;
    item.overdue = true;
    item.never = !one.due;
    return item;
}

DueItem due_item(fold::Ledger& ledger, book::Owed owed, Instant now) {
    DueItem item;
    if (const auto lot = ledger.rows().lot(owed.subject)) {
        const auto governing = ledger.plan_version(lot->plan_seq);
        if (const auto* point = governing.plan->point(owed.point)) item.grade = point->grade;
    }
    item.name = owed.what;
    item.overdue = owed.due < now.ms;
    item.owed = std::move(owed);
    return item;
}

}  // namespace

std::vector<DueItem> owed_now(fold::Ledger& ledger, Instant now, Instant until) {
    std::vector<DueItem> out;
    for (const auto& duty : fold::duties_at(ledger, now)) {
        if (duty.due <= until) out.push_back(due_item(duty, now));
    }
    const auto version = ledger.rows().plan_in_force(now.ms);
    for (const auto& one : fold::overdue_instruments(ledger, now)) out.push_back(due_item(one, {version->from_ms}));
    for (auto& owed : ledger.rows().owed_until(until.ms)) {
        if (owed.subject_kind == book::SubjectKind::lot && owed.due <= until.ms) out.push_back(due_item(ledger, std::move(owed), now));
    }
    std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.owed.due < b.owed.due; });
    return out;
}

std::vector<std::string> owed_of_lot(fold::Ledger& ledger, const book::Lot& lot, Instant now) {
    std::vector<std::string> lines;
    const auto deadlines = ledger.rows().owed_by(book::SubjectKind::lot, lot.code);
    for (const auto& owed : deadlines) {
        lines.push_back(owed.what + " by " + to_text(ledger.zone(), {owed.due}) + (owed.due < now.ms ? ", OVERDUE" : ""));
    }
    for (const auto& row : ledger.rows().unsettled(lot.id)) {
        const bool own = row.source == lot.id;
        const bool told = own && (row.verdict || std::any_of(deadlines.begin(), deadlines.end(),
                                                             [&](const auto& owed) { return owed.point == row.point; }));
        const auto source = told ? std::nullopt : ledger.rows().lot(row.source);
        if (!source) continue;  // its own findings are shown whole
        const std::string state = row.decided   ? "signed for " + std::string(word(*row.decided))
                                  : row.verdict ? in_words(static_cast<Verdict>(*row.verdict))
                                                : "no record shows it yet";
        lines.push_back(row.point + (own ? "" : " of " + source->code + ", which is in it") + ": " + state);
    }
    if (lot.kind != LotKind::pack) return lines;
    for (const auto& device : fold::devices_passed(ledger, lot, now)) {
        if (device.state != fold::Passing::good) lines.push_back(device.point + " at " + device.place + ": " + device.why);
    }
    if (fold::labels_read(ledger, lot) == fold::Passing::open) lines.push_back("labels of its line: not read at the end of the run");
    return lines;
}

std::vector<fold::Duty> gaps_of_week(fold::Ledger& ledger, IsoWeek week, Instant now) {
    const auto [begins, ends] = ledger.span_of_week(week);
    if (now < begins) return {};
    const Instant at = std::min(now, ends - Duration{1});
    auto gaps = fold::duties_at(ledger, at);
    std::erase_if(gaps, [&](const auto& duty) { return !duty.overdue(at); });
    if (gaps.empty()) return gaps;
    const auto findings = ledger.rows().findings_of_week(week.year * 100 + week.week);
    std::erase_if(gaps, [&](const auto& gap) {
        return std::any_of(findings.begin(), findings.end(), [&](const auto& f) {
            return f.place == gap.place && f.point == gap.point && f.raised == Verdict::missing && f.happened >= gap.since.ms;
        });
    });
    return gaps;
}

std::string gap_text(fold::Ledger& ledger, const fold::Duty& gap) {
    return gap.point + " of " + gap.place + (gap.never ? ", never read" : ", last read " + to_text(ledger.zone(), gap.since));
}

}  // namespace peelbook::site
