#pragma once
// What a scanned label says, filled into what a person typed. Where both say something it must be the same;
// what the label does not say stays as typed. Nothing is looked up outside the plan in force and the book.
//
// received: (01) or (02) is the material, by the plan's `gtin`; (10) the supplier's lot; (412), else (417)
// the supplier, by the
//           partner's GLN; (15) or (17) the date, of the kind that the plan wants when the label has both;
//           (310n) the mass; (30) or (37) the pieces, when no mass is known (else they count bags of it);
//           (00) the pallet
// moved out: (01) or (02) with (10) is the lot, by its code or printed code; (410), else (413) the customer;
// (30) or (37) the
//           pieces; (310n) the mass, of a lot that is not counted in pieces; (00) the pallet
#include "base/gs1_scan.h"
#include "fold/ledger.h"
#include "site/site.h"

namespace peelbook::site {

Result<record::Received> filled_in(const record::Received& typed, const Gs1Scan& scan, const plan::Plan& plan,
                                   const std::vector<book::Partner>& partners);
Result<record::MovedOut> filled_in(const record::MovedOut& typed, const Gs1Scan& scan, const plan::Plan& plan, book::Derived& rows);

}  // namespace peelbook::site
