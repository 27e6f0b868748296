#pragma once
// Why an allergen is in a lot: the received lot that declares it and the way it came, or the residue it met.
#include <map>

#include "fold/ledger.h"
#include "site/ask/ask_allergens.h"
#include "trace/trace.h"

namespace peelbook::site {

// The part of the graph behind one lot.
class LotBehind {
  public:
    LotBehind(fold::Ledger& ledger, const book::Lot& lot);

    // Every row of lot_allergen, with its reason; contains first.
    std::vector<AllergenReason> reasons();
    // mg of protein of the allergen per kg of the lot, from the lots that contain it; absent when a share or a protein is not known.
    std::optional<double> protein_mg_per_kg(const std::string& allergen);

  private:
    AllergenReason reason(const book::LotAllergen& row);
    void tell_residue(AllergenReason& out);
    std::string way_from(book::LotId from);
    // Received lots behind that bring it so; of a lot that stated nothing, as its material is specified.
    std::vector<const book::Lot*> bringing(const std::string& allergen, book::AllergenLevel level);
    bool brings(const book::Lot& lot, const std::string& allergen, book::AllergenLevel level);

    fold::Ledger& ledger_;
    const book::Lot& lot_;
    book::Derived::Graph behind_;
    std::map<book::LotId, const book::Lot*> by_id_;
    trace::Graph graph_;
};

}  // namespace peelbook::site
