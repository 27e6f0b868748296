#include "fold/findings.h"

#include <algorithm>

#include "fold/standing.h"

namespace peelbook::fold {
namespace {

bool same_key(const book::Finding& a, const book::Finding& b) { return a.anchor == b.anchor && a.point == b.point && a.ord == b.ord; }

book::Finding merged(const Derivation& d, const book::Finding& old, book::Finding now, bool on_voided) {
    const bool better = now.verdict < old.verdict;
    if (better && !old.cleared_by && (old.kept_by || d.by_void || on_voided)) {
        const auto figure = now.figure;  // of the records as they stand, not of the verdict that stays
        now = old;
        now.figure = figure;
        if (!now.kept_by) now.kept_by = d.cause;
        return now;
    }
    now.kept_by = now.verdict < old.verdict ? std::nullopt : old.kept_by;
    now.raised = std::max(old.raised, now.verdict);
    if (now.verdict == Verdict::within && now.raised > Verdict::within) now.cleared_by = old.cleared_by ? old.cleared_by : d.cause;
    return now;
}

void write(Derivation& d, const std::optional<book::Finding>& old, book::Finding now) {
    if (old) {  // for what never stood before nobody has signed
        now.decided = old->decided;
        if (*old == now) return;
        now.decided = disposition_of(d.ledger.rows(), now);
    }
    d.ledger.rows().put(now);
    d.changed.push_back(now);
}

}  // namespace

void merge_findings(Derivation& d, const std::vector<book::Finding>& before, const std::vector<book::Finding>& mine,
                    const std::vector<bool>& on_voided) {
    for (std::size_t i = 0; i < mine.size(); ++i) {
        auto now = mine[i];
        now.raised = now.verdict;
        const auto old = std::find_if(before.begin(), before.end(), [&](const auto& f) { return same_key(f, now); });
        if (old == before.end()) {
            write(d, std::nullopt, now);
        } else {
            write(d, *old, merged(d, *old, now, on_voided[i]));
        }
    }
    for (const auto& old : before) {
        if (std::any_of(mine.begin(), mine.end(), [&](const auto& f) { return same_key(f, old); })) continue;
        if (old.raised == Verdict::within) {
            d.ledger.rows().erase_finding(old.anchor, old.point, old.ord);
            continue;
        }
        auto kept = old;  // nothing is judged there any more
        kept.figure.reset();
        if (d.by_void || kept.kept_by) {
            if (!kept.kept_by && !kept.cleared_by) kept.kept_by = d.cause;
        } else if (!kept.cleared_by) {
            kept.cleared_by = d.cause;
        }
        write(d, old, kept);
    }
}

}  // namespace peelbook::fold
