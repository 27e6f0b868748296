// A fill makes a lot. In a mixed vessel that lot is a blend of what stood there and what was put in, and every draw points at the
// blend of its moment; in a first-in vessel it is the fill alone, and a draw points at those it may hold. Which, how much and how
// sure is trace/vessel.h's to say; here its answer becomes rows.
#include <algorithm>

#include "fold/fold.h"
#include "fold/vessel_past.h"

namespace peelbook::fold {
namespace {

book::Use edge(book::LotId into, book::LotId from, const Effective& fill, book::Int mass, bool sure) {
    book::Use use;
    use.into_lot = into;
    use.from_lot = from;
    use.seq = fill.seq;
    use.mass_mg = mass;
    use.sure = sure ? 1 : 0;
    use.happened = fill.happened.ms;
    return use;
}

class Filling {
  public:
    Filling(Derivation& d, const std::string& vessel) : d_(d), rows_(d.ledger.rows()), vessel_(vessel) {}

    void write(const Effective& fill, const trace::Blend& blend);
    void erase(const Effective& fill);

    Subjects dirtied;

  private:
    book::Lot row(const Effective& fill, const book::Lot& filled) const;
    void weigh_inputs(const std::vector<book::Use>& uses);

    Derivation& d_;
    book::Derived& rows_;
    const std::string& vessel_;
};

book::Lot Filling::row(const Effective& fill, const book::Lot& filled) const {
    const auto day = d_.ledger.production_day(fill.happened);
    book::Lot row;
    row.id = fill.seq;
    row.code = std::get<record::Filled>(fill.says).blend;
    row.kind = LotKind::blend;
    row.item = filled.item;
    row.plan_seq = d_.ledger.plan_at(fill.happened).seq;
    row.vessel = vessel_;
    row.happened = fill.happened.ms;
    row.day = day.day;
    row.week = day.week;
    row.by = fill.by;
    return row;
}

void Filling::weigh_inputs(const std::vector<book::Use>& uses) {
    for (const auto& use : uses) dirtied.push_back(Subject::of_lot(Rank::stock, use.from_lot));
}

void Filling::write(const Effective& fill, const trace::Blend& blend) {
    const auto filled = rows_.lot(blend.lot);
    if (!filled) return;
    book::Lot lot = row(fill, *filled);
    lot.made_mg = lot.input_mg = blend.made_mg();
    std::vector<book::Use> uses{edge(fill.seq, blend.lot, fill, blend.filled_mg, blend.fill_sure)};
    if (blend.stands_on) {
        uses.push_back(edge(fill.seq, *blend.stands_on, fill, blend.left_mg, blend.rest_sure));
        if (blend.left_largest_mg != blend.left_mg) uses.back().largest_mg = blend.left_largest_mg;
    }
    const auto before = rows_.uses_into(fill.seq);
    const auto same = [](const book::Use& a, const book::Use& b) { return a.from_lot < b.from_lot; };
    std::sort(uses.begin(), uses.end(), same);
    auto sorted = before;
    std::sort(sorted.begin(), sorted.end(), same);
    const auto standing = rows_.lot(fill.seq);
    if (standing && *standing == lot && sorted == uses) return;
    rows_.put(lot);
    rows_.set_uses_into(fill.seq, uses);
    if (sorted != uses) d_.rewired.insert(fill.seq);
    weigh_inputs(before);
    weigh_inputs(uses);
    dirtied.push_back(Subject::of_lot(Rank::stock, fill.seq));
    dirtied.push_back(Subject::of_lot(Rank::brought, fill.seq));
}

void Filling::erase(const Effective& fill) {
    const auto before = rows_.uses_into(fill.seq);
    rows_.set_uses_into(fill.seq, {});
    rows_.set_allergens(fill.seq, {});
    rows_.erase_lot(fill.seq);
    weigh_inputs(before);
}

// The blends of the past but the one it stands on; of a first-in vessel the fills.
std::vector<trace::Blend> blends_of(const VesselPast& past) {
    if (past.history.model == trace::VesselModel::mixed) {
        auto blends = trace::blend_chain(past.history).blends;
        if (past.on_blend) blends.erase(blends.begin());
        return blends;
    }
    std::vector<trace::Blend> fills;
    for (const auto& fill : past.history.fills) {
        trace::Blend& alone = fills.emplace_back();
        alone.fill = fill.id;
        alone.lot = fill.lot;
        alone.filled_mg = fill.mass_mg;
    }
    return fills;
}

bool stands_already(book::Derived& rows, book::LotId into, Seq draw, bool possible, const std::vector<DrawPart>& parts) {
    std::vector<DrawPart> missing = parts;
    for (const auto& use : rows.uses_into(into)) {
        if (use.seq != draw) continue;
        const auto same = std::find_if(missing.begin(), missing.end(), [&](const DrawPart& p) {
            return p.from == use.from_lot && p.expected_mg == use.mass_mg && p.largest_mg == use.largest_mg.value_or(p.expected_mg) &&
                   (p.certain && !possible) == (use.sure != 0);
        });
        if (same == missing.end()) return false;
        missing.erase(same);
    }
    return missing.empty();
}

// The lots whose draws are of something else now.
std::set<book::LotId> drew_otherwise(Derivation& d, const VesselPast& past) {
    std::set<book::LotId> out;
    for (const auto& e : past.entries) {
        const auto* used = std::get_if<record::Used>(&e.says);
        const auto parts = d.drawn.find(e.seq);
        if (!used || e.voided_by || parts == d.drawn.end()) continue;
        const auto into = d.ledger.rows().lot(used->into);
        if (into && !stands_already(d.ledger.rows(), into->id, e.seq, used->possible, parts->second)) out.insert(into->id);
    }
    return out;
}

}  // namespace

Subjects fold_vessel(Derivation& d, const std::string& id, Instant from) {
    const VesselPast past = vessel_past(d.ledger, id, from, Draws::all);
    Filling filling(d, id);
    std::map<Seq, const Effective*> fills;
    for (const auto& e : past.entries) {
        if (!std::holds_alternative<record::Filled>(e.says)) continue;
        if (e.voided_by) filling.erase(e);
        fills[e.seq] = &e;
    }
    for (const auto& blend : blends_of(past)) filling.write(*fills[blend.fill], blend);
    for (auto& [draw, parts] : draw_parts(past)) d.drawn[draw] = std::move(parts);
    for (const book::LotId lot : drew_otherwise(d, past)) filling.dirtied.push_back(Subject::of_lot(Rank::lot, lot));
    return std::move(filling.dirtied);
}

bool fold_draw(Derivation& d, const std::string& vessel, Seq draw) {
    const Effective e = d.ledger.effective(draw);
    const auto* used = std::get_if<record::Used>(&e.says);
    if (!used || e.voided_by || !used->mass) return false;
    VesselPast past = vessel_past(d.ledger, vessel, e.happened, Draws::none);
    if (!past.on_blend) return false;
    if (used->lot != vessel) return true;  // corrected: it was of another source
    past.history.draws.clear();
    past.history.draws.push_back({draw, used->mass->value, e.happened.ms});
    d.drawn[draw] = draw_parts(past)[draw];
    return true;
}

}  // namespace peelbook::fold
