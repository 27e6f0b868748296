// What keeps a lot from going on: its own critical points that are open or not within, and those of what became part of it.
#include <algorithm>

#include "fold/fold.h"
#include "fold/gate/strict.h"
#include "fold/standing.h"

namespace peelbook::fold {
namespace {

bool is_open_row(const book::Unsettled& row, book::LotId lot) { return row.source == lot && !row.verdict; }

void add_findings(book::Derived& rows, book::LotId lot, std::vector<book::Unsettled>& out) {
    for (const auto& f : rows.findings(lot)) {
        if (f.grade != Grade::critical || !is_open(f)) continue;
        if (f.decided == record::Disposition::release) continue;
        out.push_back({lot, lot, f.anchor, f.point, f.ord, static_cast<book::Int>(f.verdict), f.decided});
    }
}

// What was used had not come to that point yet, and the receiver shows as strictly what it would have shown.
bool left_before(Ledger& ledger, const book::Unsettled& row, const book::Use& use, const book::Lot& receiver) {
    if (row.source != use.from_lot || receiver.kind != LotKind::batch) return false;
    if (row.verdict) {
        const auto f = ledger.rows().finding(row.anchor, row.point, row.ord);
        if (!f || f->happened <= use.happened) return false;
    }
    const auto source = ledger.rows().lot(row.source);
    if (!source) return false;
    const auto of_source = ledger.plan_version(source->plan_seq), of_receiver = ledger.plan_version(receiver.plan_seq);
    const auto* wanted = of_source.plan->point(row.point);
    const auto points = of_receiver.plan->points_of_product(receiver.item);
    return wanted && std::any_of(points.begin(), points.end(), [&](const auto* point) { return as_strict(*wanted, *point); });
}

// Into a batch, or packs that were packed anew: what was signed for rework is done with that.
bool is_rework(book::Derived& rows, const book::Use& use, const book::Lot& into) {
    const auto from = into.kind == LotKind::pack ? rows.lot(use.from_lot) : std::nullopt;
    return into.kind == LotKind::batch || (from && from->kind == LotKind::pack);
}

// A rack is judged itself from its split on, by what was read of the whole before it too: then its batch's own rest is another matter.
bool judged_on_the_rack(book::Derived& rows, const book::Unsettled& row, const book::Use& use, const book::Lot& lot,
                        const std::vector<book::Unsettled>& own) {
    if (lot.kind != LotKind::rack || row.source != use.from_lot) return false;
    const auto findings = rows.findings(lot.id);
    const auto of_point = [&](const auto& one) { return one.point == row.point; };
    if (std::any_of(findings.begin(), findings.end(), of_point)) return true;
    return !row.verdict && std::any_of(own.begin(), own.end(), of_point);
}

void add_inherited(Ledger& ledger, const book::Lot& lot, std::vector<book::Unsettled>& out) {
    const auto own = out;
    for (const auto& use : ledger.rows().uses_into(lot.id)) {
        for (auto& row : ledger.rows().unsettled(use.from_lot)) {
            if (row.decided == record::Disposition::rework && is_rework(ledger.rows(), use, lot)) continue;
            if (judged_on_the_rack(ledger.rows(), row, use, lot, own)) continue;
            if (left_before(ledger, row, use, lot)) continue;
            row.lot = lot.id;
            out.push_back(std::move(row));
        }
    }
}

}  // namespace

Subjects fold_unsettled(Derivation& d, book::LotId id) {
    auto& rows = d.ledger.rows();
    const auto lot = rows.lot(id);
    const auto before = rows.unsettled(id);
    std::vector<book::Unsettled> now;
    if (lot) {
        if (const auto judged = d.open_points.find(id); judged != d.open_points.end()) {
            now = judged->second;
        } else {
            std::copy_if(before.begin(), before.end(), std::back_inserter(now), [&](const auto& row) { return is_open_row(row, id); });
        }
        add_findings(rows, id, now);
        add_inherited(d.ledger, *lot, now);
    }
    const auto by_key = [](const book::Unsettled& a, const book::Unsettled& b) {
        return std::tie(a.source, a.anchor, a.point, a.ord) < std::tie(b.source, b.anchor, b.point, b.ord);
    };
    std::sort(now.begin(), now.end(), by_key);
    const auto same_key = [](const book::Unsettled& a, const book::Unsettled& b) {
        return std::tie(a.source, a.anchor, a.point, a.ord) == std::tie(b.source, b.anchor, b.point, b.ord);
    };
    now.erase(std::unique(now.begin(), now.end(), same_key), now.end());  // the same by two ways
    Subjects dirtied;
    if (!rows.set_unsettled(before, now)) return dirtied;
    for (const auto& use : rows.uses_from(id)) dirtied.push_back(Subject::of_lot(Rank::unsettled, use.into_lot));
    return dirtied;
}

}  // namespace peelbook::fold
