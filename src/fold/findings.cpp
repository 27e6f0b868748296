#include "fold/findings.h"

#include <algorithm>

#include "fold/ratchet/betters.h"
#include "fold/ratchet/waiting.h"
#include "fold/standing.h"

namespace peelbook::fold {
namespace {

bool same_key(const book::Finding& a, const book::Finding& b) { return a.anchor == b.anchor && a.point == b.point && a.ord == b.ord; }

// As it stood before the entry: what was only raised in passing, while the entry was derived, binds nobody.
std::optional<book::Finding> stood(Derivation& d, const std::optional<book::Finding>& old, const book::Finding& key) {
    return d.before.try_emplace({key.anchor, key.point, key.ord}, old).first->second;
}

// The entry that a milder finding waits for, if one; `now` absent: nothing is judged there any more.
std::optional<Seq> waits_for(Derivation& d, const book::Finding& stood, const std::optional<book::Finding>& now) {
    const bool milder = is_open(stood) && (!now || now->verdict < stood.verdict);
    if (!milder || may_better(d, stood, now)) return {};
    return stood.kept_by ? stood.kept_by : d.cause;
}

bool still_waits(Derivation& d, std::optional<Seq> entry) {
    if (!entry) return false;
    const auto known = d.ledger.rows().waiting(*entry);
    return known && !known->decided_by;
}

book::Finding kept(Derivation& d, book::Finding as_it_stood, Seq waits_for) {
    as_it_stood.kept_by = waits_for;
    wait(d, waits_for);
    return as_it_stood;
}

book::Finding merged(Derivation& d, const book::Finding& old, const book::Finding& stood, book::Finding now) {
    if (const auto entry = waits_for(d, stood, now)) {
        auto out = kept(d, stood, *entry);
        out.figure = now.figure;  // of the records as they stand, not of the verdict that stays
        return out;
    }
    if (still_waits(d, old.kept_by)) now.kept_by = old.kept_by;
    now.raised = std::max(old.raised, now.verdict);
    if (now.verdict == Verdict::within && now.raised > Verdict::within) now.cleared_by = old.cleared_by ? old.cleared_by : d.cause;
    return now;
}

void write(Derivation& d, const std::optional<book::Finding>& old, book::Finding now, std::vector<Seq> waits) {
    if (now.kept_by && std::find(waits.begin(), waits.end(), *now.kept_by) == waits.end()) waits.push_back(*now.kept_by);
    now.waits = static_cast<book::Int>(waits.size());
    if (now.waits > 0 || (old && old->waits > 0)) d.ledger.rows().set_waits(now, waits);
    if (old) {  // for what never stood before nobody has signed
        now.decided = old->decided;
        if (*old == now) return;
        now.decided = disposition_of(d.ledger.rows(), now);
    }
    d.ledger.rows().put(now);
    d.changed.push_back(now);
}

// Nothing is judged there any more.
void write_left(Derivation& d, const book::Finding& old) {
    const auto stood_so = stood(d, old, old);
    if (!stood_so || old.raised == Verdict::within) {
        if (old.waits > 0) d.ledger.rows().set_waits(old, {});
        d.ledger.rows().erase_finding(old.anchor, old.point, old.ord);
        return;
    }
    auto left = *stood_so;
    left.figure.reset();
    if (const auto entry = waits_for(d, *stood_so, std::nullopt)) {
        left = kept(d, left, *entry);
    } else {
        left.kept_by.reset();
        if (!left.cleared_by) left.cleared_by = d.cause;
    }
    write(d, old, left, {});
}

}  // namespace

void merge_findings(Derivation& d, const std::vector<book::Finding>& before, const std::vector<book::Finding>& mine,
                    const std::vector<std::vector<Seq>>& waits) {
    for (std::size_t i = 0; i < mine.size(); ++i) {
        auto now = mine[i];
        const auto waits_of = waits.empty() ? std::vector<Seq>{} : waits[i];
        now.raised = now.verdict;
        now.waits = static_cast<book::Int>(waits_of.size());
        const auto found = std::find_if(before.begin(), before.end(), [&](const auto& f) { return same_key(f, now); });
        const auto old = found == before.end() ? std::nullopt : std::optional(*found);
        const auto stood_so = stood(d, old, now);
        write(d, old, old ? merged(d, *old, stood_so.value_or(now), now) : now, waits_of);
    }
    for (const auto& old : before) {
        if (std::none_of(mine.begin(), mine.end(), [&](const auto& f) { return same_key(f, old); })) write_left(d, old);
    }
}

}  // namespace peelbook::fold
