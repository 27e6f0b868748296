#pragma once
// How much hangs on a control point, and so on what is found there.
#include <string_view>

namespace peelbook {

enum class Grade { critical, operating, quality };
constexpr std::string_view word(Grade grade) {
    switch (grade) {
        case Grade::critical:
            return "critical";
        case Grade::operating:
            return "operating";
        case Grade::quality:
            return "quality";
    }
    return {};
}

}  // namespace peelbook
