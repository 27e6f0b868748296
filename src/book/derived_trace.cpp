// Everything that a trace shows, each table read once along the lots that were reached.
#include <algorithm>
#include <unordered_set>

#include "base/words.h"
#include "book/along.h"
#include "book/derived_impl.h"

namespace peelbook::book {
namespace {

Derived::TracedUse use_of(const Along& row, LotId into) {
    Derived::TracedUse use;
    use.into_lot = into;
    use.from_lot = row.number(1);
    use.seq = row.number(2);
    use.mass_mg = row.mostly(3);
    use.pieces = row.rarely(4);
    use.largest_mg = row.rarely(5);
    use.sure = row.number(6) != 0;
    use.ended_by = row.rarely(7);
    use.happened = row.number(8);
    return use;
}

// Lots on hold, in order.
std::vector<LotId> held_among(Sql& sql, const std::vector<LotId>& lots) {
    std::vector<LotId> held;
    Along(sql, "SELECT lot FROM hold WHERE lot >= ?1 AND released_seq IS NULL ORDER BY lot")
        .each(lots, [&](const Along&, std::size_t place) { held.push_back(lots[place]); });
    return held;
}

}  // namespace

std::vector<LotId> Derived::reached_from(const std::vector<LotId>& start, bool forward) const {
    Along onward(impl_->sql, forward ? "SELECT from_lot, into_lot FROM use WHERE from_lot >= ?1 AND ended_by IS NULL ORDER BY from_lot"
                                     : "SELECT into_lot, from_lot FROM use WHERE into_lot >= ?1 AND ended_by IS NULL ORDER BY into_lot");
    std::unordered_set<LotId> seen;  // a lot is reached once however many ways lead to it, and a cycle ends
    std::vector<LotId> reached, front;
    const auto meet = [&](std::vector<LotId>& next, LotId lot) {
        if (seen.insert(lot).second) next.push_back(lot);
    };
    for (const LotId lot : start) meet(front, lot);
    while (!front.empty()) {
        std::sort(front.begin(), front.end());
        reached.insert(reached.end(), front.begin(), front.end());
        std::vector<LotId> next;
        onward.each(front, [&](const Along& row, std::size_t) { meet(next, row.number(1)); });
        front = std::move(next);
    }
    std::sort(reached.begin(), reached.end());
    return reached;
}

void Derived::each_lot(const std::vector<LotId>& lots, const std::function<void(const TracedLot&)>& take) const {
    const std::vector<LotId> held = held_among(impl_->sql, lots);
    Along all(impl_->sql,
              "SELECT id, code, kind, item, vessel, happened, made_mg, made_pieces, partner, supplier_lot, label, printed_code "
              "FROM lot WHERE id >= ?1 ORDER BY id");
    TracedLot lot;
    all.each(lots, [&](const Along& row, std::size_t place) {
        lot.id = lots[place];
        lot.code = row.text(1);
        lot.kind = stored_word<LotKind>(row.text(2));
        lot.item = row.text(3);
        lot.vessel = row.text(4);
        lot.happened = row.number(5);
        lot.made_mg = row.mostly(6);
        lot.made_pieces = row.mostly(7);
        lot.partner = row.text(8);
        lot.supplier_lot = row.text(9);
        lot.label = row.text(10);
        lot.printed_code = row.text(11);
        lot.held = std::binary_search(held.begin(), held.end(), lot.id);
        take(lot);
    });
}

void Derived::each_stock(const std::vector<LotId>& lots, const std::function<void(const TracedStock&, std::size_t)>& take) const {
    Along all(impl_->sql,
              "SELECT lot, made_mg, used_mg, gap_mg, on_hand_mg, made_pieces, used_pieces, gap_pieces, on_hand_pieces FROM stock "
              "WHERE lot >= ?1 ORDER BY lot");
    all.each(lots, [&](const Along& row, std::size_t place) {
        take({{row.number(1), row.number(2), row.number(3), row.number(4)}, {row.number(5), row.number(6), row.number(7), row.number(8)}},
             place);
    });
}

void Derived::each_use_into(const std::vector<LotId>& lots, const std::function<void(const TracedUse&)>& take) const {
    Along all(impl_->sql,
              "SELECT into_lot, from_lot, seq, mass_mg, pieces, largest_mg, sure, ended_by, happened FROM use WHERE into_lot >= ?1 "
              "ORDER BY into_lot, from_lot, seq");
    all.each(lots, [&](const Along& row, std::size_t place) { take(use_of(row, lots[place])); });
}

std::vector<Derived::TracedUse> Derived::ended_after(const std::vector<LotId>& lots) const {
    std::vector<TracedUse> ended;
    Along all(impl_->sql,
              "SELECT from_lot, into_lot, seq, ended_by FROM use WHERE from_lot >= ?1 AND ended_by IS NOT NULL "
              "ORDER BY from_lot, into_lot, seq");
    all.each(lots, [&](const Along& row, std::size_t) {
        TracedUse& use = ended.emplace_back();
        use.from_lot = row.number(0);
        use.into_lot = row.number(1);
        use.seq = row.number(2);
        use.ended_by = row.mostly(3);
    });
    return ended;
}

void Derived::each_move(const std::vector<LotId>& lots, const std::function<void(const TracedMove&, std::size_t)>& take) const {
    Along all(impl_->sql,
              "SELECT lot, seq, way, partner, mass_mg, pieces, of_returned, happened, sure, document, left_by FROM move WHERE lot >= ?1 "
              "ORDER BY lot, seq");
    TracedMove move;
    all.each(lots, [&](const Along& row, std::size_t place) {
        move.lot = lots[place];
        move.seq = row.number(1);
        move.way = stored_word<Way>(row.text(2));
        move.partner = row.text(3);
        move.mass_mg = row.mostly(4);
        move.pieces = row.mostly(5);
        move.of_returned = row.number(6) != 0;
        move.happened = row.number(7);
        move.sure = row.number(8) != 0;
        move.document = row.text(9);
        move.left_by = stored_word_or_none<Way>(row.text(10));
        take(move, place);
    });
}

Int Derived::count_with_printed_code(const std::string& code) const {
    auto row = impl_->sql.prepared("SELECT count(*) FROM lot WHERE printed_code = ?1 AND printed_code <> ''");
    return row.with(code).step() ? row.number(0) : 0;
}

}  // namespace peelbook::book
