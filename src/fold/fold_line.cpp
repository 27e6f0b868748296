// What a line takes as it runs (dusting flour, pan oil, glaze, film) has no weighed use into each batch: it stands on the line from
// and until, and every batch that ran there meanwhile may hold it.
#include <algorithm>
#include <limits>

#include "fold/lot_facts.h"

namespace peelbook::fold {
namespace {

// A batch that nobody finished ran no longer than this (common practice).
constexpr Duration longest_run = hours(72);

book::Int end_of_run(const book::Lot& batch) { return batch.finished.value_or(batch.happened + longest_run.ms); }

// Rows from `from` on as the entries say; those that were closed before it stay as they are.
std::vector<book::LineFeed> feeds_since(Ledger& ledger, const std::string& line, Instant from, std::vector<book::LineFeed> standing) {
    std::erase_if(standing, [&](const auto& feed) { return feed.from_ms >= from.ms; });
    for (auto& feed : standing) feed.until_ms.reset();  // it was still there at `from`
    for (const auto& e : ledger.effective_touching(book::SubjectKind::line, line, from)) {
        const auto& says = std::get<record::LineFed>(e.says);
        const auto lot = ledger.rows().lot(says.lot);
        if (e.voided_by || !lot) continue;
        if (!says.off) {
            standing.push_back({line, e.happened.ms, e.seq, lot->id, {}});
            continue;
        }
        for (auto& feed : standing) {
            if (feed.lot == lot->id && !feed.until_ms) feed.until_ms = e.happened.ms;
        }
    }
    return standing;
}

bool is_line_use(Ledger& ledger, const book::Use& use) {
    return !use.mass_mg && std::holds_alternative<record::LineFed>(ledger.effective(use.seq).says);
}

}  // namespace

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

void fold_line(Derivation& d, const std::string& line, Instant from) {
    auto& rows = d.ledger.rows();
    const auto before = rows.line_feeds(line, from.ms, for_ever);
    rows.set_line_feeds(before, feeds_since(d.ledger, line, from, before));
    const book::Int clock = d.ledger.plan_at(from).plan->site.clock_uncertainty.ms;
    for (const auto& batch : rows.lots_started(from.ms - longest_run.ms - clock, for_ever)) {
        if (end_of_run(batch) + clock < from.ms) continue;
        const auto started = d.ledger.effective(batch.id);
        const auto* says = std::get_if<record::Started>(&started.says);
        if (!says || says->line != line) continue;
        auto standing = rows.uses_into(batch.id);
        std::erase_if(standing, [&](const auto& use) { return !is_line_use(d.ledger, use); });
        auto now = line_uses(d.ledger, batch, line);
        const auto by_entry = [](const auto& a, const auto& b) { return a.seq < b.seq; };
        std::sort(standing.begin(), standing.end(), by_entry);
        std::sort(now.begin(), now.end(), by_entry);
        if (now != standing) fold_lot(d, batch.id);
    }
}

}  // namespace peelbook::fold
