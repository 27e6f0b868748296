#include "trace/near.h"

namespace peelbook::trace {

Near near(const Reached& reached, std::int64_t carry_over_ppm) {
    if (reached.depth == 0) return Near::asked_for;
    if (reached.depth == 1) return Near::direct;
    const auto share = reached.share_expected;
    return share && *share * 1'000'000 < static_cast<double>(carry_over_ppm) ? Near::carry_over : Near::further;
}

std::string_view to_text(Near near) {
    switch (near) {
        case Near::asked_for:
            return "asked for";
        case Near::direct:
            return "direct";
        case Near::further:
            return "further";
        case Near::carry_over:
            return "carry-over";
    }
    return "";
}

}  // namespace peelbook::trace
