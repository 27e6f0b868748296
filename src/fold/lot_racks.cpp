#include "fold/lot_racks.h"

#include <algorithm>

#include "fold/standing.h"

namespace peelbook::fold {

// A batch in racks: steps up to the one done at the split are judged on the batch, later ones on each rack.
bool judged_here(const LotFacts& lot, const plan::Point& point) {
    if (lot.row.kind == LotKind::received) return true;
    if (point.step.empty()) return lot.row.kind != LotKind::rack;  // of the whole batch
    const bool rack = lot.row.kind == LotKind::rack;
    if (!rack && (!lot.first_split || !lot.wholly_on_racks)) return true;
    const auto& facts = lot.facts;
    const Instant split = rack ? Instant{lot.row.happened} : *lot.first_split;
    const auto place = [&](std::string_view step) { return std::find(facts.steps.begin(), facts.steps.end(), step); };
    auto done = facts.steps.begin();
    for (const auto& step : facts.steps_done) {
        if (!step.again && step.at <= split) done = std::max(done, place(step.step));
    }
    if (facts.finished && *facts.finished <= split) done = std::max(done, place(facts.finish_step));
    const bool later = place(point.step) > done;
    return rack == later;
}

namespace {

// Of a batch that was put on racks: some is on hand, went out, or went on as no rack.
bool some_is_on_no_rack(book::Derived& rows, const LotFacts& lot) {
    const auto stock = rows.stock(lot.row.id);
    if (stock && is_on_hand(*stock)) return true;
    if (std::any_of(lot.moves.begin(), lot.moves.end(), left_the_house)) return true;
    const auto uses = rows.uses_from(lot.row.id);
    return std::any_of(uses.begin(), uses.end(), [&](const book::Use& use) {
        const auto into = use.happened >= lot.first_split->ms ? rows.lot(use.into_lot) : std::nullopt;
        return into && into->kind != LotKind::rack;
    });
}

}  // namespace

void weigh(Ledger& ledger, LotFacts& lot) {
    if (lot.row.kind != LotKind::batch) return;
    if (lot.first_split) lot.wholly_on_racks = !some_is_on_no_rack(ledger.rows(), lot);
    const auto in_pieces = [](const book::Use& use) { return use.stated == 0; };
    if (std::any_of(lot.uses.begin(), lot.uses.end(), in_pieces)) lot.uses = ledger.rows().uses_into(lot.row.id);
    lot.facts.made_mg = lot.row.made_mg;
    if (lot.uses.empty()) return;
    book::Int sum = 0;
    for (const auto& use : lot.uses) sum += use.struck_by ? 0 : use.mass_mg.value_or(0);
    lot.facts.input_mg = sum;
}

}  // namespace peelbook::fold
