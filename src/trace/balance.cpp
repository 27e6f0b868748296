#include <algorithm>

#include "trace/trace.h"

namespace peelbook::trace {
namespace {

void add_to(std::optional<std::int64_t>& sum, std::optional<std::int64_t> amount) {
    if (amount) sum = sum.value_or(0) + *amount;
}

}  // namespace

void Balance::add(const Move& move) {
    if (move.way == Way::returned) {
        returned_mg += move.mass_mg.value_or(0);
        returned_pieces += move.pieces.value_or(0);
        return;
    }
    if (!move.mass_mg && !move.pieces) return;
    auto at = std::find_if(out.begin(), out.end(), [&](const WayOut& one) { return word(one.way) >= word(move.way); });
    if (at == out.end() || at->way != move.way) at = out.insert(at, WayOut{move.way, {}, {}});
    add_to(at->mg, move.mass_mg);
    add_to(at->pieces, move.pieces);
}

std::int64_t Balance::out_mg() const {
    std::int64_t total = 0;
    for (const WayOut& one : out) total += one.mg.value_or(0);
    return total;
}

std::int64_t Balance::out_pieces() const {
    std::int64_t total = 0;
    for (const WayOut& one : out) total += one.pieces.value_or(0);
    return total;
}

bool Balance::closes() const { return unaccounted_mg() == 0 && unaccounted_pieces() == 0; }

std::int64_t Balance::unaccounted_mg() const { return made_mg - used_mg - out_mg() - on_hand_mg; }

std::int64_t Balance::unaccounted_pieces() const { return made_pieces - used_pieces - out_pieces() - on_hand_pieces; }

Balance balance(const Lot& lot, const std::vector<Use>& uses_from, const std::vector<Move>& moves, std::int64_t gap_mg,
                std::int64_t gap_pieces) {
    Balance result;
    result.lot = lot.id;
    result.made_mg = lot.made_mg.value_or(0);
    result.made_pieces = lot.made_pieces.value_or(0);
    result.on_hand_mg = lot.on_hand_mg;
    result.on_hand_pieces = lot.on_hand_pieces;
    result.gap_mg = gap_mg;
    result.gap_pieces = gap_pieces;
    for (const Use& use : uses_from) {
        if (use.from != lot.id) continue;
        result.used_mg += use.mass_mg.value_or(0);
        result.used_pieces += use.pieces.value_or(0);
    }
    for (const Move& move : moves) {
        if (move.lot == lot.id) result.add(move);
    }
    if (lot.kind == LotKind::supply) {  // it never runs out: as much was made as left
        result.made_mg = result.used_mg + result.out_mg();
        result.made_pieces = result.used_pieces + result.out_pieces();
        result.on_hand_mg = result.on_hand_pieces = 0;
    }
    return result;
}

}  // namespace peelbook::trace
