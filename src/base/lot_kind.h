#pragma once
// How a lot came to be.
#include <string_view>

namespace peelbook {

enum class LotKind {
    received,
    supply,  // water and ice: it never runs out
    blend,   // what stands in a vessel
    batch,
    rack,  // part of a batch
    pack,
};
constexpr std::string_view word(LotKind kind) {
    switch (kind) {
        case LotKind::received:
            return "received";
        case LotKind::supply:
            return "supply";
        case LotKind::blend:
            return "blend";
        case LotKind::batch:
            return "batch";
        case LotKind::rack:
            return "rack";
        case LotKind::pack:
            return "pack";
    }
    return {};
}

// The same goods again, taken apart or packed: nothing is lost on the way from the lot behind.
constexpr bool is_part_of_a_lot(LotKind kind) { return kind == LotKind::rack || kind == LotKind::pack; }

// Made in the house to be sold: what is not is a material, or stands in a vessel.
constexpr bool is_goods(LotKind kind) { return kind == LotKind::batch || is_part_of_a_lot(kind); }

// Came from outside: its item is a material, not a product.
constexpr bool is_from_outside(LotKind kind) { return kind == LotKind::received || kind == LotKind::supply; }

}  // namespace peelbook
