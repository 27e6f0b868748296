#pragma once
// Four verdicts, never two. Stored as these numbers: do not change. The worst is the largest.
#include <cstdint>
#include <string_view>

namespace peelbook {

enum class Verdict : std::int64_t {
    within = 0,     // what was measured meets the limit
    unproven = 1,   // the records cannot show that it held
    missing = 2,    // owed, and not there
    deviation = 3,  // what was measured breaks the limit
};
constexpr std::string_view word(Verdict v) {
    switch (v) {
        case Verdict::within:
            return "within";
        case Verdict::unproven:
            return "unproven";
        case Verdict::missing:
            return "missing";
        case Verdict::deviation:
            return "deviation";
    }
    return {};
}
constexpr Verdict worse(Verdict a, Verdict b) { return a < b ? b : a; }

}  // namespace peelbook
