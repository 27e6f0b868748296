#include "fold/lot_facts.h"

#include <algorithm>

#include "base/units.h"
#include "base/words.h"
#include "fold/derivation.h"
#include "fold/instrument_state.h"
#include "fold/line.h"
#include "fold/logger/series.h"
#include "fold/lot_runs.h"
#include "fold/ratchet/waiting.h"
#include "fold/standing.h"
#include "fold/touches.h"

namespace peelbook::fold {
namespace {

std::optional<book::Int> mg(const std::optional<Measure>& mass) { return mass ? std::optional<book::Int>(mass->value) : std::nullopt; }
std::optional<book::Int> counted(std::int64_t pieces) { return pieces > 0 ? std::optional<book::Int>(pieces) : std::nullopt; }

// Kinds that are about a vessel, a line's labels, an instrument or a piece of equipment, and reach lots through those.
template <class S>
concept NeverOfLot = OfNoSubject<S> || OneOf<S, record::Emptied, record::Cleaned, record::LabelChecked, record::LabelsCounted,
                                             record::Calibrated, record::ServiceChanged, record::Outage>;

class Gatherer {
  public:
    Gatherer(Derivation& d, book::LotId id) : d_(d), ledger_(d.ledger), id_(id) {
        if (auto row = ledger_.rows().lot(id)) out_.row = *row;
        out_.row.id = id;
        out_.uses_before = ledger_.rows().uses_into(id);
        out_.facts.as_of = {};
    }

    void take(const Effective& e) {
        const auto before = before_waiting(ledger_, e);
        if (before) take_as_it_stood(*before);
        entry_ = &e;
        in_ = {before ? std::optional(before->waits) : std::nullopt, {}};
        std::visit(*this, e.says);
        in_ = {};
        out_.facts.as_of = std::max(out_.facts.as_of, e.written);
    }
    LotFacts finish();

    void operator()(const record::Received& s);
    void operator()(const record::Started& s);
    void operator()(const record::Filled& s);
    void operator()(const record::Used& s);
    void operator()(const record::StepDone& s);
    void operator()(const record::Finished& s);
    void operator()(const record::Split& s);
    void operator()(const record::Packed& s);
    void operator()(const record::CoPacked& s);
    void operator()(const record::CultureRenewed& s);
    void operator()(const record::Stored& s);
    void operator()(const record::MovedOut& s);
    void operator()(const record::Returned& s);
    void operator()(const record::Counted& s);
    void operator()(const record::ReadingTaken& s);
    void operator()(const record::SeriesTaken& s);
    void operator()(const record::Inspected& s);
    void operator()(const record::Held& s);
    void operator()(const record::Released& s);
    void operator()(const record::LineFed& s) {  // the batches that ran on the line take from it: line_uses
        if (!voided()) already_done(s.already_done, "put on " + s.line + ": " + s.why);
    }
    template <NeverOfLot S> void operator()(const S&) {}

  private:
    // Of an entry whose correction waits: what was measured, the times of the batch and what went in, as they stood before.
    void take_as_it_stood(const Before& before);
    bool as_it_stood() const { return in_.only_without.has_value(); }
    // A correction may move an entry to another lot; until it is decided both are told of it.
    bool is_of_this(const std::string& code) const {
        if (!in_.only_with && !in_.only_without) return true;
        const auto lot = ledger_.rows().lot(code);
        return lot && lot->id == id_;
    }
    bool made_here() const { return entry_->seq == id_; }
    bool voided() const { return entry_->voided_by.has_value(); }
    void born(LotKind kind, const std::string& code, const std::string& item);
    void take_part(const std::string& code, std::optional<book::Int> mass, std::optional<book::Int> pieces, bool sure,
                   const std::string& note);
    std::optional<book::LotId> lot_named(const std::string& code) const;
    // Of the plan that the lot is judged by, which the ledger keeps.
    const plan::Point* point_named(const std::string& id) const { return ledger_.plan_version(out_.row.plan_seq).plan->point(id); }
    void take_draw(bool possible, const std::string& note);
    void add_reading(const std::string& point, const Measure& value, const std::string& unit, const std::string& instrument,
                     std::int64_t row, Instant at);
    bool undone() const;
    std::optional<Instant> typed_at() const;
    void already_done(bool flag, const std::string& why);
    void carry_holds();
    void add_left_packs();
    void end_culture();

