// Whether a recall adds up: what was made of its lots, where that is, and what those who had it say.
#include <algorithm>

#include "site/ask/recall_view.h"
#include "site/ask/trace_answer.h"
#include "trace/co_packed.h"

namespace peelbook::site {
namespace {

class Accounts {
  public:
    Accounts(fold::Ledger& ledger, const RecallScope& scope, RecallView& view) : rows_(ledger.rows()), scope_(scope), view_(view) {}

    trace::Outside run() {
        for (const auto& line : view_.lots) {
            if (line.gone) continue;
            lots_.push_back(line.lot);
            ids_.insert(line.lot.id);
            reached_.push_back({});
            reached_.back().lot = line.lot.id;
            reached_.back().certain = line.certain;
            if (line.lot.kind == LotKind::batch && !line.lot.made_mg && !line.lot.made_pieces) ++view_.unfinished;
            for (const auto& use : rows_.uses_from(line.lot.id)) uses_.push_back(traced(use));
        }
        load_moves();
        view_.deliveries = deliveries();
        net();
        hear();
        auto outside = trace::outside(view_.moves, view_.said);
        view_.reconciliation = trace::reconcile(lots_, uses_, view_.moves, outside.parcels);
        return outside;
    }

  private:
    // Those of the trace are read already; what was covered and is reached no more has the others.
    void load_moves() {
        view_.moves = scope_.moves;
        std::set<trace::LotId> known;
        for (const auto& one : scope_.reach.lots) known.insert(one.lot);
        std::map<std::string, std::string> names;
        for (const auto& partner : rows_.partners()) names[partner.code] = partner.name;
        for (const auto& lot : lots_) {
            if (known.contains(lot.id)) continue;
            for (const auto& m : rows_.moves(lot.id)) {
                if (m.of_returned == 0) view_.moves.push_back(traced(m, names[m.partner]));
            }
        }
        std::stable_sort(view_.moves.begin(), view_.moves.end(),
                         [](const auto& a, const auto& b) { return std::pair(a.happened, a.seq) < std::pair(b.happened, b.seq); });
    }

    std::vector<trace::Delivery> deliveries() const {
        trace::Graph graph;
        graph.lots = lots_;
        return trace::deliveries(reached_, graph, view_.moves);
    }

    // What came back from co-packers as new lots.
    void net() {
        std::vector<trace::CameBack> back;
        std::vector<trace::Move> others;
        std::set<trace::LotId> known = ids_;
        for (const auto& lot : lots_) {
            if (lot.kind != LotKind::pack || lot.supplier.empty()) continue;
            trace::CameBack one{lot.id, lot.supplier, {lot.made_mg.value_or(0), lot.made_pieces.value_or(0)}, lot.happened, {}};
            for (const auto& use : rows_.uses_into(lot.id)) {
                one.from.push_back(use.from_lot);
                if (!known.insert(use.from_lot).second) continue;
                for (const auto& m : rows_.moves(use.from_lot)) others.push_back(traced(m));
            }
            back.push_back(std::move(one));
        }
        std::stable_sort(back.begin(), back.end(), [](const auto& a, const auto& b) { return a.happened < b.happened; });
        trace::net_co_packed(back, std::move(others), view_.moves, uses_);
    }

    // In a recall the book has what came back, and a move says so; only what is said beyond that stands here.
    void hear() {
        for (const auto& c : rows_.recall_counts(view_.recall.seq)) {
            trace::Statement said{lots_of_code(view_, c.code), c.code, c.partner, c.way, c.what, c.mass_mg, c.pieces, c.happened, c.seq};
            if (c.what == Fate::returned && view_.recall.drill == 0) {
                if (c.excess_mg == 0 && c.excess_pieces == 0) continue;
                said.mass_mg = c.mass_mg ? std::optional(c.excess_mg) : std::nullopt;
                said.pieces = c.excess_pieces;
            }
            view_.said.push_back(std::move(said));
        }
    }

    book::Derived& rows_;
    const RecallScope& scope_;
    RecallView& view_;
    std::vector<trace::Lot> lots_;
    std::vector<trace::Reached> reached_;
    std::vector<trace::Use> uses_;
    std::set<trace::LotId> ids_;
};

}  // namespace

std::vector<trace::LotId> lots_of_code(const RecallView& view, const std::string& code) {
    std::vector<trace::LotId> printed;
    for (const auto& line : view.lots) {
        if (line.gone) continue;
        if (line.lot.code == code) return {line.lot.id};
        if (line.lot.printed_code == code && !code.empty()) printed.push_back(line.lot.id);
    }
    return printed;
}

trace::Outside add_accounts(fold::Ledger& ledger, const RecallScope& scope, RecallView& view) {
    return Accounts(ledger, scope, view).run();
}

}  // namespace peelbook::site
