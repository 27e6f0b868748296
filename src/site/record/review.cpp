#include "site/record/review.h"

#include "base/text.h"

namespace peelbook::site {
namespace {

void add_lot(fold::Ledger& ledger, const book::Lot& lot, std::string& all) {
    for (Seq seq : ledger.rows().touching(book::SubjectKind::lot, std::to_string(lot.id))) {
        const auto fact = ledger.rows().fact(seq);
        all += std::to_string(seq) + " " + std::to_string(fact->amended_by.value_or(0)) + " " +
               std::to_string(fact->voided_by.value_or(0)) + "\n";
    }
    for (const auto& f : ledger.rows().findings(lot.id)) {
        all += std::to_string(f.anchor) + ":" + f.point + ":" + std::to_string(f.ord) + " " +
               std::to_string(static_cast<book::Int>(f.verdict)) + "\n";
    }
}

}  // namespace

Result<std::string> review_digest(fold::Ledger& ledger, const std::string& what) {
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
    return record::to_hex(record::sha256(all));
}

}  // namespace peelbook::site
