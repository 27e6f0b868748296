// A mixed vessel is a chain of blends: each fill makes a new lot from what stood there and what was put in, and every draw
// points at the blend of its moment. The old-to-new edge ends only at an inspected emptying: a computed zero never cuts it,
// since scales drift, and then the plan's heel is what stayed behind.
#include <algorithm>

#include "site/fold.h"

namespace peelbook::site {
namespace {

struct Standing {
    std::optional<book::LotId> blend;
    book::Int mass = 0;
};

// What stood in the vessel just before `from`.
Standing standing_before(Ledger& ledger, const std::string& vessel, Instant from) {
    auto blend = ledger.rows().blend_at(vessel, from.ms - 1);
    if (!blend) return {};
    Standing now{blend->id, blend->made_mg.value_or(0)};
    for (const auto& e : ledger.effective_touching(book::SubjectKind::vessel, vessel, Instant{blend->happened})) {
        if (e.happened >= from || e.voided_by || e.seq == blend->id) continue;
        if (const auto* used = std::get_if<record::Used>(&e.says); used && used->mass) now.mass -= used->mass->value;
        if (const auto* emptied = std::get_if<record::Emptied>(&e.says); emptied && emptied->inspected) now = {};
    }
    return now;
}

book::Use edge(book::LotId into, book::LotId from, const Effective& e, book::Int mass, bool stated) {
    book::Use use;
    use.into_lot = into;
    use.from_lot = from;
    use.seq = e.seq;
    use.mass_mg = mass;
    use.stated = stated ? 1 : 0;
    use.happened = e.happened.ms;
    return use;
}

void write_blend(Derivation& d, const plan::Vessel& vessel, const Effective& e, const record::Filled& fill, Standing& now) {
    auto& rows = d.ledger.rows();
    const auto lot = rows.lot(fill.lot);
    if (!lot) return;
    const book::Int filled = fill.mass ? fill.mass->value : 0;
    const auto day = d.ledger.production_day(e.happened);
    book::Lot blend;
    blend.id = e.seq;
    blend.code = fill.blend;
    blend.kind = "blend";
    blend.item = lot->item;
    blend.plan_seq = d.ledger.plan_at(e.happened).seq;
    blend.vessel = vessel.id;
    blend.happened = e.happened.ms;
    blend.day = day.day;
    blend.week = day.week;
    blend.by = e.by;
    std::vector<book::Use> uses{edge(e.seq, lot->id, e, filled, true)};
    book::Int made = filled;
    if (now.blend) {
        const book::Int left = std::max(now.mass, vessel.heel_mg);
        uses.push_back(edge(e.seq, *now.blend, e, left, true));
        made += left;
    }
    blend.made_mg = made;
    blend.input_mg = made;
    const auto before = rows.uses_into(e.seq);
    rows.put(blend);
    rows.set_uses_into(e.seq, uses);
    for (const auto& use : before) refresh_stock(d, use.from_lot);
    for (const auto& use : uses) refresh_stock(d, use.from_lot);
    refresh_stock(d, e.seq);
    refresh_allergens(d, e.seq);
    now = {e.seq, made};
}

void erase_blend(Derivation& d, const Effective& e) {
    auto& rows = d.ledger.rows();
    const auto before = rows.uses_into(e.seq);
    rows.set_uses_into(e.seq, {});
    rows.set_allergens(e.seq, {});
    rows.erase_lot(e.seq);
    for (const auto& use : before) refresh_stock(d, use.from_lot);
}

}  // namespace

void fold_vessel(Derivation& d, const std::string& id, Instant from) {
    const auto* vessel = d.ledger.plan_at(from).plan->vessel(id);
    if (!vessel) return;
    Standing now = standing_before(d.ledger, id, from);
    std::vector<book::LotId> drew;
    for (const auto& e : d.ledger.effective_touching(book::SubjectKind::vessel, id, from)) {
        if (const auto* fill = std::get_if<record::Filled>(&e.says)) {
            if (e.voided_by) {
                erase_blend(d, e);
            } else {
                write_blend(d, *vessel, e, *fill, now);
            }
        }
        if (e.voided_by) continue;
        if (const auto* emptied = std::get_if<record::Emptied>(&e.says); emptied && emptied->inspected) now = {};
        if (const auto* used = std::get_if<record::Used>(&e.says)) {
            if (used->mass) now.mass -= used->mass->value;
            if (auto into = d.ledger.rows().lot(used->into)) drew.push_back(into->id);
        }
    }
    std::sort(drew.begin(), drew.end());
    drew.erase(std::unique(drew.begin(), drew.end()), drew.end());
    for (book::LotId lot : drew) fold_lot(d, lot);
}

}  // namespace peelbook::site
