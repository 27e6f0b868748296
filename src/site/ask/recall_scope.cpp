#include "site/ask/recall_scope.h"

#include <algorithm>
#include <unordered_set>

#include "base/measure.h"
#include "base/text.h"
#include "fold/standing.h"
#include "site/record/holds.h"

namespace peelbook::site {
namespace {

void add_notes(std::vector<std::string>& to, const std::vector<std::string>& more) {
    for (const auto& note : more) {
        if (std::find(to.begin(), to.end(), note) == to.end()) to.push_back(note);
    }
}

// Traces put together: what the first one reaches, and as possible what the others do.
class Gathering {
  public:
    explicit Gathering(RecallScope& scope) : scope_(scope) {}

    void take(TraceAnswer& answer, bool possible) {
        add_notes(scope_.notes, answer.notes);
        for (auto& reached : answer.reached) {
            if (!reached_.insert(reached.lot).second) continue;
            if (possible) {
                const auto id = reached.lot;
                reached = {};
                reached.lot = id;
                reached.depth = 1;
            }
            scope_.reach.lots.push_back(reached);
        }
        for (auto& lot : answer.graph.lots) {
            if (lot.id > 0 && known_.insert(lot.id).second) scope_.graph.lots.push_back(std::move(lot));
        }
        auto& uses = scope_.graph.uses;
        uses.insert(uses.end(), answer.graph.uses.begin(), answer.graph.uses.end());
    }

  private:
    RecallScope& scope_;
    std::unordered_set<trace::LotId> reached_, known_;
};

// The letters and digits of a code, in upper case: "w-4471" and "W 4471" are one.
std::string plain(const std::string& code) {
    std::string out;
    for (const char c : uppered(code)) {
        if ((c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9')) out.push_back(c);
    }
    return out;
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

RecallScope recall_scope(fold::Ledger& ledger, const RecallBegins& begins, const LeftOut& left_out) {
    RecallScope scope;
    Gathering all(scope);
    auto answer = answer_of(ledger, begins.lots, true, begins.window, left_out);
    all.take(answer, false);
    std::vector<book::Lot> suspects;
    while (!answer.possible.empty()) {  // a batch with a missing use is as suspect as the lot that may be in it
        for (auto& batch : answer.possible) suspects.push_back(std::move(batch));
        answer = answer_of(ledger, suspects, true, {}, left_out);
        all.take(answer, true);
    }
    take_stock(ledger, scope);
    add_same_code(scope);
    add_moves(ledger, scope);
    return scope;
}

RecallScope recall_scope(fold::Ledger& ledger, const book::Recall& recall) {
    return recall_scope(ledger, begins_of(ledger, recall), left_out_of(ledger, recall));
}

RecallBegins begins_of(fold::Ledger& ledger, const book::Recall& recall) {
    RecallBegins begins;
    for (const auto& row : ledger.rows().recall_asked(recall.seq)) {
        if (auto lot = ledger.rows().lot(row.lot)) begins.lots.push_back(*lot);
    }
    if (recall.taken == 0) return begins;
    if (recall.from_ms) begins.window.from = Instant{*recall.from_ms};
    if (recall.until_ms) begins.window.until = Instant{*recall.until_ms};
    return begins;
}

LeftOut left_out_of(fold::Ledger& ledger, const book::Recall& recall) {
    LeftOut out;
    for (const auto& one : ledger.rows().recall_outs(recall.seq)) {
        if (!one.ended_by) out.emplace(one.lot, one.seq);
    }
    return out;
}

bool same_suppliers_lot(const book::Lot& a, const book::Lot& b) {
    return a.kind == LotKind::received && b.kind == LotKind::received && a.item == b.item && a.partner == b.partner &&
           !plain(a.supplier_lot).empty() && plain(a.supplier_lot) == plain(b.supplier_lot);
}

bool in_its_time(const book::Recall& recall, book::Int at) {
    return (!recall.from_ms || at >= *recall.from_ms) && (!recall.until_ms || at <= *recall.until_ms);
}

bool begins_with(const book::Recall& recall, const std::vector<book::Lot>& asked, const book::Lot& lot, bool is_supply) {
    if (std::any_of(asked.begin(), asked.end(), [&](const auto& one) { return same_suppliers_lot(one, lot); })) return true;
    if (!recall.vessel.empty() && lot.kind == LotKind::blend && lot.vessel == recall.vessel) return true;
    for (const auto& word : split(recall.words, '\n')) {
        if (word.empty() || (!recall.material.empty() && lot.item != recall.material)) continue;
        if (word == lot.printed_code || word == lot.supplier_lot || word == lot.partner + ":" + lot.supplier_lot) return true;
        if ((lot.kind == LotKind::blend && word == lot.vessel) || (is_supply && word == lot.item)) return true;
    }
    if (!recall.words.empty() || (recall.material.empty() && recall.supplier.empty()) || lot.kind == LotKind::blend) return false;
    return (recall.material.empty() || recall.material == lot.item) && (recall.supplier.empty() || recall.supplier == lot.partner) &&
           (recall.taken != 0 || in_its_time(recall, lot.happened));
}

trace::Snapshot snapshot_of(fold::Ledger& ledger, const book::Recall& recall) {
    trace::Snapshot out;
    for (const auto& row : ledger.rows().recall_lots(recall.seq)) {
        if (row.since != recall.seq) continue;
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
