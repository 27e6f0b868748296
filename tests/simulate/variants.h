#pragma once
// A history told otherwise: a record left out, typed late, after what was typed next, or wrongly first and then amended; or all of it
// with other codes. No verdict may come out better for it, and under other codes none may come out otherwise. Nor may it for what was
// corrected and waits for a countersign, whatever was typed after it.
#include "simulate/run.h"

namespace peelbook::simulate {

struct Variant {
    std::string_view name;  // "taken away": its violations are named after it, and its line in a kept history
    bool (*fits)(const History& history, std::size_t line);
    std::vector<Violation> (*tried)(const Folders& folders, const History& history, const std::vector<bool>& accepted, std::size_t line);
};

// In the order in which they are tried.
const std::vector<Variant>& variants();

// Of the variant that a violation is named after; none: of the history as it stands.
const Variant* variant_of(const Violation& violation);

}  // namespace peelbook::simulate
