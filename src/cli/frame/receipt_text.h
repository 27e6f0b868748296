#pragma once
// What a person reads after recording: what was written, with its date always; the verdicts and what to do
// about them; what was put on hold; what comes next; and, wherever a verdict was printed, the caution as the
// last line.
#include <string>

#include "base/zone.h"
#include "output/json.h"
#include "site/site.h"

namespace peelbook::cli {

// Stands first on every receipt and page of a site in practice (rule 58).
inline constexpr std::string_view practice_line = "*** PRACTICE: nothing is held by itself, the gate only warns ***";

std::string receipt_text(const site::Receipt& receipt, const Zone& zone);
output::Json outlook_json(const site::Outlook& outlook, const Zone& zone);
output::Json receipt_json(const site::Receipt& receipt, const Zone& zone);

}  // namespace peelbook::cli
