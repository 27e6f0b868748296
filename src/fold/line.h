#pragma once
// Lines: which one a lot ran on, and what stood on it meanwhile.
#include <string>
#include <vector>

#include "fold/ledger.h"

namespace peelbook::fold {

// The line a batch ran on; of a rack or a pack, that of the first batch behind it. Empty: none.
std::string line_of(Ledger& ledger, const book::Lot& lot);

// Whether each pack on the line is checked by what stands there: labels are read, or it passes a device.
bool packs_are_checked(const plan::Plan& plan, const std::string& line);

// A batch that nobody finished ran no longer than this (common practice).
inline constexpr Duration longest_run = hours(72);
book::Int end_of_run(const book::Lot& batch);

// The possible uses of what stood on the line while a batch ran there, without a mass.
std::vector<book::Use> line_uses(Ledger& ledger, const book::Lot& batch, const std::string& line);

}  // namespace peelbook::fold
