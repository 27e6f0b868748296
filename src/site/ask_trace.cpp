// Trace questions: the start lots that a word names, the part of the graph behind or before them, and what is read off it.
#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <unordered_map>
#include <unordered_set>

#include "base/text.h"
#include "judge/judge.h"
#include "site/admit.h"
#include "site/impl.h"
#include "site/trace_answer.h"

namespace peelbook::site {
namespace {

bool within(const TraceWindow& window, book::Int at) {
    return (!window.from || at >= window.from->ms) && (!window.until || at <= window.until->ms);
}

// What a vessel held, and the lots of a supply.
std::vector<book::Lot> lots_of_source(Ledger& ledger, const std::string& word) {
    const auto governing = ledger.plan_at({for_ever});
    if (governing.plan->vessel(word)) return ledger.rows().blends_of(word);
    const auto* material = governing.plan->material(word);
    if (material && material->supply) return ledger.rows().lots_of_item(word);
    return {};
}

class Answer {
  public:
    explicit Answer(Ledger& ledger) : ledger_(ledger), rows_(ledger.rows()), plan_(ledger.plan_at({for_ever})) {}

    TraceAnswer make(std::vector<book::Lot> start, bool forward, const TraceWindow& window);

  private:
    trace::Lot lot(const book::Lot& l);
    std::vector<book::LotId> reach_from(TraceAnswer& out, const TraceWindow& window);
    void load(TraceAnswer& out, book::Derived::Traced& traced);
    void add_outside_packaging(TraceAnswer& out, const book::Derived::Traced& traced);
    void set_apart(TraceAnswer& out, const TraceWindow& window);
    std::vector<trace::LotId> add_same_code(TraceAnswer& out);
    void add_customers(TraceAnswer& out, const book::Derived::Traced& traced);
    void add_balances(TraceAnswer& out, const book::Derived::Traced& traced);
    void add_possible(TraceAnswer& out);
    void tell_ended(TraceAnswer& out, const std::vector<book::Derived::Traced::Use>& ended);

    struct Item {
        std::string name;
        bool packaging = false;
    };
    const Item& item(const std::string& id);