    Derivation& d_;
    Ledger& ledger_;
    book::LotId id_;
    const Effective* entry_ = nullptr;
    judge::InWorlds in_;  // that the entry is taken in
    LotFacts out_;
};

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
    row.made_mg = mg(s.mass);
    row.made_pieces = counted(s.pieces);
    row.partner = s.supplier;
    row.supplier_lot = s.supplier_lot;
    row.gtin = s.gtin;
    if (s.date) row.date = to_text(*s.date);
    if (s.date && material) row.date_kind = material->date_kind;
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

// A part is as held as the whole that it came from (rule 50): by every hold that stood when it was made. A release of the whole is none
// of the part.
void Gatherer::carry_holds() {
    for (const auto& use : out_.uses) {
        if (use.seq != id_) continue;
        for (auto hold : ledger_.rows().holds(use.from_lot)) {
            const bool stood = hold.seq < id_ && (!hold.released_seq || *hold.released_seq > id_);
            const bool known = std::any_of(out_.holds.begin(), out_.holds.end(), [&](const auto& h) { return h.seq == hold.seq; });
            if (!stood || known) continue;
            hold.lot = id_;
            hold.released_seq.reset();
            out_.holds.push_back(std::move(hold));
        }
    }
}

// What an entry named that was never amended it still names: a lot keeps its code, and is there as long as something is made of it.
std::optional<book::LotId> Gatherer::lot_named(const std::string& code) const {
    if (!entry_->amended_by && std::holds_alternative<record::Used>(entry_->says)) {
        const auto of_entry = [&](const auto& use) { return use.seq == entry_->seq; };
        const auto use = std::find_if(out_.uses_before.begin(), out_.uses_before.end(), of_entry);
        if (use != out_.uses_before.end() && std::none_of(use + 1, out_.uses_before.end(), of_entry)) return use->from_lot;
    }
    const auto lot = ledger_.rows().lot(code);
    return lot ? std::optional(lot->id) : std::nullopt;
}

void Gatherer::take_part(const std::string& code, std::optional<book::Int> mass, std::optional<book::Int> pieces, bool sure,
                         const std::string& note) {
    const auto from = lot_named(code);
    if (!from) return;
    book::Use use;
    use.into_lot = id_;
    use.from_lot = *from;
    use.seq = entry_->seq;
    use.mass_mg = mass;
    use.pieces = pieces;
    use.stated = mass.has_value() ? 1 : 0;
    use.sure = sure ? 1 : 0;
    use.happened = entry_->happened.ms;
    use.note = note;
    out_.uses.push_back(std::move(use));
}

// The vessel's fold says what a draw may be of; when it had nothing new to say, what stands is kept.
void Gatherer::take_draw(bool possible, const std::string& note) {
    const auto found = d_.drawn.find(entry_->seq);
    if (found == d_.drawn.end() || as_it_stood()) {
        const auto struck = [&](const auto& use) { return use.seq == entry_->seq && use.struck_by; };
        const bool known = std::any_of(out_.uses_before.begin(), out_.uses_before.end(), struck);
        for (const auto& use : out_.uses_before) {
            if (use.seq == entry_->seq && (!known || use.struck_by.has_value() == as_it_stood())) out_.uses.push_back(use);
        }
        return;
    }
    for (const DrawPart& part : found->second) {
        book::Use use;
        use.into_lot = id_;
        use.from_lot = part.from;
        use.seq = entry_->seq;
        use.mass_mg = part.expected_mg;
        if (part.largest_mg != part.expected_mg) use.largest_mg = part.largest_mg;
        use.sure = part.certain && !possible ? 1 : 0;
        use.happened = entry_->happened.ms;
        use.note = note;
        out_.uses.push_back(std::move(use));
    }
}

void Gatherer::operator()(const record::Used& s) {
    if (voided() || !is_of_this(s.into)) return;
    const auto known = out_.uses.size();
    if (ledger_.plan_at(entry_->happened).plan->vessel(s.lot)) {
        take_draw(s.possible, s.why);
    } else {
        take_part(s.lot, mg(s.mass), counted(s.pieces), !s.possible, s.why);
    }
    const std::vector<book::Use> taken(out_.uses.begin() + static_cast<std::ptrdiff_t>(known), out_.uses.end());
    std::erase_if(out_.uses, [&](const auto& use) {  // what is still taken is not struck
        const auto same = [&](const auto& now) { return now.from_lot == use.from_lot && now.seq == use.seq; };
        return use.struck_by && std::any_of(taken.begin(), taken.end(), same);
    });
    if (!as_it_stood()) already_done(s.already_done, "use of " + s.lot + ": " + s.why);
}

void Gatherer::operator()(const record::StepDone& s) {
    if (voided()) return;
    out_.facts.steps_done.push_back({entry_->seq, s.step, entry_->happened, s.again, in_});
}

void Gatherer::operator()(const record::Finished& s) {
    if (voided()) return;
    out_.row.finished = entry_->happened.ms;
    out_.row.made_mg = mg(s.mass);
    out_.row.made_pieces = counted(s.pieces + s.spoiled);
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
    out_.row.made_pieces = counted(s.pieces);
    take_part(s.lot, mg(s.mass), counted(s.pieces), true, "");
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
        take_part(part.lot, mg(part.mass), counted(part.pieces), true, "");
        pieces += part.pieces;
    }
    carry_holds();
    row.made_pieces = counted(s.pieces > 0 ? s.pieces : pieces);
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
    row.made_mg = mg(s.mass);
    row.made_pieces = counted(s.pieces);
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

// What the lot took over from its own kind is where the decision cuts; flour and water stay.
void Gatherer::end_culture() {
    for (auto& use : out_.uses) {
        const auto from = out_.renewed_by ? ledger_.rows().lot(use.from_lot) : std::nullopt;
        use.ended_by = from && from->item == out_.row.item ? out_.renewed_by : std::nullopt;
    }
}

void Gatherer::operator()(const record::Stored& s) {
    if (voided()) return;
    out_.row.place = s.place;
    if (!out_.stays.empty()) out_.stays.back().until_ms = entry_->happened.ms;
    out_.stays.push_back({id_, entry_->seq, s.place, entry_->happened.ms, {}});
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
    move.why = s.why;
    move.of_returned = s.of_returned ? 1 : 0;
    move.sure = s.lot.empty() ? 0 : 1;
    if (move.sure) {  // of "any lot on hand" nobody knows how much was of this one
        move.mass_mg = mg(s.mass);
        move.pieces = counted(s.pieces);
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
    move.mass_mg = mg(s.mass);
    move.pieces = counted(s.pieces);
    move.stated = s.mass ? 1 : 0;
    move.happened = entry_->happened.ms;
    move.document = s.document;
    move.why = s.why;
    out_.moves.push_back(std::move(move));
}

void Gatherer::operator()(const record::Counted& s) {
    if (voided()) return;
    out_.counts.push_back({id_, entry_->seq, entry_->happened.ms, mg(s.mass), s.pieces, s.why});
}

// Taken back at once by whoever typed it: as if it had not been typed.
bool Gatherer::undone() const {
    if (!entry_->voided_by) return false;
    const auto* says = std::get_if<record::Statement>(&ledger_.entry(*entry_->voided_by).payload);
    const auto* voided = says ? std::get_if<record::Voided>(says) : nullptr;
    return voided && voided->undo;
}

void Gatherer::add_reading(const std::string& point, const Measure& value, const std::string& unit, const std::string& instrument,
                           std::int64_t row, Instant at) {
    book::Reading reading;
    reading.seq = entry_->seq;
    reading.row = row;
    reading.lot = id_;
    reading.point = point;
    reading.unit = unit;
    reading.instrument = instrument;
    reading.value = value.value;
    reading.symbol = std::string(symbol(value.unit));
    reading.typed = to_text(value);
    reading.happened = at.ms;
    reading.by = entry_->by;
    reading.voided_by = entry_->voided_by;
    if (!as_it_stood()) out_.readings.push_back(std::move(reading));
    if (undone()) return;
    judge::ReadingFact fact;
    fact.in = in_;
    fact.seq = entry_->seq;
    fact.row = row;
    fact.at = at;
    fact.point = point;
    fact.value = value;
    fact.unit = unit;
    fact.instrument = instrument_state(ledger_, point_named(point), instrument, at);
    const auto governing = ledger_.plan_at(at);
    if (const auto* known = governing.plan->instrument(instrument)) {
        fact.tolerance = known->tolerance;
        fact.guard = known->uncertainty ? known->uncertainty : known->tolerance;
    }
    fact.by = entry_->by;
    fact.voided = voided();
    out_.facts.readings.push_back(std::move(fact));
}

// An amendment states a reading better; it was typed when it was first stated. Who has countersigned it vouches for the time.
std::optional<Instant> Gatherer::typed_at() const {
    const Instant written = ledger_.entry(entry_->seq).written;
    if (written - entry_->happened <= out_.facts.late_after) return written;
    const auto waited = ledger_.rows().waiting(entry_->seq);
    return waited && waited->decided_by && waited->refused == 0 ? std::nullopt : std::optional(written);
}

void Gatherer::operator()(const record::ReadingTaken& s) {
    if (!is_of_this(s.subject)) return;
    add_reading(s.point, s.value, s.unit, s.instrument, 0, entry_->happened);
    if (undone()) return;
    out_.facts.readings.back().written = typed_at();
    out_.facts.readings.back().slip = s.slip;
}

// In order of time; of doubled rows one counts.
void Gatherer::operator()(const record::SeriesTaken& s) {
    if (!is_of_this(s.subject)) return;
    const auto unit = unit_from_symbol(s.value_unit).value_or(Unit::celsius);
    std::vector<LoggerRow> rows;
    auto check = read_series(ledger_, *entry_, most_rows_of_a_lot, [&](const LoggerRow& row) { rows.push_back(row); });
    std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    const bool told = check.in_order();
    if (!told) check.begin_time();
    std::int64_t number = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (!told) check.in_time(rows[i].at, rows[i].line, *rows[i].value);
        if (i > 0 && rows[i].at == rows[i - 1].at && rows[i].value == rows[i - 1].value) continue;
        add_reading(s.point, as_logged(*rows[i].value, unit), s.unit, s.instrument, number++, rows[i].at);
        if (check.hour_unclear() && rows[i].again > Duration{}) out_.facts.readings.back().or_at = rows[i].at + rows[i].again;
        out_.facts.readings.back().logged = true;
    }
    if (as_it_stood()) return;
    out_.series.push_back(series_row_of(*entry_, s));
    out_.series.back().lot = id_;
    check.tell(out_.series.back());
    for (auto& fault : check.faults(entry_->seq)) out_.series_faults.push_back(std::move(fault));
}

void Gatherer::operator()(const record::Inspected& s) {
    if (!is_of_this(s.subject)) return;
    book::Reading reading;
    reading.seq = entry_->seq;
    reading.lot = id_;
    reading.point = s.point;
    reading.unit = s.unit;
    reading.instrument = s.instrument;
    reading.value = s.passed ? 1 : 0;
    reading.typed = s.passed ? "yes" : "no";
    reading.happened = entry_->happened.ms;
    reading.by = entry_->by;
    reading.voided_by = entry_->voided_by;
    if (!as_it_stood()) out_.readings.push_back(std::move(reading));
    if (undone()) return;
    out_.facts.inspections.push_back({entry_->seq, entry_->happened, s.point, s.unit, s.passed,
                                      instrument_state(ledger_, point_named(s.point), s.instrument, entry_->happened), voided(),
                                      typed_at(), s.slip, in_});
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
    out_.runs = runs_of(ledger_, out_);
    const auto by_time = [](const auto& a, const auto& b) {
        return std::tie(a.happened, a.seq, a.row) < std::tie(b.happened, b.seq, b.row);
    };
    std::sort(out_.readings.begin(), out_.readings.end(), by_time);
    std::stable_sort(out_.facts.readings.begin(), out_.facts.readings.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    return std::move(out_);
}

}  // namespace

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
