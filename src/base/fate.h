#pragma once
// What a customer, or our own people at a customer's, says became of goods it had.
#include <string_view>

namespace peelbook {

enum class Fate {
    returned,
    destroyed,
    used,   // eaten or sold on: it counts only as stated by a named customer
    found,  // stands there now, until a later word uses it up
};
constexpr std::string_view word(Fate fate) {
    switch (fate) {
        case Fate::returned:
            return "returned";
        case Fate::destroyed:
            return "destroyed";
        case Fate::used:
            return "used";
        case Fate::found:
            return "found";
    }
    return {};
}

}  // namespace peelbook
