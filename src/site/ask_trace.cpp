// Trace questions: the start lots that a word names, the part of the graph behind or before them, and what is read off it.
#include <algorithm>
#include <limits>
#include <map>
#include <set>

#include "base/text.h"
#include "judge/judge.h"
#include "site/admit.h"
#include "site/impl.h"

namespace peelbook::site {
namespace {

// Our code, a printed code, SUPPLIER:LOT, or a supplier's code: all lots that carry it.
Result<std::vector<book::Lot>> named_lots(Ledger& ledger, const std::string& word, const std::string& material) {
    auto& rows = ledger.rows();
    std::vector<book::Lot> found;
    if (auto lot = rows.lot(word)) found.push_back(*lot);
    if (found.empty()) found = rows.lots_with_printed_code(word);
    if (found.empty()) found = rows.lots_by_supplier(word);
    if (const auto cut = word.find(':'); found.empty() && cut != std::string::npos) {
        for (auto& lot : rows.lots_by_supplier(word.substr(cut + 1))) {
            if (lot.partner == word.substr(0, cut)) found.push_back(std::move(lot));
        }
    }
    if (!material.empty()) std::erase_if(found, [&](const auto& lot) { return lot.item != material; });
    if (!found.empty()) return found;
    Draft nothing;
    Request r{ledger, nothing, {}, {}, {}, 0};
    auto refused = known_lot(r, word);
    return refused.ok() ? Refusal{"lot '" + shown(word) + "' of " + material, "a lot of that material", "leave --material out", {}}
                        : refused.refusal();
}

class Answer {
  public:
    explicit Answer(Ledger& ledger) : ledger_(ledger), rows_(ledger.rows()), plan_(ledger.plan_at({std::numeric_limits<std::int64_t>::max()})) {}

    TraceAnswer make(std::vector<book::Lot> start, bool forward);

  private:
    trace::Lot lot(const book::Lot& l);
    void load(TraceAnswer& out, const book::Derived::Graph& graph);
    std::vector<trace::LotId> add_same_code(TraceAnswer& out);
    void add_moves(TraceAnswer& out);
    void add_balances(TraceAnswer& out);
    void add_possible(TraceAnswer& out);

