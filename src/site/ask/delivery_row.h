#pragma once
// The columns of a delivery, alike in every table and in JSON; whose it is stands in front of them.
#include <string_view>

#include "base/instant.h"
#include "trace/trace.h"

namespace peelbook::site {

// `tell` takes (column, value) for a text, a whole number, a truth and an instant.
template <class Tell> void tell_delivery(Tell& tell, const trace::Delivery& d, std::string_view lot_column = "lot") {
    tell("way", d.way);
    tell("printed_code", d.printed_code);
    tell(lot_column, d.lot_code);
    tell("item", d.item_name);
    tell("pieces", d.pieces);
    tell("mass_mg", d.mass_mg);
    tell("returned_pieces", d.returned_pieces);
    tell("returned_mg", d.returned_mg);
    tell("first", Instant{d.first});
    tell("last", Instant{d.last});
    tell("certain", d.certain);
    tell("document", d.document);
}

}  // namespace peelbook::site
