// What is left of a lot. A flow stated in pieces only has the pieces' share of the lot's mass, by cumulative integer division in
// the order of the flows, so that the parts always sum to the whole.
#include <algorithm>
#include <limits>
#include <tuple>

#include "base/measure.h"
#include "fold/findings.h"
#include "fold/fold.h"
#include "fold/standing.h"

namespace peelbook::fold {
namespace {

struct Flow {
    book::Int happened = 0;
    Seq seq = 0;
    book::Int mass = 0, pieces = 0;
    bool stated = true;
    bool out = false;       // a move, not a use
    bool returned = false;  // came back
    bool of_returned = false;
    std::size_t index = 0;  // in its list
};

struct Flows {
    std::vector<book::Use> uses;
    std::vector<book::Move> moves;
    std::vector<Flow> all;  // by (happened, seq)
};

Flows flows_of(book::Derived& rows, book::LotId lot) {
    Flows flows{rows.uses_from(lot), rows.moves(lot), {}};
    for (std::size_t i = 0; i < flows.uses.size(); ++i) {
        const auto& u = flows.uses[i];
        flows.all.push_back({u.happened, u.seq, u.mass_mg.value_or(0), u.pieces.value_or(0), u.stated != 0, false, false, false, i});
    }
    for (std::size_t i = 0; i < flows.moves.size(); ++i) {
        const auto& m = flows.moves[i];
        flows.all.push_back({m.happened, m.seq, m.mass_mg.value_or(0), m.pieces.value_or(0), m.stated != 0, true, m.way == Way::returned,
                             m.of_returned != 0, i});
    }
    std::sort(flows.all.begin(), flows.all.end(),
              [](const Flow& a, const Flow& b) { return std::tie(a.happened, a.seq) < std::tie(b.happened, b.seq); });
    return flows;
}

// The mass of pieces [taken, taken + pieces): beyond the whole (a stock count found more) at the average.
book::Int piece_mass(book::Int made_mg, book::Int made_pieces, book::Int taken, book::Int pieces) {
    const book::Int inside = std::clamp<book::Int>(made_pieces - taken, 0, pieces);
    book::Int mass = inside > 0 ? share_of(made_mg, taken, taken + inside, made_pieces) : 0;
    if (inside < pieces) mass += share_of(made_mg, 0, 1, made_pieces) * (pieces - inside);
    return mass;
}

// Fills in masses that were not stated; the into-lots whose inputs changed.
std::vector<book::LotId> weigh_pieces(book::Derived& rows, const book::Lot& lot, book::Int made_mg, Flows& flows) {
    std::vector<book::LotId> changed;
    if (!lot.made_pieces || *lot.made_pieces <= 0 || made_mg <= 0) return changed;
    book::Int taken = 0;
    bool moves_changed = false;
    for (auto& flow : flows.all) {
        if (flow.returned || flow.of_returned) {  // their mass is the average: they were weighed on their way out
            if (!flow.stated) flow.mass = share_of(made_mg, 0, std::min(flow.pieces, *lot.made_pieces), *lot.made_pieces);
        } else {
            if (!flow.stated && flow.pieces > 0) flow.mass = piece_mass(made_mg, *lot.made_pieces, taken, flow.pieces);
            taken += flow.pieces;
        }
        if (flow.stated || flow.pieces == 0) continue;
        if (flow.out) {
            auto& move = flows.moves[flow.index];
            moves_changed = moves_changed || move.mass_mg != flow.mass;
            move.mass_mg = flow.mass;
        } else {
            auto& use = flows.uses[flow.index];
            if (use.mass_mg != flow.mass) changed.push_back(use.into_lot);
            use.mass_mg = flow.mass;
        }
    }
    if (moves_changed) rows.set_moves(lot.id, flows.moves);
    std::sort(changed.begin(), changed.end());
    changed.erase(std::unique(changed.begin(), changed.end()), changed.end());
    return changed;
}

// Writes the new masses into the uses of each into-lot, and its sums.
Subjects pass_on(book::Derived& rows, book::LotId from, const std::vector<book::Use>& weighed, const std::vector<book::LotId>& into) {
    Subjects dirtied;
    for (book::LotId id : into) {
        auto uses = rows.uses_into(id);
        book::Int sum = 0;
        for (auto& use : uses) {
            for (const auto& fresh : weighed) {
                if (fresh.into_lot == id && fresh.seq == use.seq && use.from_lot == from) use.mass_mg = fresh.mass_mg;
            }
            sum += use.mass_mg.value_or(0);
        }
        rows.set_uses_into(id, uses);
        auto lot = rows.lot(id);
        if (!lot) continue;  // on its way in
        if (lot->kind != LotKind::blend) lot->input_mg = sum;
        if (is_part_of_a_lot(lot->kind)) lot->made_mg = sum;
        rows.put(*lot);
        dirtied.push_back(Subject::of_lot(Rank::stock, id));
        dirtied.push_back(Subject::of_lot(Rank::findings, id));
    }
    return dirtied;
}

book::Stock summed(const book::Lot& lot, book::Int made_mg, const std::vector<Flow>& flows, std::vector<book::StockCount> counts) {
    std::sort(counts.begin(), counts.end(),
              [](const auto& a, const auto& b) { return std::tie(a.happened, a.seq) < std::tie(b.happened, b.seq); });
    book::Stock s;
    s.lot = lot.id;
    s.made_mg = made_mg;
    s.made_pieces = lot.made_pieces;
    const book::Int made_pieces = lot.made_pieces.value_or(0);
    auto count = counts.begin();
    const auto take_counts = [&](book::Int until, Seq seq) {  // those before (until, seq)
        for (; count != counts.end() && std::tie(count->happened, count->seq) < std::tie(until, seq); ++count) {
            if (count->counted_mg) s.gap_mg += *count->counted_mg - (s.made_mg + s.gap_mg - s.used_mg - s.out_mg);
            if (!count->counted_pieces) continue;
            const book::Int before = made_pieces + s.gap_pieces - s.used_pieces - s.out_pieces;
            s.gap_pieces += *count->counted_pieces - before;
            if (!count->counted_mg && made_pieces > 0) {
                s.gap_mg += piece_mass(made_mg, made_pieces, 0, *count->counted_pieces) - (s.made_mg + s.gap_mg - s.used_mg - s.out_mg);
            }
        }
    };
    for (const auto& flow : flows) {
        take_counts(flow.happened, flow.seq);
        if (flow.returned) {
            s.returned_mg += flow.mass;
            s.returned_pieces += flow.pieces;
        } else if (flow.of_returned) {
            s.returned_mg -= flow.mass;
            s.returned_pieces -= flow.pieces;
        } else if (flow.out) {
            s.out_mg += flow.mass;
            s.out_pieces += flow.pieces;
        } else {
            s.used_mg += flow.mass;
            s.used_pieces += flow.pieces;
        }
        if (s.made_mg + s.gap_mg < s.used_mg + s.out_mg) s.went_negative = 1;
        if (lot.made_pieces && made_pieces + s.gap_pieces < s.used_pieces + s.out_pieces) s.went_negative = 1;
    }
    take_counts(std::numeric_limits<book::Int>::max(), 0);
    s.on_hand_mg = s.made_mg + s.gap_mg - s.used_mg - s.out_mg;
    if (lot.made_pieces) s.on_hand_pieces = made_pieces + s.gap_pieces - s.used_pieces - s.out_pieces;
    return s;
}

// A past instant with less than nothing: a late entry showed that more had left than was there.
void tell_negative(Derivation& d, const book::Lot& lot, bool negative) {
    std::vector<book::Finding> before, now;
    for (auto& f : d.ledger.rows().findings(lot.id)) {
        if (f.point == judge::negative_stock_point) before.push_back(f);
    }
    if (negative) {
        book::Finding f;
        f.anchor = lot.id;
        f.point = std::string(judge::negative_stock_point);
        f.lot = lot.id;
        f.plan_seq = lot.plan_seq;
        f.grade = Grade::operating;
        f.verdict = Verdict::unproven;
        f.happened = lot.happened;
        f.measured = "more had left than was there";
        f.limit_text = "stock is never below nothing";
        f.detail = "count the lot, or correct the entry that took too much";
        f.day = lot.day;
        f.week = lot.week;
        now.push_back(f);
    }
    if (!before.empty() || !now.empty()) merge_findings(d, before, now);
}

}  // namespace

Subjects fold_stock(Derivation& d, book::LotId id) {
    auto& rows = d.ledger.rows();
    auto lot = rows.lot(id);
    if (!lot || lot->kind == LotKind::supply) return {};  // water never runs out
    if (lot->status == book::LotStatus::refused) {        // at the door: none of it came into the house
        lot->made_mg = 0;
        if (lot->made_pieces) lot->made_pieces = 0;
    }
    const book::Int made_mg = lot->made_mg.value_or(lot->input_mg.value_or(0));
    auto flows = flows_of(rows, id);
    const auto changed = weigh_pieces(rows, *lot, made_mg, flows);
    const auto stock = summed(*lot, made_mg, flows.all, rows.counts(id));
    const auto before = rows.stock(id);
    const bool was_made = before && (before->made_mg > 0 || before->made_pieces.value_or(0) > 0);
    if (was_made && !is_on_hand(*before) && is_on_hand(stock)) d.restocked.insert(id);
    rows.put(stock);
    tell_negative(d, *lot, stock.went_negative != 0 && lot->kind != LotKind::batch);
    auto dirtied = pass_on(rows, id, flows.uses, changed);
    const auto on_rack = [&](const book::Use& use) {
        const auto into = rows.lot(use.into_lot);
        return into && into->kind == LotKind::rack;
    };
    if (lot->kind == LotKind::batch && std::any_of(flows.uses.begin(), flows.uses.end(), on_rack)) {
        dirtied.push_back(Subject::of_lot(Rank::findings, id));  // what is on no rack is judged by itself
    }
    return dirtied;
}

}  // namespace peelbook::fold
