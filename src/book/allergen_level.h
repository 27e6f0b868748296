#pragma once
// How sure an allergen is. The surest is the largest.
#include <string_view>

namespace peelbook::book {

enum class AllergenLevel {
    not_stated,  // an input declared nothing
    carry_over,  // residue on equipment only
    may_contain,
    contains,
    formula,  // of a product, never of a lot: the formula brings it, and no lot did
};
constexpr std::string_view word(AllergenLevel level) {
    switch (level) {
        case AllergenLevel::not_stated:
            return "not-stated";
        case AllergenLevel::carry_over:
            return "carry-over";
        case AllergenLevel::may_contain:
            return "may-contain";
        case AllergenLevel::contains:
            return "contains";
        case AllergenLevel::formula:
            return "formula";
    }
    return {};
}

// The lot came with it, and leaves it on equipment; residue that it met there itself it does not.
constexpr bool is_brought(AllergenLevel level) { return level >= AllergenLevel::may_contain; }

}  // namespace peelbook::book
