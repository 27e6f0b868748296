#include "site/record/recall_hooks.h"

#include <algorithm>

#include "site/ask/recall_scope.h"
#include "site/record/recall_guard.h"

namespace peelbook::site {
Check second_person(fold::Ledger& ledger, Seq target, const std::string& by, bool undone) {
    const auto& signed_by = ledger.entry(target).by;
    if (signed_by != by) return {};
    const auto lots = lots_about(ledger, {target});
    const bool covered = std::any_of(lots.begin(), lots.end(), [&](auto id) { return ledger.rows().covering(id).has_value(); });
    if (undone && !covered) return {};
    for (const auto& recall : ledger.rows().open_recalls()) {
        if (recall.drill != 0) continue;
        return Refusal{"a correction by " + by + " of their own entry, while " + recall.code + " is open",
                       "a second person: someone may already have acted on what was recorded",
                       "let another person correct it",
                       {}};
    }
    return {};
}

RecallReaches recall_reaches(fold::Ledger& ledger) {
    RecallReaches out;
    for (const auto& recall : ledger.rows().open_recalls()) {
        const auto scope = recall_scope(ledger, recall);
        const auto lots = scope.by_id();
        auto& reach = out[recall.code];
        for (const auto& one : scope.reach.lots) {
            if (const auto lot = lots.find(one.lot); lot != lots.end())
                reach.insert(lot->second->code + (one.certain ? "" : " (possible)"));
        }
        for (const auto& d : scope.reach.deliveries) reach.insert(delivery_text(d));
    }
    return out;
}

std::vector<std::string> recall_changes(const RecallReaches& before, const RecallReaches& now) {
    std::vector<std::string> told;
    const auto tell = [&](const RecallReaches& these, const RecallReaches& others, const char* says) {
        for (const auto& [code, reach] : these) {
            const auto other = others.find(code);
            for (const auto& one : reach) {
                if (other == others.end() || !other->second.contains(one)) told.push_back(code + says + one);
            }
        }
    };
    tell(before, now, " reached before, not now: ");
    tell(now, before, " reaches now, not before: ");
    return told;
}

}  // namespace peelbook::site
