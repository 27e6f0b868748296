#pragma once
// What a label must cover: the allergens of the lots really used, through every depth, and those that the formula's materials are
// specified with, even where a use was forgotten (traps 28). The label's own market says which of them the law lists.
#include <map>
#include <string>
#include <vector>

#include "site/ledger.h"

namespace peelbook::site {

struct LabelGaps {
    std::map<std::string, std::string> undeclared;  // allergen to where it comes from: a lot's code, or "formula of pan-loaf"
    bool unknown = false;                           // a lot in it declared nothing
};

// `lots` are what is packed, or the pack itself; `product` the plan's id of what is in it.
LabelGaps label_gaps(Ledger& ledger, const plan::Plan& plan, const plan::Label& label, const std::string& product,
                     const std::vector<book::LotId>& lots);

}  // namespace peelbook::site
