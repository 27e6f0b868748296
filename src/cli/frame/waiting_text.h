#pragma once
// What waits for another person, as `countersign --list` and `status` tell it.
#include <string>
#include <vector>

#include "base/zone.h"
#include "output/json.h"
#include "site/site.h"

namespace peelbook::cli {

// A paragraph an entry: who typed what and when, what it changes from and to, why, and the findings that wait for it.
std::string waiting_text(const std::vector<site::WaitingEntry>& waiting, const Zone& zone);
output::Json waiting_json(const std::vector<site::WaitingEntry>& waiting, const Zone& zone);

}  // namespace peelbook::cli
