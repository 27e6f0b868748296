// What stands in the way of packing, shipping or releasing: critical points not within, labels that say too little.
#include "site/record/settled.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "base/words.h"
#include "fold/fold.h"
#include "fold/label.h"
#include "fold/line.h"
#include "fold/standing.h"
#include "site/record/admit.h"

namespace peelbook::site {
std::vector<book::Finding> unsettled(fold::Ledger& ledger, const std::vector<book::LotId>& lots) {
    auto& rows = ledger.rows();
    std::vector<book::Finding> open;
    for (auto& f : rows.open_findings()) {
        if (f.grade == Grade::critical && f.lot && !fold::is_settled(rows, f)) open.push_back(std::move(f));
    }
    if (open.empty()) return open;
    std::set<book::LotId> behind(lots.begin(), lots.end());
    for (const auto& lot : rows.back(lots).lots) behind.insert(lot.id);
    std::erase_if(open, [&](const auto& f) { return !behind.contains(*f.lot); });
    return open;
}

Refusal refuse_unsettled(fold::Ledger& ledger, const std::string& doing, const std::vector<book::Finding>& findings) {
    std::vector<std::string> points;
    for (const auto& f : findings) {
        const auto lot = ledger.rows().lot(*f.lot);
        points.push_back(in_words(f.verdict) + ": " + f.point + " of " + (lot ? lot->code : "") + (f.unit.empty() ? "" : " " + f.unit) +
                         ", " + f.measured + " [" + std::to_string(f.anchor) + ":" + f.point + ":" + std::to_string(f.ord) + "]");
    }
    return {doing + " with " + (findings.size() == 1 ? "a critical point" : "critical points") + " not within: " + joined(points, "; "),
            "every critical point within, or a signed disposition for each",
            "record what is missing, or decide with: peelbook act FINDING --disposition ...; if it has already happened: "
            "--already-done --why ...",
            {}};
}

Check devices_good(fold::Ledger& ledger, const record::Packed& packed, Instant happened) {
    const auto governing = ledger.plan_at(happened);
    for (const auto& part : packed.from) {
        const auto packed_lot = ledger.rows().lot(part.lot);
        const auto line = packed_lot ? fold::line_of(ledger, *packed_lot) : std::string();
        for (const auto& point : governing.plan->points) {
            if (!point.interval || !point.interval->device_check) continue;
            if (std::find(point.lines.begin(), point.lines.end(), line) == point.lines.end()) continue;
            const auto last = ledger.rows().reading_before(point.place, point.id, happened.ms, 0);
            if (!last) continue;
            const auto found = ledger.rows().finding(last->seq, point.id, 0);
            if (!found || found->verdict != Verdict::deviation) continue;
            return Refusal{"packing " + part.lot + " after " + point.id + " at " + point.place + " failed at " +
                               to_text(ledger.zone(), {last->happened}),
                           "a good check of it since then",
                           "repair and check it, then: peelbook inspect or reading " + point.place + " " + point.id +
                               "; if it has already happened: --already-done --why ...",
                           {}};
        }
    }
    return {};
}

Check label_covers(const Request& r, const plan::Label& label, const std::string& product, const std::vector<book::LotId>& lots,
                   std::vector<std::string>* surplus) {
    const auto gaps = label_gaps(r.ledger, r.plan(), label, product, lots);
    if (surplus) *surplus = gaps.surplus;
    if (gaps.undeclared.empty()) return {};
    std::vector<std::string> told;
    for (const auto& [allergen, from] : gaps.undeclared) told.push_back(allergen + " (in " + from + ")");
    return Refusal{"label " + label.id + ", which does not declare " + joined(told, ", "),
                   "a label that declares every allergen of the lots really used and of the formula",
                   "pack under another label; if it has already happened: --already-done --why ...",
                   {}};
}

}  // namespace peelbook::site
