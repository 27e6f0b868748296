#include "fold/standing.h"

#include "record/entry.h"

namespace peelbook::fold {

bool is_here(book::Derived& rows, const book::Lot& lot) {
    if (lot.kind == LotKind::supply) return false;
    const auto stock = rows.stock(lot.id);
    return !stock || is_on_hand(*stock) || stock->returned_pieces > 0 || stock->returned_mg > 0 || is_open(lot);
}

std::string digest_of(const book::Finding& f) {
    std::string text = std::string(word(f.verdict)) + "\n" + f.unit + "\n" + f.measured + "\n" + std::to_string(f.happened) + "\n";
    if (f.figure) text += std::to_string(*f.figure);
    return record::to_hex(record::sha256(text));
}

std::optional<record::Disposition> disposition_of(book::Derived& rows, const book::Finding& f) {
    std::optional<record::Disposition> latest;
    std::string now;
    for (const auto& action : rows.actions(f.anchor, f.point, f.ord)) {
        if (!action.disposition) continue;
        if (now.empty()) now = digest_of(f);
        if (f.verdict < action.seen_verdict || action.seen == now) latest = action.disposition;
    }
    return latest;
}

}  // namespace peelbook::fold
