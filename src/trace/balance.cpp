#include "trace/trace.h"

namespace peelbook::trace {
namespace {

constexpr std::string_view returned = "returned";

// Water and ice never run out: as much was made as left.
constexpr std::string_view supply = "supply";

std::int64_t sum(const std::map<std::string, std::int64_t>& by_way) {
    std::int64_t total = 0;
    for (const auto& [way, amount] : by_way) total += amount;
    return total;
}

// A way out stands in the map of a quantity only if that quantity was stated.
void add_move(const Move& move, Balance& balance) {
    if (move.way == returned) {
        balance.returned_mg += move.mass_mg.value_or(0);
        balance.returned_pieces += move.pieces.value_or(0);
        return;
    }
    if (move.mass_mg) balance.out_mg[move.way] += *move.mass_mg;
    if (move.pieces) balance.out_pieces[move.way] += *move.pieces;
}

}  // namespace

bool Balance::closes() const {
    return unaccounted_mg() == 0 && unaccounted_pieces() == 0;
}

std::int64_t Balance::unaccounted_mg() const {
    return made_mg - used_mg - sum(out_mg) - on_hand_mg;
}

std::int64_t Balance::unaccounted_pieces() const {
    return made_pieces - used_pieces - sum(out_pieces) - on_hand_pieces;
}

Balance balance(const Lot& lot, const std::vector<Use>& uses_from, const std::vector<Move>& moves,
                std::int64_t gap_mg, std::int64_t gap_pieces) {
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
        if (move.lot == lot.id) add_move(move, result);
    }
    if (lot.kind == supply) {
        result.made_mg = result.used_mg + sum(result.out_mg);
        result.made_pieces = result.used_pieces + sum(result.out_pieces);
        result.on_hand_mg = result.on_hand_pieces = 0;
    }
    return result;
}

}  // namespace peelbook::trace