    Ledger& ledger_;
    book::Derived& rows_;
    GoverningPlan plan_;
    std::vector<trace::Move> moves_;
};

trace::Lot Answer::lot(const book::Lot& l) {
    trace::Lot out;
    out.id = l.id;
    out.code = l.code;
    out.kind = l.kind;
    out.item = l.item;
    out.name = plan_.plan->name_of(l.item);
    out.happened = l.happened;
    out.made_mg = l.made_mg;
    out.made_pieces = l.made_pieces;
    if (const auto stock = rows_.stock(l.id)) {
        out.on_hand_mg = stock->on_hand_mg;
        out.on_hand_pieces = stock->on_hand_pieces;
    }
    out.held = rows_.is_held(l.id);
    const auto* material = plan_.plan->material(l.item);
    out.packaging = material && material->packaging;
    out.printed_code = l.printed_code;
    out.label = l.label;
    out.supplier = l.partner;
    out.supplier_lot = l.supplier_lot;
    out.vessel = l.vessel;
    return out;
}

void Answer::load(TraceAnswer& out, const book::Derived::Graph& graph) {
    for (const auto& l : graph.lots) out.graph.lots.push_back(lot(l));
    for (const auto& u : graph.uses) {
        out.graph.uses.push_back({u.into_lot, u.from_lot, u.seq, u.mass_mg, u.pieces, u.sure != 0, u.happened});
    }
}

// A printed code is the unit of a recall: packs that share one with a reached pack cannot be told apart at a customer's, and
// come in as possible.
std::vector<trace::LotId> Answer::add_same_code(TraceAnswer& out) {
    std::set<trace::LotId> loaded, reached;
    std::set<std::string> printed;
    for (const auto& l : out.graph.lots) loaded.insert(l.id);
    for (const auto& one : out.reached) reached.insert(one.lot);
    for (const auto& l : out.graph.lots) {
        if (reached.contains(l.id) && !l.printed_code.empty()) printed.insert(l.printed_code);
    }
    std::vector<trace::LotId> added;
    for (const auto& code : printed) {
        std::vector<std::string> others;
        for (const auto& l : rows_.lots_with_printed_code(code)) {
            if (reached.contains(l.id)) continue;
            others.push_back(l.code);
            added.push_back(l.id);
            if (loaded.insert(l.id).second) out.graph.lots.push_back(lot(l));
        }
        if (!others.empty()) {
            out.notes.push_back("printed code " + code + " is also on " + joined(others, ", ") + ": a customer cannot tell them apart");
        }
    }
    return added;
}

void Answer::add_moves(TraceAnswer& out) {
    std::map<std::string, std::string> names;
    for (const auto& partner : rows_.partners()) names[partner.code] = partner.name;
    std::vector<trace::LotId> lots;
    for (const auto& reached : out.reached) lots.push_back(reached.lot);
    if (out.forward) {
        for (const auto id : add_same_code(out)) lots.push_back(id);
    }
    for (const auto lot : lots) {
        for (const auto& m : rows_.moves(lot)) {
            if (m.of_returned != 0) continue;
            moves_.push_back({m.lot, m.seq, m.way, m.partner, names[m.partner], m.document, m.mass_mg, m.pieces, m.happened, m.sure != 0});
        }
    }
    out.customers = trace::deliveries(out.reached, out.graph, moves_);
}

void Answer::add_balances(TraceAnswer& out) {
    std::map<trace::LotId, const trace::Lot*> lots;
    for (const auto& l : out.graph.lots) lots[l.id] = &l;
    std::map<trace::LotId, std::vector<trace::Move>> moves;
    for (const auto& m : moves_) moves[m.lot].push_back(m);
    const auto add = [&](trace::LotId id) {
        if (!lots.contains(id) || lots[id]->kind == "supply") return;
        std::vector<trace::Use> from;
        for (const auto& u : rows_.uses_from(id)) {
            from.push_back({u.into_lot, u.from_lot, u.seq, u.mass_mg, u.pieces, u.sure != 0, u.happened});
        }
        const auto stock = rows_.stock(id).value_or(book::Stock{});
        auto with_made = *lots[id];
        with_made.made_mg = stock.made_mg;
        out.balances.push_back(trace::balance(with_made, from, moves[id], stock.gap_mg, stock.gap_pieces));
    };
    std::set<trace::LotId> asked;
    for (const auto& l : out.start) {
        add(l.id);
        asked.insert(l.id);
    }
    for (const auto& reached : out.reached) {
        if (!asked.contains(reached.lot)) add(reached.lot);
    }
}

// A forgotten use shortens a recall: batches with a missing use of what was asked for, made while the lot was in house.
void Answer::add_possible(TraceAnswer& out) {
    std::set<trace::LotId> reached;
    for (const auto& one : out.reached) reached.insert(one.lot);
    for (const auto& suspect : out.start) {
        book::Int gone = suspect.happened;
        for (const auto& use : rows_.uses_from(suspect.id)) gone = std::max(gone, use.happened);
        for (const auto& move : rows_.moves(suspect.id)) gone = std::max(gone, move.happened);
        const auto stock = rows_.stock(suspect.id);
        if (!stock || stock->on_hand_mg > 0) gone = std::numeric_limits<book::Int>::max();
        for (const auto& f : rows_.open_findings()) {
            if (f.point != judge::missing_use_point || f.unit != suspect.item || !f.lot || reached.contains(*f.lot)) continue;
            const auto batch = rows_.lot(*f.lot);
            if (!batch || batch->happened < suspect.happened || batch->happened > gone) continue;
            out.possible.push_back(*batch);
            reached.insert(batch->id);
        }
    }
    if (!out.possible.empty()) {
        out.notes.push_back(std::to_string(out.possible.size()) +
                            " batches have a missing use and were made while the lot was in house: possible");
    }
}

TraceAnswer Answer::make(std::vector<book::Lot> start, bool forward) {
    TraceAnswer out;
    out.forward = forward;
    out.start = std::move(start);
    std::vector<book::LotId> ids;
    for (const auto& l : out.start) ids.push_back(l.id);
    load(out, forward ? rows_.forward(ids) : rows_.back(ids));
    out.reached = forward ? trace::forward(out.graph, ids) : trace::back(out.graph, ids);
    add_moves(out);
    add_balances(out);
    if (forward) add_possible(out);
    return out;
}

}  // namespace

Result<TraceAnswer> Site::trace_forward(const std::string& lot, const std::string& material) const {
    auto start = named_lots(impl_->ledger, lot, material);
    if (!start) return start.refusal();
    return Answer(impl_->ledger).make(std::move(*start), true);
}

Result<TraceAnswer> Site::trace_back(const std::string& lot) const {
    auto start = named_lots(impl_->ledger, lot, "");
    if (!start) return start.refusal();
    return Answer(impl_->ledger).make(std::move(*start), false);
}

}  // namespace peelbook::site
