// The part of the lot graph behind or before what was asked for, and what is read off it.
#include "site/ask/trace_answer.h"

#include <algorithm>
#include <map>
#include <set>
#include <unordered_map>
#include <unordered_set>

#include "base/text.h"
#include "judge/judge.h"

namespace peelbook::site {
namespace {

bool within(const TraceWindow& window, book::Int at) {
    return (!window.from || at >= window.from->ms) && (!window.until || at <= window.until->ms);
}

using LotIds = std::vector<book::LotId>;
using Stocks = std::vector<book::Derived::TracedStock>;

// Where `id` stands in an ascending list; its size when it is not in it.
std::size_t place_of(const LotIds& ids, book::LotId id) {
    const auto found = std::lower_bound(ids.begin(), ids.end(), id);
    return static_cast<std::size_t>((found != ids.end() && *found == id ? found : ids.end()) - ids.begin());
}

class Answer {
  public:
    explicit Answer(fold::Ledger& ledger) : ledger_(ledger), rows_(ledger.rows()), plan_(ledger.plan_at({fold::for_ever})) {}

    TraceAnswer make(std::vector<book::Lot> start, bool forward, const TraceWindow& window, const LeftOut& left_out);

  private:
    template <class FromBook> trace::Lot lot(const FromBook& l);
    LotIds reach_from(TraceAnswer& out, const TraceWindow& window);
    LotIds load_lots(TraceAnswer& out, const LotIds& reach);
    std::vector<book::Derived::TracedUse> load_uses(TraceAnswer& out, const LotIds& reach);
    void add_outside_packaging(TraceAnswer& out, const LotIds& ids);
    void set_apart(TraceAnswer& out, const TraceWindow& window);
    LotIds add_same_code(TraceAnswer& out, const LotIds& ids);
    Stocks stock_of(const LotIds& ids);
    std::vector<std::int32_t> add_balances(TraceAnswer& out, const LotIds& ids, const Stocks& stocks);
    void add_moves(TraceAnswer& out, const LotIds& ids, const std::vector<std::int32_t>& balances);
    void add_possible(TraceAnswer& out);
    void tell_ended(TraceAnswer& out, const std::vector<book::Derived::TracedUse>& ended);

    struct Item {
        std::string name;
        bool packaging = false;
    };
    const Item& item(std::string_view id);

