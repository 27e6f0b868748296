#pragma once
// What was decided of a received lot at the door, and how far a batch is. Other lots have none.
#include <string_view>

namespace peelbook::book {

enum class LotStatus {
    accepted,
    held,
    refused,  // at the door: none of it came into the house
    open,     // a batch that is not finished
    finished,
};
constexpr std::string_view word(LotStatus status) {
    switch (status) {
        case LotStatus::accepted:
            return "accepted";
        case LotStatus::held:
            return "held";
        case LotStatus::refused:
            return "refused";
        case LotStatus::open:
            return "open";
        case LotStatus::finished:
            return "finished";
    }
    return {};
}

}  // namespace peelbook::book
