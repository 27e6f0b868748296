#pragma once
// What stands in the way of packing, shipping or releasing.
#include <string>
#include <vector>

#include "site/record/admit.h"

namespace peelbook::site {

// Every critical finding on the lots or what they were made from that is not within and has no signed disposition.
std::vector<book::Finding> unsettled(fold::Ledger& ledger, const std::vector<book::LotId>& lots);
// Refused: the last check of a device on the line failed, so what is packed now has passed nothing (rule 12).
Check devices_good(fold::Ledger& ledger, const record::Packed& packed, Instant happened);
Refusal refuse_unsettled(fold::Ledger& ledger, const std::string& doing, const std::vector<book::Finding>& findings);

// Refused when the allergens in these lots, or of the product's formula, exceed what the label declares (in its market).
// `surplus`, when given, becomes what the label declares and nothing brings.
Check label_covers(const Request& r, const plan::Label& label, const std::string& product, const std::vector<book::LotId>& lots,
                   std::vector<std::string>* surplus = nullptr);

}  // namespace peelbook::site
