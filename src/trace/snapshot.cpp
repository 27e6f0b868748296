// What later entries added to a recall, and what they took away.
#include <algorithm>
#include <map>
#include <tuple>

#include "trace/recall.h"

namespace peelbook::trace {
namespace {

std::map<LotId, bool> certainty(const std::vector<Reached>& lots) {
    std::map<LotId, bool> by_lot;
    for (const Reached& r : lots) by_lot.emplace(r.lot, r.certain);
    return by_lot;
}

// What a line of deliveries is about: see trace.h for what tells lines apart.
using Key = std::tuple<std::string, std::string, std::string, std::string, std::string>;

Key key_of(const Delivery& d) {
    return {d.partner, d.printed_code, d.printed_code.empty() ? d.lot_code : "", d.item_name, d.partner.empty() ? d.way : ""};
}

std::map<Key, const Delivery*> by_key(const std::vector<Delivery>& deliveries) {
    std::map<Key, const Delivery*> result;
    for (const Delivery& d : deliveries) result.emplace(key_of(d), &d);
    return result;
}

bool differ(const Delivery& a, const Delivery& b) {
    const auto told = [](const Delivery& d) {
        return std::tie(d.way, d.lot_code, d.document, d.pieces, d.mass_mg, d.returned_pieces, d.returned_mg, d.first, d.last, d.certain);
    };
    return told(a) != told(b);
}

void compare_lots(const Snapshot& before, const Snapshot& now, SnapshotChanges& changes) {
    const auto was = certainty(before.lots), is = certainty(now.lots);
    for (const auto& [lot, certain] : is) {
        const auto old = was.find(lot);
        if (old == was.end()) {
            changes.added_lots.push_back(lot);
        } else if (old->second != certain) {
            (certain ? changes.surer_lots : changes.less_sure_lots).push_back(lot);
        }
    }
    for (const auto& [lot, certain] : was) {
        if (is.count(lot) == 0) changes.removed_lots.push_back(lot);
    }
}

void compare_deliveries(const Snapshot& before, const Snapshot& now, SnapshotChanges& changes) {
    const auto was = by_key(before.deliveries), is = by_key(now.deliveries);
    for (const auto& [key, delivery] : is) {
        const auto old = was.find(key);
        if (old == was.end()) {
            changes.added_deliveries.push_back(*delivery);
        } else if (differ(*old->second, *delivery)) {
            changes.changed_deliveries.push_back({*old->second, *delivery});
        }
    }
    for (const auto& [key, delivery] : was) {
        if (is.count(key) == 0) changes.removed_deliveries.push_back(*delivery);
    }
}

}  // namespace

SnapshotChanges compare(const Snapshot& before, const Snapshot& now) {
    SnapshotChanges changes;
    compare_lots(before, now, changes);
    compare_deliveries(before, now, changes);
    return changes;
}

}  // namespace peelbook::trace
