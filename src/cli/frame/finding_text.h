#pragma once
// How a finding is named, shown and typed in again.
#include <string>
#include <string_view>

#include "base/result.h"
#include "base/zone.h"
#include "output/json.h"
#include "record/payload.h"
#include "site/site.h"

namespace peelbook::cli {

// "412:bake-core", and "412:bake-core:1" from the second on: what `act` takes.
std::string key_text(const book::Finding& finding);
Result<record::FindingKey> parse_key(std::string_view text);

// A line for what is within; for the others also the arithmetic, the plan's corrective action for the product
// and for the process on a line each, and how to answer it. Every line ends in '\n'.
std::string finding_text(const site::ToldFinding& told);

output::Json finding_json(const site::ToldFinding& told, const Zone& zone);

}  // namespace peelbook::cli
