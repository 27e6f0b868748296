#pragma once
// What may be done to a lot that begins a time in which it is to be used.
#include <string_view>

namespace peelbook {

enum class ClockKind { opened, thawed };
constexpr std::string_view word(ClockKind kind) {
    switch (kind) {
        case ClockKind::opened:
            return "opened";
        case ClockKind::thawed:
            return "thawed";
    }
    return {};
}

}  // namespace peelbook
