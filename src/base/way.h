#pragma once
// How goods leave the house, each a word of its own for ever, and that they came back.
#include <string_view>

namespace peelbook {

enum class Way {
    customer,
    own_shop,
    van,
    staff_shop,
    donation,
    animal_feed,
    co_packer,
    waste,
    sample,    // to a laboratory: used up
    supplier,  // back to whoever delivered it
    returned,  // last: no way out
};
constexpr std::string_view word(Way way) {
    switch (way) {
        case Way::customer:
            return "customer";
        case Way::own_shop:
            return "own-shop";
        case Way::van:
            return "van";
        case Way::staff_shop:
            return "staff-shop";
        case Way::donation:
            return "donation";
        case Way::animal_feed:
            return "animal-feed";
        case Way::co_packer:
            return "co-packer";
        case Way::waste:
            return "waste";
        case Way::sample:
            return "sample";
        case Way::supplier:
            return "supplier";
        case Way::returned:
            return "returned";
    }
    return {};
}

// Nobody can eat of it, so nobody is told of it in a recall.
constexpr bool feeds_nobody(Way way) { return way == Way::waste || way == Way::sample; }

}  // namespace peelbook
