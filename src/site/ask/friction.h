#pragma once
// Mixer friction learned from logged batches, and the dough water that follows from it.
#include "fold/ledger.h"
#include "site/site.h"

namespace peelbook::site {

// How far back batches are learned from, and how old the last temperature of flour and room may be for
// advice.
inline constexpr Duration learned_back = days(60);
inline constexpr Duration oldest_temperature = hours(24);
inline constexpr std::int64_t alike_percent = 10;  // doughs whose mass is within a tenth are of one size

Friction friction_before(fold::Ledger& ledger, const plan::Plan& plan, const plan::Product& product, const std::string& line,
                         std::int64_t dough_mg, Instant before);

// None when the plan wants no dough temperature of the product.
std::optional<WaterAdvice> water_advice(fold::Ledger& ledger, const record::Started& started, Instant at);

}  // namespace peelbook::site
