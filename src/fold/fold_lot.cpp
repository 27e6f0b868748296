// A lot's own rows from its entries: what it is, what went into it, what left, what was read of it, and where it ran.
#include <algorithm>
#include <map>
#include <set>

#include "base/text.h"
#include "fold/findings.h"
#include "fold/fold.h"
#include "fold/label.h"
#include "fold/label_readings.h"
#include "fold/lot_facts.h"
#include "fold/standing.h"
#include "fold/weigh_sheet.h"
#include "judge/declaration.h"
#include "judge/judge.h"
#include "plan/boundaries.h"

namespace peelbook::fold {
namespace {

void set_series(Derivation& d, book::LotId lot, const std::vector<book::Series>& now, const std::vector<book::SeriesFault>& faults) {
    auto& rows = d.ledger.rows();
    for (const auto& old : rows.series_of_lot(lot)) {
        if (std::none_of(now.begin(), now.end(), [&](const auto& s) { return s.seq == old.seq; })) rows.erase_series(old.seq);
    }
    for (const auto& series : now) {
        std::vector<book::SeriesFault> of_it;
        std::copy_if(faults.begin(), faults.end(), std::back_inserter(of_it), [&](const auto& f) { return f.seq == series.seq; });
        rows.put(series);
        rows.set_series_faults(series.seq, of_it);
    }
}

// What ran where changes what lies there and who meets it.
Subjects set_runs(book::Derived& rows, book::LotId id, const std::vector<book::Run>& now) {
    const auto before = rows.runs(id);
    auto in_order = now;
    const auto by_time = [](const auto& a, const auto& b) { return std::tie(a.at, a.equipment) < std::tie(b.at, b.equipment); };
    std::sort(in_order.begin(), in_order.end(), by_time);
    if (before == in_order) return {};
    rows.set_runs(id, in_order);
    Subjects dirtied;
    const auto add_missing = [&](const std::vector<book::Run>& list, const std::vector<book::Run>& other) {
        for (const auto& run : list) {
            if (std::find(other.begin(), other.end(), run) != other.end()) continue;
            dirtied.push_back(Subject::since(Rank::equipment, run.equipment, {run.at}));
        }
    };
    add_missing(before, in_order);
    add_missing(in_order, before);
    return dirtied;
}

// Its maker was voided: what it took is there again.
Subjects erase_rows(Derivation& d, const book::Lot& row, const std::vector<book::Use>& uses) {
    auto& rows = d.ledger.rows();
    Subjects dirtied = set_runs(rows, row.id, {});
    for (const auto& use : uses) dirtied.push_back(Subject::of_lot(Rank::stock, use.from_lot));
    rows.set_uses_into(row.id, {});
    rows.set_moves(row.id, {});
    rows.set_counts(row.id, {});
    rows.set_readings(row.id, {});
    set_series(d, row.id, {}, {});
    rows.set_holds(row.id, {});
    rows.set_stays(row.id, {});
    rows.set_keeping(row.id, {});
    rows.set_clocks(row.id, {});
    rows.put(book::SpentCode{row.code, row.id});
    rows.set_allergens(row.id, {});
    rows.set_unsettled(rows.unsettled(row.id), {});
    rows.set_owed(book::SubjectKind::lot, row.code, {});
    rows.erase_lot(row.id);
    return dirtied;
}

// A finding outlives a lot whose maker was voided: it then names the code, since the lot is no longer in the book.
void keep_findings(Derivation& d, const book::Lot& row) {
    auto& rows = d.ledger.rows();
    merge_findings(d, rows.findings(row.id), {});
    for (auto& f : rows.findings(row.id)) {
        f.lot.reset();
        f.place = row.code;
        rows.put(f);
    }
}

// Stock of every lot that went in before or goes in now.
std::set<book::LotId> inputs_of(const std::vector<book::Use>& before, const std::vector<book::Use>& now) {
    std::set<book::LotId> changed;
    for (const auto& use : before) {
        if (std::find(now.begin(), now.end(), use) == now.end()) changed.insert(use.from_lot);
    }
    for (const auto& use : now) {
        if (std::find(before.begin(), before.end(), use) == before.end()) changed.insert(use.from_lot);
    }
    return changed;
}

void keep_unstated_masses(const std::vector<book::Use>& before, std::vector<book::Use>& now) {
    for (auto& use : now) {
        if (use.stated != 0) continue;
        for (const auto& old : before) {
            if (old.seq == use.seq && old.from_lot == use.from_lot && old.pieces == use.pieces) use.mass_mg = old.mass_mg;
        }
    }
}

void keep_unstated_masses(const std::vector<book::Move>& before, std::vector<book::Move>& now) {
    for (auto& move : now) {
        if (move.stated != 0) continue;
        for (const auto& old : before) {
            if (old.seq == move.seq && old.pieces == move.pieces) move.mass_mg = old.mass_mg;
        }
    }
}

void sum_inputs(book::Lot& row, const std::vector<book::Use>& uses, bool weighed_whole) {
    if (weighed_whole) return;
    book::Int sum = 0;
    for (const auto& use : uses) sum += use.struck_by ? 0 : use.mass_mg.value_or(0);
    if (is_goods(row.kind)) row.input_mg = sum;
    if (is_part_of_a_lot(row.kind)) row.made_mg = sum;
}

bool any_left(const std::vector<book::Move>& moves) { return std::any_of(moves.begin(), moves.end(), left_the_house); }

// The batches behind a pack whose leaving ends what packing owed, or no longer does.
Subjects left_or_came_back(const LotFacts& pack, const std::vector<book::Move>& moves_before) {
    Subjects dirtied;
    if (pack.row.kind != LotKind::pack || any_left(moves_before) == any_left(pack.moves)) return dirtied;
    for (const auto& use : pack.uses) dirtied.push_back(Subject::of_lot(Rank::lot, use.from_lot));
    return dirtied;
}

Subjects racks_of(book::Derived& rows, const LotFacts& batch) {
    Subjects dirtied;
    if (batch.row.kind != LotKind::batch || !batch.first_split) return dirtied;
    for (const auto& use : rows.uses_from(batch.row.id)) {
        const auto child = rows.lot(use.into_lot);
        if (child && child->kind == LotKind::rack) dirtied.push_back(Subject::of_lot(Rank::lot, child->id));
    }
    return dirtied;
}

Subjects dated_of(book::Derived& rows, book::LotId id) {
    Subjects dirtied;
    for (const auto& use : rows.uses_from(id)) dirtied.push_back(Subject::of_lot(Rank::dated, use.into_lot));
    return dirtied;
}

void append(Subjects& to, const Subjects& more) { to.insert(to.end(), more.begin(), more.end()); }

}  // namespace

Subjects fold_lot(Derivation& d, book::LotId id) {
    auto& rows = d.ledger.rows();
    LotFacts lot = gather(d, id);
    const auto& uses_before = lot.uses_before;
    if (!lot.made) {
        keep_findings(d, lot.row);
        return erase_rows(d, lot.row, uses_before);
    }
    keep_unstated_masses(uses_before, lot.uses);
    const auto moves_before = rows.moves(id);
    keep_unstated_masses(moves_before, lot.moves);
    sum_inputs(lot.row, lot.uses, lot.weighed_whole);
    const bool fresh = rows.put(lot.row);
    const bool other_inputs = rows.set_uses_into(uses_before, lot.uses);
    const bool other_ways_out = rows.set_moves(moves_before, lot.moves);
    const bool other_counts = rows.set_counts(id, lot.counts);
    rows.set_readings(id, lot.readings);
    set_series(d, id, lot.series, lot.series_faults);
    rows.set_holds(id, lot.holds);
    rows.set_stays(id, lot.stays);
    Subjects dirtied = set_runs(rows, id, lot.runs);
    dirtied.push_back(Subject::of_lot(Rank::dated, id));
    if (rows.set_clocks(id, lot.clocks)) append(dirtied, dated_of(rows, id));
    for (const auto& use : lot.uses) {
        if (std::find(uses_before.begin(), uses_before.end(), use) == uses_before.end()) d.taken.emplace(id, use.from_lot);
    }
    const auto rewired = inputs_of(uses_before, lot.uses);
    if (!rewired.empty()) d.rewired.insert(id);
    for (const book::LotId from : rewired) dirtied.push_back(Subject::of_lot(Rank::stock, from));
    if (fresh || other_ways_out || other_counts) dirtied.push_back(Subject::of_lot(Rank::stock, id));
    if (fresh || other_inputs || lot.declared) dirtied.push_back(Subject::of_lot(Rank::brought, id));
    append(dirtied, left_or_came_back(lot, moves_before));
    append(dirtied, racks_of(rows, lot));
    dirtied.push_back(Subject::of_lot(Rank::findings, id));
    d.gathered.insert_or_assign(id, std::move(lot));
    return dirtied;
}

}  // namespace peelbook::fold
