// Vessels: what goes in, what is drawn, and when they are empty.
#include <algorithm>

#include "base/text.h"
#include "fold/vessel_past.h"
#include "site/record/admit.h"
#include "site/record/admit_amounts.h"
#include "site/record/codes.h"

namespace peelbook::site {
namespace {

// A vessel holds one kind of item.
Check fits_vessel(const plan::Vessel& vessel, const book::Lot& lot) {
    if (vessel.holds.empty() || vessel.holds == lot.item) return {};
    return Refusal{lot.item + " into " + vessel.id,
                   vessel.holds + ", as the plan says of this vessel",
                   "check the lot and the vessel, or change the plan",
                   {}};
}

bool is_empty(const Request& r, const std::string& vessel, const book::Lot& blend) {
    for (const auto& fact : r.rows().facts_touching(book::SubjectKind::vessel, vessel, blend.happened)) {
        if (fact.kind != record::Emptied::kind.name || fact.voided_by || fact.happened > r.happened.ms) continue;
        const auto e = r.ledger.effective(fact.seq);
        if (std::get<record::Emptied>(e.says).inspected) return true;
    }
    return false;
}

// What a draw takes from: the blend of a mixed vessel, all fills together of a first-in one.
struct Standing {
    book::Lot lot;
    book::Stock stock;
};

void add(book::Stock& sum, const book::Stock& one) {
    sum.made_mg += one.made_mg;
    sum.used_mg += one.used_mg;
    sum.out_mg += one.out_mg;
    sum.gap_mg += one.gap_mg;
    sum.on_hand_mg += one.on_hand_mg;
}

// What a later fill found there is not gone: a draw written down late only leaves less of it.
void add_passed_on(const Request& r, Standing& standing) {
    for (const auto& use : r.rows().uses_from(standing.lot.id)) {
        if (use.seq != use.into_lot) continue;  // not the next blend
        standing.stock.used_mg -= use.mass_mg.value_or(0);
        standing.stock.on_hand_mg += use.mass_mg.value_or(0);
    }
}

Result<Standing> standing_in(const Request& r, const std::string& vessel) {
    auto blend = r.rows().blend_at(vessel, r.happened.ms);
    if (!blend || is_empty(r, vessel, *blend)) {
        return Refusal{"a draw from " + vessel + ", which holds nothing then",
                       "a vessel that was filled",
                       "record the fill first: peelbook fill " + vessel + " LOT MASS --at ...",
                       {}};
    }
    Standing out{std::move(*blend), {}};
    const auto past = vessel_past(r.ledger, vessel, r.happened, fold::Draws::none);
    if (past.history.model == trace::VesselModel::mixed) {
        out.stock = r.rows().stock(out.lot.id).value_or(book::Stock{});
        add_passed_on(r, out);
        return out;
    }
    for (const auto& fill : past.history.fills) add(out.stock, r.rows().stock(fill.id).value_or(book::Stock{}));
    return out;
}

}  // namespace

Result<Admitted> admit_draw(const Request& r, const book::Lot& into, Admitted out) {
    auto& s = std::get<record::Used>(out.says);
    const auto standing = standing_in(r, s.lot);
    if (!standing) return standing.refusal();
    auto amount = take_from(r, standing->lot, standing->stock, {s.pieces, s.mass}, s.rest);
    if (!amount) return amount.refusal();
    s.pieces = amount->pieces;
    s.mass = amount->mass;
    if (!s.mass) return Refusal{"pieces out of " + s.lot, "a mass: a vessel holds mass", "type it with its unit, as 42kg", {}};
    std::vector<std::string> codes;
    for (const fold::DrawPart& part : parts_of_draw(r.ledger, s.lot, r.happened, s.mass->value)) {
        const auto lot = r.rows().lot(part.from);
        if (!lot) continue;
        if (auto checked = no_cycle(r, into, *lot); !checked) return checked.refusal();
        codes.push_back(lot->code);
    }
    if (codes.size() > 1) out.notes.push_back("it may be of " + joined(codes, ", ") + "; a trace takes each");
    s.already_done = s.already_done || r.draft.already_done;
    if (s.why.empty() && r.amending == 0) s.why = r.draft.why;
    note_formula(r, into, standing->lot.item, out);
    return out;
}

Result<Admitted> admit_kind(const Request& r, const record::Filled& given) {
    auto s = given;
    const auto* vessel = r.plan().vessel(s.vessel);
    if (!vessel) {
        std::vector<std::string> ids;
        for (const auto& v : r.plan().vessels) ids.push_back(v.id);
        return known_id("vessel", s.vessel, ids, "check the name").refusal();
    }
    auto lot = known_lot(r, s.lot);
    if (!lot) return lot.refusal();
    s.lot = lot->code;
    if (auto checked = fits_vessel(*vessel, *lot); !checked) return checked.refusal();
    if (auto checked = not_before_lot(r, *lot); !checked) return checked.refusal();
    if (s.until && (*s.until < r.happened || *s.until > r.now)) {
        return Refusal{
            "a fill that ends " + to_text(r.ledger.zone(), *s.until), "an end after its start and not after now", "check --until", {}};
    }
    if (s.until && *s.until - r.happened > fold::longest_fill) {
        return Refusal{"a fill from " + to_text(r.ledger.zone(), r.happened) + " until " + to_text(r.ledger.zone(), *s.until),
                       "a fill of a day at most: a draw meanwhile may be of both sides of it",
                       "check --at and --until",
                       {}};
    }
    auto amount = take_from(r, *lot, 0, s.mass, s.rest);
    if (!amount) return amount.refusal();
    s.mass = amount->mass;
    if (!s.mass) return Refusal{"lot " + lot->code + ", counted in pieces", "a lot with a mass", "fill with a weighed lot", {}};
    s.already_done = s.already_done || r.draft.already_done;
    if (s.why.empty() && r.amending == 0) s.why = r.draft.why;
    if (s.blend.empty()) s.blend = next_code(r.ledger, uppered(vessel->id), r.happened);
    if (auto checked = free_code(r, s.blend); !checked) return checked.refusal();
    return Admitted{{}, s, {}};
}

Result<Admitted> admit_kind(const Request& r, const record::Emptied& s) {
    if (r.plan().vessel(s.vessel)) {
        Admitted out{{}, s, {}};
        if (!s.inspected) out.notes.push_back("not inspected: what comes next is still traced to what stood in " + s.vessel);
        return out;
    }
    std::vector<std::string> ids;
    for (const auto& v : r.plan().vessels) ids.push_back(v.id);
    return known_id("vessel", s.vessel, ids, "check the name").refusal();
}

}  // namespace peelbook::site
