#pragma once
// What a label must cover: the allergens of the lots really used, through every depth, and those that the formula's materials are
// specified with, even where a use was forgotten (rule 37). The label's own market says which of them the law lists.
#include <map>
#include <string>
#include <vector>

#include "fold/ledger.h"

namespace peelbook::fold {

struct LabelGaps {
    std::map<std::string, std::string> undeclared;  // allergen to where it comes from: a lot's code, or "formula of pan-loaf"
    bool unknown = false;                           // a lot in it declared nothing
    std::vector<std::string> surplus;               // declared, and nothing in the lots or the formula brings it: a warning
};

// `lots` are what is packed, or the pack itself; `product` the plan's id of what is in it.
LabelGaps label_gaps(Ledger& ledger, const plan::Plan& plan, const plan::Label& label, const std::string& product,
                     const std::vector<book::LotId>& lots);
// True when every lot behind these that came without a declaration has a signed disposition for it. Walks back to all of them.
bool decided_without_declaration(Ledger& ledger, const std::vector<book::LotId>& lots);

// The labels that a lot may come to carry: a pack's own; else its product's; else those of the products it goes into.
std::vector<const plan::Label*> labels_for(const plan::Plan& plan, const book::Lot& lot);
// The same with every other label that the plan has of the product: one of them a batch will be packed under.
std::vector<const plan::Label*> labels_of_product(const plan::Plan& plan, const book::Lot& lot);
// Declared by each of them whose market lists it, as contained or as may contain; false when there is no label at all.
bool declared_by_all(const std::vector<const plan::Label*>& labels, const std::string& allergen);

}  // namespace peelbook::fold
