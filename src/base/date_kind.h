#pragma once
// What the date on a label means.
#include <string_view>

namespace peelbook {

enum class DateKind { best_before, use_by };
constexpr std::string_view word(DateKind kind) {
    switch (kind) {
        case DateKind::best_before:
            return "best-before";
        case DateKind::use_by:
            return "use-by";
    }
    return {};
}

}  // namespace peelbook
