#pragma once
// What a person signs for that becomes of the product of a finding.
#include <string_view>

namespace peelbook::record {

enum class Disposition { release, rework, downgrade, discard };
constexpr std::string_view word(Disposition disposition) {
    switch (disposition) {
        case Disposition::release:
            return "release";
        case Disposition::rework:
            return "rework";
        case Disposition::downgrade:
            return "downgrade";
        case Disposition::discard:
            return "discard";
    }
    return {};
}

}  // namespace peelbook::record
