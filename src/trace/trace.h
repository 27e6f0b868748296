#pragma once
// The lot graph and what a recall asks of it. Plain values: the caller loads the part of the graph that matters.
//
// shares: share(into) = sum over its uses of mass x share(from) / sum of mass, water included (mass fraction of inputs). A use
// without a mass counts for reach and makes the share unknown from there on.
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/lot_kind.h"
#include "base/way.h"

namespace peelbook::trace {

using LotId = std::int64_t;

struct Lot {
    LotId id = 0;
    std::string code;
    LotKind kind = LotKind::received;
    std::string item, name;  // name of the item in words
    std::int64_t happened = 0;
    std::optional<std::int64_t> made_mg, made_pieces;
    std::int64_t on_hand_mg = 0, on_hand_pieces = 0;
    bool held = false;
    bool packaging = false;  // never enters shares
    std::string printed_code, label, supplier, supplier_lot, vessel;
};

struct Use {
    LotId into = 0, from = 0;
    std::int64_t seq = 0;
    std::optional<std::int64_t> mass_mg, pieces;
    bool sure = true;
    std::int64_t happened = 0;
    // Of a use that is part of a weighed draw from a vessel (trace/vessel.h): the most that can be of `from`, where mass_mg is
    // what is expected. Absent: mass_mg is the most.
    std::optional<std::int64_t> largest_mg = std::nullopt;
};

struct Move {
    LotId lot = 0;
    std::int64_t seq = 0;
    Way way = Way::customer;
    std::string partner, partner_name, document;
    std::optional<std::int64_t> mass_mg, pieces;
    std::int64_t happened = 0;
    bool sure = true;
    std::optional<Way> left_by = std::nullopt;  // of a return without a partner: the way by which the goods had left
    bool weighed = true;                        // false: the mass is the pieces' share of the lot
};

// Everything that a suspect lot could have reached, or everything behind one.
struct Graph {
    std::vector<Lot> lots;
    std::vector<Use> uses;  // forward: every use into a reached lot, also from lots outside (they count in the sum of mass)
};

struct Reached {
    LotId lot = 0;
    int depth = 0;         // fewest uses from a start lot; 0 = a start lot
    bool certain = false;  // at least one path of sure uses
    bool direct = false;   // a start lot itself was used into it
    // The definitions stand in trace/shares.h. All three are absent for a lot that only packaging reached.
    std::optional<double> share_expected;    // mass fraction of the start lots in its inputs; 1 for a start lot
    std::optional<double> share_largest;     // the most it can be, over made mass where that is known and smaller than the
                                             // inputs; known even where a use has no mass
    std::optional<std::int64_t> suspect_mg;  // expected mass of the start lots in it
    std::optional<double> mg_per_kg;         // the same a kilogram of made mass: what is left after the bake loss
};

// Forward: reached lots in an order in which every lot stands after all it was made from. Cycles cannot be recorded; if the
// graph holds one all the same, throws std::logic_error naming a lot of it.
std::vector<Reached> forward(const Graph& graph, const std::vector<LotId>& start);
// Back: every lot behind the start ones, same order reversed (start first). No shares.
std::vector<Reached> back(const Graph& graph, const std::vector<LotId>& start);

// The path of uses by which `to` came from `from`, for showing a reason; empty when there is none. The shortest of sure uses
// where there is one, else the shortest. {from} when both are the same lot and the graph knows it.
std::vector<LotId> path(const Graph& graph, LotId from, LotId to);
// Would a use of `from` into `into` close a cycle? Then the lots on it, from `into` on to `from`; else empty.
std::vector<LotId> cycle_closed_by(const Graph& graph, LotId into, LotId from);
// A cycle that the graph holds, each lot used into the one after it and the last into the first; empty when there is none.
std::vector<LotId> cycle_in(const Graph& graph);

// What left a lot by one way; absent: that quantity was stated of none of it.
struct WayOut {
    Way way = Way::customer;
    std::optional<std::int64_t> mg, pieces;
};

// The mass balance of one lot: made = used + out + on hand - gap, exact.
struct Balance {
    LotId lot = 0;
    std::int64_t made_mg = 0, used_mg = 0, on_hand_mg = 0, gap_mg = 0, returned_mg = 0;
    std::int64_t made_pieces = 0, used_pieces = 0, on_hand_pieces = 0, gap_pieces = 0, returned_pieces = 0;
    std::vector<WayOut> out;     // in order of the way's word
    void add(const Move& move);  // of this lot; returned goods stand apart
    std::int64_t out_mg() const;
    std::int64_t out_pieces() const;
    bool closes() const;                  // unaccounted is 0 in mg and pieces
    std::int64_t unaccounted_mg() const;  // made - used - out - on hand
    std::int64_t unaccounted_pieces() const;
};
// The gap is what counts found (counted minus computed), summed. Uses and moves of other lots are passed over; an amount
// that was not stated counts as 0. Returned goods stand apart (they are in the way out they left by). A supply lot (water)
// never runs out: as much was made as left.
Balance balance(const Lot& lot, const std::vector<Use>& uses_from, const std::vector<Move>& moves, std::int64_t gap_mg,
                std::int64_t gap_pieces);

// What each customer got, by printed code (the unit a recall names), in order of partner then code. Goods without a printed
// code: by lot code. Ways out without a partner (own shop, van): by way. Waste and samples reach nobody and are left out.
// Several lots, ways or documents of one line are listed with ", " between.
struct Delivery {
    std::string partner, partner_name, way, printed_code, lot_code, item_name, document;
    std::int64_t pieces = 0, mass_mg = 0, returned_pieces = 0, returned_mg = 0;
    std::int64_t first = 0, last = 0;  // instants
    bool certain = true;               // at least one sure move of a lot that was certainly reached
    const std::string& code() const { return printed_code.empty() ? lot_code : printed_code; }  // by which it is spoken of
};
// Lots of the graph that were not reached but bear a reached lot's printed code are in it, as possible: they cannot be told
// apart.
std::vector<Delivery> deliveries(const std::vector<Reached>& reached, const Graph& graph, const std::vector<Move>& moves);

// The same with the moves handed over one by one, so that a plant's shipping lines need not all be kept. `reached` is done with
// when it is made; the graph must outlive it. `all` ends it.
class Deliveries {
  public:
    Deliveries(const std::vector<Reached>& reached, const Graph& graph);
    ~Deliveries();
    void add(const Move& move);
    std::vector<Delivery> all();

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

}  // namespace peelbook::trace
