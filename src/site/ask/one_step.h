#pragma once
// One step back and one step forward of a lot: who gave each ingredient in it, and who got each pack of it
// (21 CFR 1.337 and 1.345; Regulation (EC) 178/2002 art. 18; for food of animal origin Regulation (EU)
// 931/2011). Contact data as stated last.
#include <optional>
#include <string>
#include <vector>

#include "book/rows.h"

namespace peelbook::fold {
class Ledger;
}

namespace peelbook::site {

struct Firm {  // as the book knows it; only the code, or a carrier's name as typed, when it does not
    std::string code, name, address, phone, email;
};

struct Source {        // a received lot that is in it
    book::Lot lot;     // material, supplier's lot, document, quantity, when it was received
    std::string name;  // of the material
    Firm from, carrier;
    bool certain = false;  // at least one path of sure uses
};

struct Recipient {
    std::string lot, printed_code, name;  // our lot, name of the product
    Way way = Way::customer;
    std::string document;
    Firm to, carrier;  // `to` is empty for ways without a partner
    std::optional<std::int64_t> pieces, mass_mg;
    std::int64_t happened = 0;  // when it left, or came back (Way::returned)
    bool certain = false;
};

struct OneStep {
    std::vector<book::Lot> asked;
    std::vector<Source> sources;        // by name, then when it was received
    std::vector<Recipient> recipients;  // by time; of the lots and of what carries the same goods on: racks and packs
    std::vector<std::string> missing;   // "supplier of SALT-1: no telephone", for what 21 CFR 1.337 and 1.345
                                        // ask and the book lacks
};

// Who gave what is in these lots, and who got them.
OneStep one_step_of(fold::Ledger& ledger, std::vector<book::Lot> lots);

}  // namespace peelbook::site
