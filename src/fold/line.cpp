#include "fold/line.h"

#include <algorithm>

namespace peelbook::fold {

book::Int end_of_run(const book::Lot& batch) { return batch.finished.value_or(batch.happened + longest_run.ms); }

std::string line_of(Ledger& ledger, const book::Lot& lot) {
    if (lot.kind == LotKind::batch) {
        const auto made = ledger.effective(lot.id);
        const auto* started = std::get_if<record::Started>(&made.says);
        return started ? started->line : std::string();
    }
    if (!is_part_of_a_lot(lot.kind)) return {};
    const auto uses = ledger.rows().uses_into(lot.id);
    const auto from = uses.empty() ? std::nullopt : ledger.rows().lot(uses.front().from_lot);
    return from ? line_of(ledger, *from) : std::string();
}

bool packs_are_checked(const plan::Plan& plan, const std::string& line) {
    return std::any_of(plan.points.begin(), plan.points.end(), [&](const plan::Point& point) {
        if (std::holds_alternative<plan::LabelLimit>(point.limit)) return point.place == line;
        return point.checks_device_of(line);
    });
}

std::vector<book::Use> line_uses(Ledger& ledger, const book::Lot& batch, const std::string& line) {
    const book::Int clock = ledger.plan_at({batch.happened}).plan->site.clock_uncertainty.ms;
    std::vector<book::Use> out;
    for (const auto& feed : ledger.rows().line_feeds(line, batch.happened - clock, end_of_run(batch) + clock)) {
        book::Use use;
        use.into_lot = batch.id;
        use.from_lot = feed.lot;
        use.seq = feed.seq;
        use.sure = 0;
        use.happened = std::max(feed.from_ms, batch.happened);
        out.push_back(std::move(use));
    }
    return out;
}

}  // namespace peelbook::fold
