#include "site/record/review.h"

#include "base/text.h"
#include "fold/standing.h"
#include "site/ask/owed_now.h"

namespace peelbook::site {
namespace {

void add_finding(const book::Finding& f, std::string& all) {
    all += std::to_string(f.anchor) + ":" + f.point + ":" + std::to_string(f.ord) + " " +
           std::to_string(static_cast<book::Int>(f.verdict)) + "\n";
}

void add_lot(fold::Ledger& ledger, const book::Lot& lot, std::string& all) {
    for (Seq seq : ledger.rows().touching(book::SubjectKind::lot, std::to_string(lot.id))) {
        const auto fact = ledger.rows().fact(seq);
        all += std::to_string(seq) + " " + std::to_string(fact->amended_by.value_or(0)) + " " +
               std::to_string(fact->voided_by.value_or(0)) + "\n";
    }
    for (const auto& f : ledger.rows().findings(lot.id)) add_finding(f, all);
}

}  // namespace

Result<std::string> review_digest(fold::Ledger& ledger, const std::string& what, Instant now) {
    std::string all = what + "\n";
    if (const auto lot = ledger.rows().lot(what)) {
        add_lot(ledger, *lot, all);
        return record::to_hex(record::sha256(all));
    }
    const auto week = parse_iso_week(what);
    if (!week) {
        return Refusal{"'" + shown(what) + "' to review", "a lot, or a week as 2026-W47", "check the code",
                       nearest(what, ledger.rows().all_codes(2000))};
    }
    // A day of slack on both sides: production days begin after midnight, and the lots say their own week.
    const Instant from{to_days(monday_of(*week)) * 86'400'000 - 86'400'000}, until = from + days(9);
    for (const auto& lot : ledger.rows().lots_started(from.ms, until.ms)) {
        if (lot.week == week->year * 100 + week->week) add_lot(ledger, lot, all);
    }
    for (const auto& f : ledger.rows().findings_of_week(week->year * 100 + week->week)) {
        if (!f.lot) add_finding(f, all);
    }
    for (const auto& gap : gaps_of_week(ledger, *week, now))
        all += gap.place + "#" + gap.point + " " + std::to_string(gap.since.ms) + " " + std::to_string(gap.due.ms) + "\n";
    return record::to_hex(record::sha256(all));
}

std::string owed_and_not_done(fold::Ledger& ledger, const std::string& what, Instant now) {
    if (ledger.rows().lot(what)) return {};
    const auto week = parse_iso_week(what);
    if (!week) return {};
    std::vector<std::string> checks;
    for (const auto& f : ledger.rows().findings_of_week(week->year * 100 + week->week)) {
        if (f.verdict != Verdict::missing || !fold::is_open(f)) continue;
        const auto lot = f.lot ? ledger.rows().lot(*f.lot) : std::nullopt;
        checks.push_back(f.point + " of " + (lot ? lot->code : f.place) + (f.unit.empty() ? "" : " " + f.unit));
    }
    for (const auto& gap : gaps_of_week(ledger, *week, now)) checks.push_back(gap_text(ledger, gap));
    if (checks.empty()) return "no check of " + what + " was owed and not done";
    constexpr std::size_t most_told = 8;
    const std::size_t count = checks.size();
    if (count > most_told) checks.resize(most_told);
    return std::to_string(count) + (count == 1 ? " check of " : " checks of ") + what + (count == 1 ? " was" : " were") +
           " owed and not done: " + joined(checks, "; ") + (count > most_told ? "; the weekly workbook has them all" : "");
}

}  // namespace peelbook::site