    Ledger& ledger_;
    book::Derived& rows_;
    GoverningPlan plan_;
    std::unordered_map<std::string, Item> items_;
};

const Answer::Item& Answer::item(const std::string& id) {
    const auto [at, fresh] = items_.try_emplace(id);
    if (fresh) {
        const auto* material = plan_.plan->material(id);
        at->second = {plan_.plan->name_of(id), material && material->packaging};
    }
    return at->second;
}

trace::Lot Answer::lot(const book::Lot& l) {
    const Item& what = item(l.item);
    trace::Lot out;
    out.id = l.id;
    out.code = l.code;
    out.kind = l.kind;
    out.item = l.item;
    out.name = what.name;
    out.happened = l.happened;
    out.made_mg = l.made_mg;
    out.made_pieces = l.made_pieces;
    out.packaging = what.packaging;
    out.printed_code = l.printed_code;
    out.label = l.label;
    out.supplier = l.partner;
    out.supplier_lot = l.supplier_lot;
    out.vessel = l.vessel;
    return out;
}

trace::Use as_traced(const book::Derived::Traced::Use& u) {
    return {u.into_lot, u.from_lot, u.seq, u.mass_mg, u.pieces, u.sure, u.happened, u.largest_mg};
}

void Answer::load(TraceAnswer& out, book::Derived::Traced& traced) {
    out.graph.lots.reserve(traced.lots.size() + out.start.size());
    for (auto& l : traced.lots) {
        const Item& what = item(l.item);
        trace::Lot& one = out.graph.lots.emplace_back();
        one.id = l.id;
        one.code = std::move(l.code);
        one.kind = l.kind;
        one.item = std::move(l.item);
        one.name = what.name;
        one.happened = l.happened;
        one.made_mg = l.made_mg;
        one.made_pieces = l.made_pieces;
        one.on_hand_mg = l.stock.on_hand_mg;
        one.on_hand_pieces = l.stock.on_hand_pieces;
        one.held = l.held;
        one.packaging = what.packaging;
        one.printed_code = std::move(l.printed_code);
        one.label = std::move(l.label);
        one.supplier = std::move(l.partner);
        one.supplier_lot = std::move(l.supplier_lot);
        one.vessel = std::move(l.vessel);
    }
    out.graph.uses.reserve(traced.uses.size());
    for (const auto& u : traced.uses) out.graph.uses.push_back(as_traced(u));
}

// Packaging never enters shares, also where it comes from outside the reach. Nothing else is asked of the lots there.
void Answer::add_outside_packaging(TraceAnswer& out, const book::Derived::Traced& traced) {
    std::unordered_set<book::LotId> seen;
    for (const auto& l : traced.lots) seen.insert(l.id);
    for (const auto& u : traced.uses) {
        if (!seen.insert(u.from_lot).second) continue;
        const auto outside = rows_.lot(u.from_lot);
        if (outside && item(outside->item).packaging) out.graph.lots.push_back(lot(*outside));
    }
}

// Where the reach begins: the lots asked for or, in a window, what took from them in that time.
std::vector<book::LotId> Answer::reach_from(TraceAnswer& out, const TraceWindow& window) {
    std::vector<book::LotId> ids;
    for (const auto& l : out.start) ids.push_back(l.id);
    if (!window.from && !window.until) return ids;
    const std::set<book::LotId> asked(ids.begin(), ids.end());
    std::set<book::LotId> took, gave;
    for (const auto id : ids) {
        for (const auto& use : rows_.uses_from(id)) {
            if (!within(window, use.happened) || asked.contains(use.into_lot)) continue;
            took.insert(use.into_lot);
            gave.insert(id);
        }
    }
    std::erase_if(out.start, [&](const auto& l) { return !gave.contains(l.id); });
    return {took.begin(), took.end()};
}

// In a window, what left the lots at other times is not traced: it counts in the shares as of another lot of the same code.
void Answer::set_apart(TraceAnswer& out, const TraceWindow& window) {
    if (!window.from && !window.until) return;
    std::set<trace::LotId> asked, apart;
    for (const auto& l : out.start) asked.insert(l.id);
    for (auto& use : out.graph.uses) {
        if (!asked.contains(use.from) || within(window, use.happened)) continue;
        apart.insert(use.from);
        use.from = -use.from;
    }
    for (const auto& l : out.start) {
        out.graph.lots.push_back(lot(l));
        if (!apart.contains(l.id)) continue;
        out.graph.lots.push_back(lot(l));
        out.graph.lots.back().id = -l.id;
    }
}

// A printed code is the unit of a recall: packs that share one with a reached pack cannot be told apart at a customer's, and
// come in as possible.
std::vector<trace::LotId> Answer::add_same_code(TraceAnswer& out) {
    std::unordered_set<trace::LotId> reached;
    std::set<std::string> printed;
    for (const auto& one : out.reached) reached.insert(one.lot);
    for (const auto& l : out.graph.lots) {
        if (!l.printed_code.empty() && reached.contains(l.id)) printed.insert(l.printed_code);
    }
    std::vector<trace::LotId> added;
    for (const auto& code : printed) {
        std::vector<std::string> others;
        for (const auto id : rows_.ids_with_printed_code(code)) {
            if (reached.contains(id)) continue;
            out.graph.lots.push_back(lot(*rows_.lot(id)));
            others.push_back(out.graph.lots.back().code);
            added.push_back(id);
        }
        if (!others.empty()) {
            out.notes.push_back("printed code " + code + " is also on " + joined(others, ", ") + ": a customer cannot tell them apart");
        }
    }
    return added;
}

void Answer::add_customers(TraceAnswer& out, const book::Derived::Traced& traced) {
    std::unordered_map<std::string, std::string> names;
    for (const auto& partner : rows_.partners()) names[partner.code] = partner.name;
    std::vector<trace::Move> moves;
    moves.reserve(traced.moves.size());
    const auto add = [&](const book::Move& m) {
        if (m.of_returned != 0) return;
        moves.push_back({m.lot, m.seq, m.way, m.partner, names[m.partner], m.document, m.mass_mg, m.pieces, m.happened, m.sure != 0});
    };
    for (const auto& m : traced.moves) add(m);
    if (out.forward) {
        for (const auto id : add_same_code(out)) {
            for (const auto& m : rows_.moves(id)) add(m);
        }
    }
    out.customers = trace::deliveries(out.reached, out.graph, moves);
}

// The sums are those that stand in the book; only the ways out are told apart.
trace::Balance balance_of(const book::Stock& s) {
    trace::Balance b;
    b.lot = s.lot;
    b.made_mg = s.made_mg;
    b.used_mg = s.used_mg;
    b.on_hand_mg = s.on_hand_mg;
    b.gap_mg = s.gap_mg;
    b.made_pieces = s.made_pieces.value_or(0);
    b.used_pieces = s.used_pieces;
    b.on_hand_pieces = s.on_hand_pieces;
    b.gap_pieces = s.gap_pieces;
    return b;
}

void add_way(const book::Move& m, trace::Balance& b) {
    if (m.of_returned != 0) return;
    if (m.way == "returned") {
        b.returned_mg += m.mass_mg.value_or(0);
        b.returned_pieces += m.pieces.value_or(0);
        return;
    }
    if (m.mass_mg) b.out_mg[m.way] += *m.mass_mg;
    if (m.pieces) b.out_pieces[m.way] += *m.pieces;
}

void Answer::add_balances(TraceAnswer& out, const book::Derived::Traced& traced) {
    std::unordered_map<trace::LotId, std::size_t> place;
    auto move = traced.moves.begin();
    std::vector<trace::Balance> all;
    all.reserve(traced.lots.size());
    for (std::size_t i = 0; i < traced.lots.size(); ++i) {
        const auto& l = traced.lots[i];
        all.push_back(balance_of(l.stock));
        all.back().lot = l.id;
        for (; move != traced.moves.end() && move->lot == l.id; ++move) add_way(*move, all.back());
        if (l.kind != "supply") place[l.id] = i;
    }
    std::unordered_set<trace::LotId> asked;
    const auto add = [&](trace::LotId id) {
        const auto found = place.find(id);
        if (found != place.end() && asked.insert(id).second) out.balances.push_back(std::move(all[found->second]));
    };
    for (const auto& l : out.start) add(l.id);
    for (const auto& reached : out.reached) add(reached.lot);
}

// A forgotten use shortens a recall: batches with a missing use of what was asked for, made while the lot was in house.
void Answer::add_possible(TraceAnswer& out) {
    std::unordered_set<trace::LotId> reached;
    std::unordered_map<trace::LotId, book::Int> last;
    for (const auto& one : out.reached) reached.insert(one.lot);
    for (const auto& use : out.graph.uses) last[use.from] = std::max(last[use.from], use.happened);
    const auto open = rows_.open_findings();
    for (const auto& suspect : out.start) {
        book::Int gone = std::max(suspect.happened, last[suspect.id]);
        for (const auto& move : rows_.moves(suspect.id)) gone = std::max(gone, move.happened);
        const auto stock = rows_.stock(suspect.id);
        if (!stock || stock->on_hand_mg > 0) gone = for_ever;
        for (const auto& f : open) {
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

// What a decision cut off is not in the answer, so the answer says who decided it and why.
void Answer::tell_ended(TraceAnswer& out, const std::vector<book::Derived::Traced::Use>& ended) {
    for (const auto& use : ended) {
        const auto decision = ledger_.effective(*use.ended_by);
        const auto from = rows_.lot(use.from_lot), into = rows_.lot(use.into_lot);
        const auto* says = std::get_if<record::CultureRenewed>(&decision.says);
        if (!says || !from || !into) continue;
        out.notes.push_back("not traced through " + from->code + " into " + into->code + ": a new culture from there on by decision of " +
                            decision.by + ", entry " + std::to_string(decision.seq) + ": " + says->why);
    }
}

TraceAnswer Answer::make(std::vector<book::Lot> start, bool forward, const TraceWindow& window) {
    std::optional<book::Book::Work> look;  // one state of the book, whoever writes meanwhile
    if (!ledger_.book.is_working()) look.emplace(ledger_.book.look());
    TraceAnswer out;
    out.forward = forward;
    out.start = std::move(start);
    auto traced = rows_.traced(reach_from(out, window), forward);
    std::vector<book::LotId> ids;
    for (const auto& l : out.start) ids.push_back(l.id);
    load(out, traced);
    add_outside_packaging(out, traced);
    set_apart(out, window);
    out.reached = forward ? trace::forward(out.graph, ids) : trace::back(out.graph, ids);
    add_customers(out, traced);
    add_balances(out, traced);
    if (forward) add_possible(out);
    tell_ended(out, traced.ended);
    return out;
}

}  // namespace

Result<std::vector<book::Lot>> named_lots(Ledger& ledger, const std::string& word, const std::string& material) {
    auto& rows = ledger.rows();
    std::vector<book::Lot> found;
    if (auto lot = rows.lot(word)) found.push_back(*lot);
    if (found.empty()) found = rows.lots_with_printed_code(word);
    if (found.empty()) found = lots_of_source(ledger, word);
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

TraceAnswer answer_of(Ledger& ledger, std::vector<book::Lot> start, bool forward, const TraceWindow& window) {
    return Answer(ledger).make(std::move(start), forward, window);
}

Result<TraceAnswer> Site::trace_forward(const std::string& lot, const std::string& material, const TraceWindow& window) const {
    auto start = named_lots(impl_->ledger, lot, material);
    if (!start) return start.refusal();
    return answer_of(impl_->ledger, std::move(*start), true, window);
}

Result<TraceAnswer> Site::trace_back(const std::string& lot) const {
    auto start = named_lots(impl_->ledger, lot, "");
    if (!start) return start.refusal();
    return answer_of(impl_->ledger, std::move(*start), false);
}

}  // namespace peelbook::site