    fold::Ledger& ledger_;
    book::Derived& rows_;
    fold::GoverningPlan plan_;
    std::map<std::string, Item, std::less<>> items_;
};

const Answer::Item& Answer::item(std::string_view id) {
    const auto known = items_.find(id);
    if (known != items_.end()) return known->second;
    const std::string word(id);
    const auto* material = plan_.plan->material(word);
    return items_.emplace(word, Item{plan_.plan->name_of(word), material && material->packaging}).first->second;
}

template <class FromBook> trace::Lot Answer::lot(const FromBook& l) {
    const Item& what = item(l.item);
    trace::Lot out = traced(l, what.name);
    out.packaging = what.packaging;
    return out;
}

// Returns the lots read, which stand first in the graph, in this order.
LotIds Answer::load_lots(TraceAnswer& out, const LotIds& reach) {
    LotIds ids;
    ids.reserve(reach.size());
    out.graph.lots.reserve(reach.size() + 2 * out.start.size());
    rows_.each_lot(reach, [&](const book::Derived::TracedLot& l) {
        out.graph.lots.push_back(lot(l));
        out.graph.lots.back().held = l.held;
        ids.push_back(l.id);
    });
    return ids;
}

// Returns those through which a decision ended the trace.
std::vector<book::Derived::TracedUse> Answer::load_uses(TraceAnswer& out, const LotIds& reach) {
    constexpr std::size_t uses_a_lot = 8;  // room at once: what stays empty costs nothing, moving what is read does
    out.graph.uses.reserve(uses_a_lot * reach.size());
    std::vector<book::Derived::TracedUse> ended;
    rows_.each_use_into(reach, [&](const book::Derived::TracedUse& u) {
        if (u.ended_by) {
            ended.push_back(u);
        } else {
            out.graph.uses.push_back({u.into_lot, u.from_lot, u.seq, u.mass_mg, u.pieces, u.sure, u.happened, u.largest_mg});
        }
    });
    return out.forward ? rows_.ended_after(reach) : ended;
}

// Packaging never enters shares, also where it comes from outside the reach. Nothing else is asked of the lots there.
void Answer::add_outside_packaging(TraceAnswer& out, const LotIds& ids) {
    std::unordered_set<book::LotId> seen;
    for (const auto& u : out.graph.uses) {
        if (seen.contains(u.from) || place_of(ids, u.from) != ids.size()) continue;
        seen.insert(u.from);
        const auto outside = rows_.lot(u.from);
        if (outside && item(outside->item).packaging) out.graph.lots.push_back(lot(*outside));
    }
}

// Where the reach begins: the lots asked for or, in a window, what took from them in that time.
LotIds Answer::reach_from(TraceAnswer& out, const TraceWindow& window) {
    LotIds ids;
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
LotIds Answer::add_same_code(TraceAnswer& out, const LotIds& ids) {
    std::vector<bool> reached(ids.size());
    std::set<book::LotId> others_reached;  // asked for, in a window
    for (const auto& one : out.reached) {
        const std::size_t place = place_of(ids, one.lot);
        if (place < ids.size()) {
            reached[place] = true;
        } else {
            others_reached.insert(one.lot);
        }
    }
    const auto is_reached = [&](book::LotId id) {
        const std::size_t place = place_of(ids, id);
        return place < ids.size() ? reached[place] : others_reached.contains(id);
    };
    std::map<std::string, book::Int> bearers;  // reached lots with a printed code
    std::set<book::LotId> counted;             // of those that do not stand in `ids`: they may be in the graph twice
    for (std::size_t i = 0; i < out.graph.lots.size(); ++i) {
        const auto& l = out.graph.lots[i];
        if (l.printed_code.empty()) continue;
        if (i < ids.size() ? reached[i] : others_reached.contains(l.id) && counted.insert(l.id).second) ++bearers[l.printed_code];
    }
    LotIds added;
    for (const auto& [code, known] : bearers) {
        if (rows_.count_with_printed_code(code) == known) continue;  // nobody else bears it
        std::vector<std::string> others;
        for (const auto id : rows_.ids_with_printed_code(code)) {
            if (is_reached(id)) continue;
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

// By place in `ids`; all 0 where none is kept (a supply).
Stocks Answer::stock_of(const LotIds& ids) {
    Stocks stocks(ids.size());
    rows_.each_stock(ids, [&](const book::Derived::TracedStock& s, std::size_t place) { stocks[place] = s; });
    return stocks;
}

constexpr std::int32_t no_balance = -1;

// Of the lots asked for, then of every reached one but supplies. The sums are those that stand in the book; only the ways out are told
// apart, when the moves are read. Returns which balance is whose, by place in `ids`.
std::vector<std::int32_t> Answer::add_balances(TraceAnswer& out, const LotIds& ids, const Stocks& stocks) {
    std::vector<std::int32_t> balances(ids.size(), no_balance);
    const auto add = [&](trace::LotId id) {
        const std::size_t place = place_of(ids, id);
        if (place == ids.size() || balances[place] != no_balance || out.graph.lots[place].kind == LotKind::supply) return;
        balances[place] = static_cast<std::int32_t>(out.balances.size());
        const auto& [mg, pieces] = stocks[place];
        trace::Balance& b = out.balances.emplace_back();
        b.lot = id;
        b.made_mg = mg.made;
        b.used_mg = mg.used;
        b.on_hand_mg = mg.on_hand;
        b.gap_mg = mg.gap;
        b.made_pieces = pieces.made;
        b.used_pieces = pieces.used;
        b.on_hand_pieces = pieces.on_hand;
        b.gap_pieces = pieces.gap;
    };
    out.balances.reserve(ids.size());
    for (const auto& l : out.start) add(l.id);
    for (const auto& reached : out.reached) add(reached.lot);
    for (std::size_t i = 0; i < ids.size(); ++i) {
        out.graph.lots[i].on_hand_mg = stocks[i].mg.on_hand;
        out.graph.lots[i].on_hand_pieces = stocks[i].pieces.on_hand;
    }
    return balances;
}

// The ways out of the reached lots, for balances and customers, and of those that a customer cannot tell from them.
void Answer::add_moves(TraceAnswer& out, const LotIds& ids, const std::vector<std::int32_t>& balances) {
    LotIds same_code = out.forward ? add_same_code(out, ids) : LotIds{};
    std::sort(same_code.begin(), same_code.end());
    trace::Deliveries customers(out.reached, out.graph);
    trace::Move move;
    const auto take = [&](const book::Derived::TracedMove& m) {
        move.lot = m.lot;
        move.seq = m.seq;
        move.way = m.way;
        move.partner = m.partner;
        move.document = m.document;
        move.mass_mg = m.mass_mg;
        move.pieces = m.pieces;
        move.happened = m.happened;
        move.sure = m.sure;
        move.left_by = m.left_by;
        customers.add(move);
    };
    rows_.each_move(ids, [&](const book::Derived::TracedMove& m, std::size_t place) {
        if (m.of_returned) return;
        take(m);
        if (balances[place] != no_balance) out.balances[static_cast<std::size_t>(balances[place])].add(move);
    });
    rows_.each_move(same_code, [&](const book::Derived::TracedMove& m, std::size_t) {
        if (!m.of_returned) take(m);
    });
    out.customers = customers.all();
    std::map<std::string, std::string> names;
    for (const auto& partner : rows_.partners()) names[partner.code] = partner.name;
    for (auto& customer : out.customers) customer.partner_name = names[customer.partner];
}

// A forgotten use shortens a recall: batches with a missing use of what was asked for, made while the lot was in house.
void Answer::add_possible(TraceAnswer& out) {
    auto missing = rows_.open_findings();
    std::erase_if(missing, [](const auto& f) { return f.point != judge::missing_use_point || !f.lot; });
    if (missing.empty()) return;
    std::unordered_set<trace::LotId> reached;
    std::unordered_map<trace::LotId, book::Int> last;
    for (const auto& one : out.reached) reached.insert(one.lot);
    for (const auto& use : out.graph.uses) last[use.from] = std::max(last[use.from], use.happened);
    for (const auto& suspect : out.start) {
        book::Int gone = std::max(suspect.happened, last[suspect.id]);
        for (const auto& move : rows_.moves(suspect.id)) gone = std::max(gone, move.happened);
        const auto stock = rows_.stock(suspect.id);
        if (!stock || stock->on_hand_mg > 0) gone = fold::for_ever;
        for (const auto& f : missing) {
            if (f.unit != suspect.item || reached.contains(*f.lot)) continue;
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
void Answer::tell_ended(TraceAnswer& out, const std::vector<book::Derived::TracedUse>& ended) {
    for (const auto& use : ended) {
        const auto decision = ledger_.effective(*use.ended_by);
        const auto from = rows_.lot(use.from_lot), into = rows_.lot(use.into_lot);
        const auto* says = std::get_if<record::CultureRenewed>(&decision.says);
        if (!says || !from || !into) continue;
        out.notes.push_back("not traced through " + from->code + " into " + into->code + ": a new culture from there on by decision of " +
                            decision.by + ", entry " + std::to_string(decision.seq) + ": " + says->why);
    }
}

TraceAnswer Answer::make(std::vector<book::Lot> start, bool forward, const TraceWindow& window, const LeftOut& left_out) {
    std::optional<book::Book::Work> snapshot;  // one state of the book, whoever writes meanwhile
    if (!ledger_.book.is_working()) snapshot.emplace(ledger_.book.snapshot());
    TraceAnswer out;
    out.forward = forward;
    out.carry_over_ppm = plan_.plan->site.carry_over_ppm;
    out.start = std::move(start);
    const LotIds reach = rows_.reached_from(reach_from(out, window), forward);
    const LotIds ids = load_lots(out, reach);
    const auto ended = load_uses(out, reach);
    std::erase_if(out.graph.uses, [&](const auto& use) {
        const auto out_since = left_out.find(use.from);
        return out_since != left_out.end() && use.seq > out_since->second;
    });
    add_outside_packaging(out, ids);
    set_apart(out, window);
    LotIds start_ids;
    for (const auto& l : out.start) start_ids.push_back(l.id);
    out.reached = forward ? trace::forward(out.graph, start_ids) : trace::back(out.graph, start_ids);
    add_moves(out, ids, add_balances(out, ids, stock_of(ids)));
    if (forward) add_possible(out);
    tell_ended(out, ended);
    return out;
}

}  // namespace

TraceAnswer answer_of(fold::Ledger& ledger, std::vector<book::Lot> start, bool forward, const TraceWindow& window,
                      const LeftOut& left_out) {
    return Answer(ledger).make(std::move(start), forward, window, left_out);
}

}  // namespace peelbook::site
