#include "fold/standing.h"

#include <algorithm>

namespace peelbook::fold {

bool is_here(book::Derived& rows, const book::Lot& lot) {
    if (lot.kind == LotKind::supply) return false;
    const auto stock = rows.stock(lot.id);
    return !stock || is_on_hand(*stock) || stock->returned_pieces > 0 || stock->returned_mg > 0 || is_open(lot);
}

bool is_settled(book::Derived& rows, Seq anchor, const std::string& point, book::Int ord) {
    const auto actions = rows.actions(anchor, point, ord);
    return std::any_of(actions.begin(), actions.end(), [](const auto& action) { return action.disposition.has_value(); });
}

}  // namespace peelbook::fold
