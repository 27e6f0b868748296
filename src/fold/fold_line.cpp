// What a line takes as it runs (dusting flour, pan oil, glaze, film) has no weighed use into each batch: it stands on the line from
// and until, and every batch that ran there meanwhile may hold it.
#include <algorithm>
#include <limits>

#include "fold/fold.h"
#include "fold/line.h"

namespace peelbook::fold {
namespace {

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

Subjects fold_line(Derivation& d, const std::string& line, Instant from) {
    auto& rows = d.ledger.rows();
    const auto before = rows.line_feeds(line, from.ms, for_ever);
    rows.set_line_feeds(before, feeds_since(d.ledger, line, from, before));
    const book::Int clock = d.ledger.plan_at(from).plan->site.clock_uncertainty.ms;
    Subjects dirtied;
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
        if (now != standing) dirtied.push_back(Subject::of_lot(Rank::lot, batch.id));
    }
    return dirtied;
}

}  // namespace peelbook::fold
