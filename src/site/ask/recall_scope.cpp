#include "site/ask/recall_scope.h"

#include <algorithm>

#include "base/measure.h"
#include "base/text.h"
#include "fold/standing.h"
#include "site/ask/trace_answer.h"
#include "site/record/holds.h"

namespace peelbook::site {
namespace {

// Of the first trace: which lots it reached for sure.
std::map<trace::LotId, trace::Reached> by_lot(const std::vector<trace::Reached>& reached) {
    std::map<trace::LotId, trace::Reached> out;
    for (const auto& one : reached) out.emplace(one.lot, one);
    return out;
}

void add_notes(std::vector<std::string>& to, const std::vector<std::string>& more) {
    for (const auto& note : more) {
        if (std::find(to.begin(), to.end(), note) == to.end()) to.push_back(note);
    }
}

// Packs that share a printed code with one that is covered: in the graph, and not reached.
void add_same_code(RecallScope& scope) {
    std::set<trace::LotId> covered;
    for (const auto& one : scope.reach.lots) covered.insert(one.lot);
    std::set<std::string> printed;
    for (const auto& lot : scope.graph.lots) {
        if (covered.contains(lot.id) && !lot.printed_code.empty()) printed.insert(lot.printed_code);
    }
    for (const auto& lot : scope.graph.lots) {
        if (lot.printed_code.empty() || !printed.contains(lot.printed_code) || !covered.insert(lot.id).second) continue;
        trace::Reached possible;
        possible.lot = lot.id;
        possible.depth = 1;
        scope.reach.lots.push_back(possible);
    }
}

void add_moves(fold::Ledger& ledger, RecallScope& scope) {
    std::map<std::string, std::string> names;
    for (const auto& partner : ledger.rows().partners()) names[partner.code] = partner.name;
    for (const auto& one : scope.reach.lots) {
        for (const auto& m : ledger.rows().moves(one.lot)) {
            if (m.of_returned == 0) scope.moves.push_back(traced(m, names[m.partner]));
        }
    }
    scope.reach.deliveries = trace::deliveries(scope.reach.lots, scope.graph, scope.moves);
}

// Made and on hand as the stock has them: a pack's mass is its pieces' share of the batch.
void take_stock(fold::Ledger& ledger, RecallScope& scope) {
    for (auto& lot : scope.graph.lots) {
        const auto stock = ledger.rows().stock(lot.id);
        if (!stock || lot.kind == LotKind::supply) continue;
        if (lot.made_mg || stock->made_mg != 0) lot.made_mg = stock->made_mg;
        lot.made_pieces = stock->made_pieces;
        lot.on_hand_mg = stock->on_hand_mg;
        lot.on_hand_pieces = stock->on_hand_pieces;
        lot.held = ledger.rows().is_held(lot.id);
    }
}

}  // namespace

std::map<trace::LotId, const trace::Lot*> RecallScope::by_id() const {
    std::map<trace::LotId, const trace::Lot*> out;
    for (const auto& lot : graph.lots) out.emplace(lot.id, &lot);
    return out;
}

RecallScope recall_scope(fold::Ledger& ledger, const std::vector<book::Lot>& start) {
    TraceAnswer answer = answer_of(ledger, start, true);
    const auto sure = by_lot(answer.reached);
    RecallScope scope;
    add_notes(scope.notes, answer.notes);
    auto wider = start;
    while (!answer.possible.empty()) {  // a batch with a missing use is as suspect as the lot that may be in it
        for (auto& batch : answer.possible) wider.push_back(batch);
        answer = answer_of(ledger, wider, true);
        add_notes(scope.notes, answer.notes);
    }
    for (auto reached : answer.reached) {
        if (const auto known = sure.find(reached.lot); known != sure.end()) {
            reached = known->second;
        } else {
            const auto id = reached.lot;
            reached = {};
            reached.lot = id;
            reached.depth = 1;
        }
        scope.reach.lots.push_back(reached);
    }
    scope.graph = std::move(answer.graph);
    take_stock(ledger, scope);
    add_same_code(scope);
    add_moves(ledger, scope);
    return scope;
}

std::vector<book::Lot> start_of(fold::Ledger& ledger, const book::Recall& recall) {
    std::vector<book::Lot> start;
    for (const auto& row : ledger.rows().recall_lots(recall.seq)) {
        if (row.asked == 0) continue;
        if (auto lot = ledger.rows().lot(row.lot)) start.push_back(*lot);
    }
    return start;
}

trace::Snapshot snapshot_of(fold::Ledger& ledger, const book::Recall& recall) {
    trace::Snapshot out;
    for (const auto& row : ledger.rows().recall_lots(recall.seq)) {
        trace::Reached reached;
        reached.lot = row.lot;
        reached.depth = row.asked != 0 ? 0 : 1;
        reached.certain = row.certain != 0;
        out.lots.push_back(reached);
    }
    for (const auto& row : ledger.rows().recall_deliveries(recall.seq)) {
        trace::Delivery d;
        d.partner = row.partner;
        d.way = row.way;
        d.printed_code = row.printed_code;
        d.lot_code = row.lots;
        d.item_name = row.item;
        d.document = row.document;
        d.pieces = row.pieces;
        d.mass_mg = row.mass_mg;
        d.returned_pieces = row.returned_pieces;
        d.returned_mg = row.returned_mg;
        d.first = row.first;
        d.last = row.last;
        d.certain = row.certain != 0;
        out.deliveries.push_back(std::move(d));
    }
    return out;
}

std::vector<std::string> to_hold(fold::Ledger& ledger, const RecallScope& scope, const std::set<trace::LotId>& left_out) {
    std::vector<std::string> codes;
    for (const auto& one : scope.reach.lots) {
        if (left_out.contains(one.lot)) continue;
        const auto lot = ledger.rows().lot(one.lot);
        if (lot && fold::is_here(ledger.rows(), *lot)) codes.push_back(lot->code);
    }
    return codes;
}

std::string delivery_text(const trace::Delivery& d) {
    const std::string what = d.printed_code.empty() ? d.lot_code : "printed code " + d.printed_code + " (" + d.lot_code + ")";
    const std::string amount = d.pieces != 0 ? std::to_string(d.pieces) + " pieces" : mass_text(d.mass_mg);
    std::string text = (d.partner.empty() ? d.way : d.partner) + ": " + amount + " of " + what;
    if (d.returned_pieces != 0 || d.returned_mg != 0) {
        text += ", back " + (d.returned_pieces != 0 ? std::to_string(d.returned_pieces) + " pieces" : mass_text(d.returned_mg));
    }
    return text + (d.certain ? "" : ", possible");
}

}  // namespace peelbook::site
