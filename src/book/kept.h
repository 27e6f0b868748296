#pragma once
// Rows that are looked up again and again while entries are recorded one after the other: a lot's at every entry that touches it, a
// flour's at every use. They stand here as they stand in the tables, for the connection that read or wrote them:
//   - they serve only while a Work stands, whose begin() found that no other connection has written (PRAGMA data_version), and
//     forgot them all if one had;
//   - each function of Derived that writes such a table sets what is kept, or forgets it;
//   - a Work that is not committed leaves nothing behind.
// Measured on the example's weeks: without it two thirds of the statements of an entry read what the entry before had read.
#include <algorithm>
#include <optional>
#include <string>
#include <tuple>
#include <unordered_map>
#include <vector>

#include "book/rows.h"
#include "record/entry.h"

namespace peelbook::book {

template <class Key, class Value>
class Kept {
  public:
    Value* find(const Key& key) {
        const auto found = values_.find(key);
        return found == values_.end() ? nullptr : &found->second;
    }
    Value& set(const Key& key, Value value) {
        constexpr std::size_t most = 10'000;  // a rebuild walks through a whole book
        if (values_.size() >= most) values_.clear();
        return values_.insert_or_assign(key, std::move(value)).first->second;
    }
    void forget(const Key& key) { values_.erase(key); }
    void forget_all() { values_.clear(); }

  private:
    std::unordered_map<Key, Value> values_;
};

template <class Key, class Row>
using KeptRow = Kept<Key, std::optional<Row>>;
template <class Key, class Row>
using KeptRows = Kept<Key, std::vector<Row>>;  // in the order of the look-up

struct LastEntry {
    Seq seq = 0;  // 0: the book is empty
    record::Hash hash = record::no_hash;
};

struct Keeping {
    bool serves = false;  // a Work stands
    Int version = -1;     // of the data, as the last begin() found it

    LastEntry last;  // seq 0: not looked up

    KeptRow<Seq, Fact> fact;
    KeptRows<std::string, Touch> touches_of_lot;  // by subject
    KeptRow<std::string, Person> person;
    KeptRow<LotId, Lot> lot;
    KeptRow<std::string, LotId> lot_of_code;
    KeptRows<LotId, Use> uses_into, uses_from;
    KeptRows<LotId, Move> moves;
    KeptRows<LotId, StockCount> counts;
    KeptRow<LotId, Stock> stock;
    KeptRows<LotId, Reading> readings;
    KeptRows<LotId, Finding> findings;
    KeptRows<LotId, LotAllergen> allergens;
    KeptRows<LotId, Run> runs;
    KeptRows<LotId, CarryOver> carry_over;
    KeptRows<std::string, InstrumentSpan> spans;
    KeptRows<std::string, Owed> owed;  // by kind and subject

    // A Work begins; true: another connection has written since the last one began.
    bool begin(Int data_version) {
        const bool others = data_version != version;
        if (others) *this = {};
        version = data_version;
        serves = true;
        return others;
    }
    // `serves` goes with it: what follows is read from the tables until the next begin().
    void forget_all() {
        const Int seen = version;
        *this = {};
        version = seen;
    }

    // What is kept, else what `read` finds.
    template <class Key, class Value, class Read>
    Value look_up(Kept<Key, Value>& kept, const Key& key, const Read& read) {
        if (!serves) return read();
        if (const Value* found = kept.find(key)) return *found;
        return kept.set(key, read());
    }
};

// The orders of the look-ups.
inline auto order_of_use_into(const Use& u) { return std::tie(u.happened, u.seq, u.from_lot); }
inline auto order_of_use_from(const Use& u) { return std::tie(u.happened, u.seq, u.into_lot); }
inline auto order_of_finding(const Finding& f) { return std::tie(f.happened, f.anchor, f.point, f.ord); }
inline auto order_of_touch(const Touch& t) { return std::tie(t.happened, t.seq); }
template <class Row>
auto order_by_time(const Row& row) {
    return std::tie(row.happened, row.seq);
}
inline auto order_of_reading(const Reading& r) { return std::tie(r.happened, r.seq, r.row); }

template <class Row, class Order>
std::vector<Row> in_order(std::vector<Row> rows, const Order& order) {
    std::stable_sort(rows.begin(), rows.end(), [&](const Row& a, const Row& b) { return order(a) < order(b); });
    return rows;
}
template <class Row, class Order>
void insert_in_order(std::vector<Row>& rows, const Row& row, const Order& order) {
    rows.insert(std::upper_bound(rows.begin(), rows.end(), row, [&](const Row& a, const Row& b) { return order(a) < order(b); }), row);
}

}  // namespace peelbook::book
