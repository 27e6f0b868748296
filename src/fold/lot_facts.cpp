#include "fold/lot_facts.h"

#include <algorithm>

#include "base/units.h"
#include "base/words.h"
#include "fold/gatherer.h"
#include "fold/line.h"
#include "fold/lot_runs.h"
#include "fold/standing.h"

namespace peelbook::fold {

void Gatherer::take_as_it_stood(const Before& before) {
    entry_ = &before.entry;
    in_ = {{}, before.waits};
    const auto& says = before.entry.says;
    if (const auto* s = std::get_if<record::ReadingTaken>(&says)) (*this)(*s);
    if (const auto* s = std::get_if<record::SeriesTaken>(&says)) (*this)(*s);
    if (const auto* s = std::get_if<record::Inspected>(&says)) (*this)(*s);
    if (const auto* s = std::get_if<record::StepDone>(&says)) (*this)(*s);
    if (std::holds_alternative<record::Finished>(says))
        out_.facts.steps_done.push_back({entry_->seq, out_.facts.finish_step, entry_->happened, false, in_});
    if (std::holds_alternative<record::Started>(says)) out_.facts.started_before = {entry_->happened, before.waits};
    if (const auto* s = std::get_if<record::ClockStarted>(&says)) (*this)(*s);
    const auto* used = std::get_if<record::Used>(&says);
    if (!used || !is_of_this(used->into)) return;
    const auto known = out_.uses.size();
    (*this)(*used);
    for (auto i = known; i < out_.uses.size(); ++i) {  // possible, until somebody else has said that it never was
        out_.uses[i].sure = 0;
        out_.uses[i].struck_by = before.waits;
    }
}

void Gatherer::born(LotKind kind, const std::string& code, const std::string& item) {
    out_.made = true;
    book::Lot& row = out_.row;
    out_.plans = plans_of_start(ledger_, id_);
    const auto& governing = out_.plans.governing;
    const auto day = ledger_.production_day(entry_->happened);
    row = {};
    row.id = id_;
    row.code = code;
    row.kind = kind;
    row.item = item;
    row.plan_seq = governing.seq;
    row.happened = entry_->happened.ms;
    row.day = day.day;
    row.week = day.week;
    row.by = entry_->by;
    out_.facts.started = entry_->happened;
    out_.facts.late_after = governing.plan->site.late_after;
}

void Gatherer::operator()(const record::Received& s) {
    if (voided()) return;
    const auto governing = plans_of_start(ledger_, id_).governing;
    const auto* material = governing.plan->material(s.material);
    born(material && material->supply ? LotKind::supply : LotKind::received, s.lot, s.material);
    book::Lot& row = out_.row;
    row.made_mg = mass_or_none(s.mass);
    row.made_pieces = pieces_or_none(s.pieces);
    row.partner = s.supplier;
    row.supplier_lot = s.supplier_lot;
    row.gtin = s.gtin;
    if (const auto date = date_of(ledger_, *entry_)) row.date = to_text(*date);
    if (!row.date.empty() && material) row.date_kind = material->date_kind;
    row.document = s.document;
    row.carrier = s.carrier;
    row.sscc = s.sscc;
    row.status = stored_word_or_none<book::LotStatus>(s.status);
    out_.declared = declared_of(ledger_, *entry_);
    out_.facts.steps = {"receive"};
    out_.facts.finish_step = "receive";
    out_.facts.finished = entry_->happened;
    if (row.status == book::LotStatus::held) {
        out_.holds.push_back({id_, id_, entry_->happened.ms, s.why, {}, "", {}, {}});
    }
    if (!s.temperature || !material) return;
    for (const auto* point : governing.plan->points_of_material(s.material)) {
        if (point->dimension == Dimension::temperature) {
            add_reading(point->id, *s.temperature, "", s.instrument, 0, entry_->happened);
        }
    }
}

void Gatherer::operator()(const record::Started& s) {
    if (voided()) return;
    born(LotKind::batch, s.lot, s.product);
    out_.row.status = book::LotStatus::open;
    out_.size = s;
    if (const auto* product = ledger_.plan_version(out_.row.plan_seq).plan->product(s.product)) {
        out_.facts.steps = product->steps;
        out_.facts.finish_step = product->finish_step;
        out_.facts.food = product->sort;
    }
}

// The vessel's fold makes a blend's row and its inputs; here they are only kept.
void Gatherer::operator()(const record::Filled&) {
    if (!made_here()) return;
    out_.made = !voided() && !out_.row.code.empty();
    out_.facts.started = entry_->happened;
    out_.uses = out_.uses_before;
    if (!out_.made) return;
    carry_holds();
    const auto& s = std::get<record::Filled>(entry_->says);
    already_done(s.already_done, "fill of " + s.vessel + " with " + s.lot + ": " + s.why);
}

void Gatherer::operator()(const record::StepDone& s) {
    auto& steps = voided() ? out_.facts.steps_taken_back : out_.facts.steps_done;
    steps.push_back({entry_->seq, s.step, entry_->happened, s.again, in_});
}

void Gatherer::operator()(const record::Finished& s) {
    if (voided()) return;
    out_.row.finished = entry_->happened.ms;
    out_.row.made_mg = mass_or_none(s.mass);
    out_.row.made_pieces = pieces_or_none(s.pieces + s.spoiled);
    out_.row.status = book::LotStatus::finished;
    out_.facts.finished = entry_->happened;
    out_.spoiled = s.spoiled;
    if (s.spoiled == 0) return;
    // A spoiled piece weighs what a good one does, rounded down, so that the good ones keep the mass that was stated; where none is
    // good the mass is theirs.
    if (s.mass && s.pieces > 0) *out_.row.made_mg += static_cast<book::Int>(Wide{s.mass->value} * s.spoiled / s.pieces);
    book::Move waste;
    waste.lot = id_;
    waste.seq = entry_->seq;
    waste.way = Way::waste;
    waste.stated = 0;  // the stock weighs it, so that waste and rest sum to what was made
    waste.pieces = s.spoiled;
    waste.happened = entry_->happened.ms;
    waste.why = s.why;
    out_.moves.push_back(std::move(waste));
}

void Gatherer::operator()(const record::Split& s) {
    if (voided()) return;
    if (!made_here()) {
        if (!out_.first_split) out_.first_split = entry_->happened;
        return;
    }
    const auto parent = ledger_.rows().lot(s.lot);
    born(LotKind::rack, s.child, parent ? parent->item : "");
    out_.row.place = s.unit;
    out_.row.made_pieces = pieces_or_none(s.pieces);
    take_part(s.lot, mass_or_none(s.mass), pieces_or_none(s.pieces), true, "");
    carry_holds();
    if (!parent) return;
    out_.row.plan_seq = parent->plan_seq;
    out_.row.day = parent->day;
    out_.row.week = parent->week;
    const auto known = d_.gathered.find(parent->id);  // folded before its racks, where the entry is about it
    std::optional<LotFacts> afresh;
    const LotFacts& whole = known != d_.gathered.end() ? known->second : afresh.emplace(gather(d_, parent->id));
    out_.facts = whole.facts;
    out_.plans = whole.plans;
    // What was read of the whole before the split is of each part; what is read of it later is not.
    std::erase_if(out_.facts.readings, [&](const auto& r) { return r.at > entry_->happened; });
    std::erase_if(out_.facts.inspections, [&](const auto& i) { return i.at > entry_->happened; });
    out_.facts.packed.clear();
    out_.facts.shipped.clear();
}

void Gatherer::operator()(const record::Packed& s) {
    if (voided()) return;
    if (!made_here()) {
        out_.facts.packed.push_back(entry_->happened);
        return;
    }
    const auto first = s.from.empty() ? std::nullopt : ledger_.rows().lot(s.from.front().lot);
    born(LotKind::pack, s.lot, first ? first->item : "");
    book::Lot& row = out_.row;
    row.label = s.label;
    row.printed_code = s.printed_code;
    std::int64_t pieces = 0;
    for (const auto& part : s.from) {
        take_part(part.lot, mass_or_none(part.mass), pieces_or_none(part.pieces), true, "");
        pieces += part.pieces;
    }
    carry_holds();
    row.made_pieces = pieces_or_none(s.pieces > 0 ? s.pieces : pieces);
    if (s.date) row.date = to_text(*s.date);
    if (const auto* product = ledger_.plan_version(row.plan_seq).plan->product(row.item); product && s.date) {
        row.date_kind = product->date_kind;
    }
    already_done(s.already_done, "packing under label " + s.label + ": " + s.why);
}

// Without masses: what was sent had left by a move, and how much of which lot came back nobody weighed.
void Gatherer::operator()(const record::CoPacked& s) {
    if (voided()) return;
    born(LotKind::pack, s.lot, s.product);
    book::Lot& row = out_.row;
    row.made_mg = mass_or_none(s.mass);
    row.made_pieces = pieces_or_none(s.pieces);
    row.partner = s.partner;
    row.supplier_lot = s.partner_lot;
    row.label = s.label;
    row.printed_code = s.printed_code;
    row.document = s.document;
    if (s.date) row.date = to_text(*s.date);
    if (const auto* product = ledger_.plan_version(row.plan_seq).plan->product(s.product); product && s.date) {
        row.date_kind = product->date_kind;
    }
    out_.weighed_whole = true;
    for (const auto& code : s.from) {
        take_part(code, {}, {}, !s.possible, "");
        if (!out_.uses.empty()) out_.uses.back().stated = 1;
    }
    carry_holds();
}

void Gatherer::operator()(const record::CultureRenewed&) {
    if (!voided()) out_.renewed_by = entry_->seq;
}

void Gatherer::operator()(const record::Stored& s) {
    if (voided()) return;
    out_.row.place = s.place;
    if (!out_.stays.empty()) out_.stays.back().until_ms = entry_->happened.ms;
    out_.stays.push_back({id_, entry_->seq, s.place, entry_->happened.ms, {}});
}

// By the plan of the moment, which may know of a clock that it did not when the lot came.
void Gatherer::operator()(const record::ClockStarted& s) {
    if (voided()) return;
    const auto kind = stored_word<ClockKind>(s.clock);
    const auto clocks = ledger_.plan_at(entry_->happened).plan->clocks_of(out_.row.item);
    const auto within = kind == ClockKind::opened ? clocks.opened_within : clocks.thawed_within;
    const auto until = within ? std::optional<book::Int>((entry_->happened + *within).ms) : std::nullopt;
    out_.clocks.push_back({id_, entry_->seq, kind, entry_->happened.ms, s.another ? 1 : 0, until});
}

// What a batch is as old as: the end of the step that kills, which without a record of it is taken to have been no later than the
// start; without such a step the end of its making. Of two ends the earlier counts.
void Gatherer::age() {
    if (out_.row.kind != LotKind::batch || !out_.made) return;
    const auto governing = ledger_.plan_version(out_.row.plan_seq);
    const auto* product = governing.plan->product(out_.row.item);
    const std::string step = !product ? "" : product->kill_step.empty() ? product->finish_step : product->kill_step;
    book::Int end = step == out_.facts.finish_step && out_.facts.finished ? out_.facts.finished->ms : for_ever;
    for (const auto& done : out_.facts.steps_done) {
        if (done.step == step && !done.again) end = std::min(end, done.at.ms);
    }
    const bool ended = end != for_ever;
    out_.row.aged_from = ended ? end : out_.row.happened;
    out_.row.killed = ended && product && !product->kill_step.empty() ? 1 : 0;
}

void Gatherer::operator()(const record::MovedOut& s) {
    if (voided()) return;
    book::Move move;
    move.lot = id_;
    move.seq = entry_->seq;
    move.way = stored_word<Way>(s.way);
    move.partner = s.partner;
    move.happened = entry_->happened.ms;
    move.document = s.document;
    move.carrier = s.carrier;
    move.sscc = s.sscc;
    move.round = s.round;
    move.why = s.why;
    move.of_returned = s.of_returned ? 1 : 0;
    move.sure = s.lot.empty() ? 0 : 1;
    if (move.sure) {  // of "any lot on hand" nobody knows how much was of this one
        move.mass_mg = mass_or_none(s.mass);
        move.pieces = pieces_or_none(s.pieces);
        move.stated = s.mass ? 1 : 0;
    } else {
        const std::string amount = s.pieces > 0 ? std::to_string(s.pieces) + " pieces" : s.mass ? to_text(*s.mass) : "";
        move.why = "any lot of " + s.product + " on hand: " + amount + (s.why.empty() ? "" : "; " + s.why);
    }
    out_.moves.push_back(std::move(move));
    if (!feeds_nobody(out_.moves.back().way)) out_.facts.shipped.push_back(entry_->happened);
    already_done(s.already_done, "leaving as " + s.way + ": " + s.why);
    if (s.already_done && !s.any_of.empty()) {
        out_.already_done.back().ord = std::find(s.any_of.begin(), s.any_of.end(), out_.row.code) - s.any_of.begin();
    }
}

void Gatherer::operator()(const record::Returned& s) {
    if (voided()) return;
    book::Move move;
    move.lot = id_;
    move.seq = entry_->seq;
    move.way = Way::returned;
    move.partner = s.partner;
    move.left_by = stored_word_or_none<Way>(s.way);
    move.mass_mg = mass_or_none(s.mass);
    move.pieces = pieces_or_none(s.pieces);
    move.stated = s.mass ? 1 : 0;
    move.happened = entry_->happened.ms;
    move.document = s.document;
    move.why = s.why;
    out_.moves.push_back(std::move(move));
}

void Gatherer::operator()(const record::Counted& s) {
    if (voided()) return;
    out_.counts.push_back({id_, entry_->seq, entry_->happened.ms, mass_or_none(s.mass), s.pieces, s.why});
}

void Gatherer::operator()(const record::Held& s) {
    if (voided()) return;
    book::Hold hold;
    hold.seq = entry_->seq;
    hold.lot = id_;
    hold.happened = entry_->happened.ms;
    hold.why = s.why;
    if (s.cause) {
        hold.cause_anchor = s.cause->anchor;
        hold.cause_point = s.cause->point;
        hold.cause_ord = s.cause->ord;
    }
    out_.holds.push_back(std::move(hold));
}

void Gatherer::operator()(const record::Released&) {
    if (voided()) return;
    for (auto& hold : out_.holds) {  // one written down later, though of an earlier time, was not known to whoever released
        if (!hold.released_seq && hold.seq < entry_->seq) hold.released_seq = entry_->seq;
    }
}

void Gatherer::already_done(bool flag, const std::string& what) {
    if (flag) out_.already_done.push_back({entry_->seq, entry_->happened, what, 0});
}

// A pack that left shows that packing is over for what is in it.
void Gatherer::add_left_packs() {
    if (out_.row.kind != LotKind::batch && out_.row.kind != LotKind::rack) return;
    for (const auto& use : ledger_.rows().uses_from(id_)) {
        const auto pack = ledger_.rows().lot(use.into_lot);
        if (!pack || pack->kind != LotKind::pack) continue;
        for (const auto& move : ledger_.rows().moves(pack->id)) {
            if (left_the_house(move)) out_.facts.shipped.push_back({move.happened});
        }
    }
    std::sort(out_.facts.shipped.begin(), out_.facts.shipped.end());
}

LotFacts Gatherer::finish() {
    if (!is_from_outside(out_.row.kind)) out_.facts.product = out_.row.item;
    out_.facts.label = out_.row.label;
    add_left_packs();
    if (out_.size && out_.made && !out_.size->line.empty()) {
        for (auto& use : line_uses(ledger_, out_.row, out_.size->line)) out_.uses.push_back(std::move(use));
    }
    end_culture();
    age();
    out_.runs = runs_of(ledger_, out_);
    const auto by_time = [](const auto& a, const auto& b) {
        return std::tie(a.happened, a.seq, a.row) < std::tie(b.happened, b.seq, b.row);
    };
    std::sort(out_.readings.begin(), out_.readings.end(), by_time);
    std::stable_sort(out_.facts.readings.begin(), out_.facts.readings.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    return std::move(out_);
}

LotFacts gather(Derivation& d, book::LotId lot) {
    Gatherer gatherer(d, lot);
    const auto entries = d.ledger.effective_touching(book::SubjectKind::lot, std::to_string(lot));
    for (const auto& e : entries) {
        if (e.seq == lot) gatherer.take(e);  // the maker first, wherever an amendment put its time
    }
    for (const auto& e : entries) {
        if (e.seq != lot) gatherer.take(e);
    }
    return gatherer.finish();
}

}  // namespace peelbook::fold
