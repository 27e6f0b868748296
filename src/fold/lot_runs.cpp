#include "fold/lot_runs.h"

#include <algorithm>

#include "fold/line.h"
#include "fold/lot_racks.h"

namespace peelbook::fold {
namespace {

// When the lot touched the piece; absent: not, or not yet. A step whose end nobody recorded counts from the first record that shows
// it was over.
std::optional<Instant> touched_at(const LotFacts& lot, const plan::Equipment& piece) {
    const bool pack = lot.row.kind == LotKind::pack;
    const auto& facts = lot.facts;
    if (pack || piece.step == "pack") return pack && piece.step == "pack" ? std::optional(facts.started) : std::nullopt;
    if (piece.step.empty()) return lot.row.kind == LotKind::batch ? std::optional(facts.started) : std::nullopt;
    if (std::find(facts.steps.begin(), facts.steps.end(), piece.step) == facts.steps.end()) return {};
    plan::Point at_step;
    at_step.step = piece.step;
    if (!judged_here(lot, at_step)) return {};
    const auto end = facts.last_end_of(piece.step);
    return end ? end : facts.passed_at(piece.step);
}

}  // namespace

std::vector<book::Run> runs_of(Ledger& ledger, const LotFacts& lot) {
    std::vector<book::Run> runs;
    const LotKind kind = lot.row.kind;
    if (!lot.made || !is_goods(kind)) return runs;
    const auto governing = ledger.plan_version(lot.row.plan_seq);
    std::string line = lot.size ? lot.size->line : "";
    if (kind != LotKind::batch && !lot.uses.empty()) {
        if (const auto from = ledger.rows().lot(lot.uses.front().from_lot)) line = line_of(ledger, *from);
    }
    if (line.empty()) return runs;
    for (const auto* piece : governing.plan->pieces_of(lot.row.item, line)) {
        if (const auto at = touched_at(lot, *piece)) runs.push_back({piece->id, at->ms, lot.row.id});
    }
    if (kind == LotKind::pack && packs_are_checked(*governing.plan, line)) runs.push_back({line, lot.row.happened, lot.row.id});
    return runs;
}

}  // namespace peelbook::fold
