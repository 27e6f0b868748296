#include "fold/gate/gate.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "base/words.h"
#include "fold/dates.h"
#include "fold/gate/strict.h"
#include "fold/label.h"
#include "fold/owed/device.h"
#include "fold/owed/duty.h"
#include "fold/standing.h"

namespace peelbook::fold {
namespace {

const std::string if_done = "if it has already happened: --already-done --why ...";

std::string doing(Act act) {
    switch (act) {
        case Act::use:
        case Act::rework:
            return "use of ";
        case Act::fill:
            return "a fill with ";
        case Act::pack:
            return "packing ";
        case Act::count:
            return "a count of ";
        case Act::release:
            return "a release of ";
        case Act::customer:
        case Act::van:
        case Act::own_shop:
        case Act::staff_shop:
        case Act::donation:
        case Act::animal_feed:
        case Act::co_packer:
            return "shipping ";
        case Act::onto:
            return "a fill onto ";
        case Act::store:
        case Act::split:
        case Act::waste:
        case Act::sample:
        case Act::supplier:
            break;
    }
    return std::string(word(act)) + " of ";
}

class Stops {
  public:
    Stops(Ledger& ledger, const Passage& passage, const book::Lot& lot, Instant at, Instant now)
        : ledger_(ledger), rows_(ledger.rows()), passage_(passage), lot_(lot), at_(at), now_(now) {}

    std::vector<Stop> all();

  private:
    void add(State state, const std::string& what, std::string wanted, std::string next) {
        found_.push_back({state, doing(passage_.act) + lot_.code + what, std::move(wanted), std::move(next)});
    }
    void recalled();
    void on_hold();
    void points();
    void devices();
    void place();
    void date();
    void printed_date();
    void label();
    bool matters(const book::Unsettled& row) const;
    std::string words(const book::Unsettled& row) const;
    std::string command_for(const book::Unsettled& open) const;
    std::vector<book::Unsettled> causes_of_holds() const;

    Ledger& ledger_;
    book::Derived& rows_;
    const Passage& passage_;
    const book::Lot& lot_;
    Instant at_, now_;
    std::vector<Stop> found_;
};

void Stops::recalled() {
    const auto recall = rows_.covering(lot_.id);
    if (!recall) return;
    add(State::recalled, ", covered by " + recall->code + ": " + recall->hazard, "a lot that no open recall covers",
        "keep it apart, discard it or give it back; only a signed decision leaves it out: peelbook recall narrow " + recall->code + " " +
            lot_.code + " --hazard ... --why ...; " + if_done);
}

void Stops::on_hold() {
    std::string reason;
    for (const auto& hold : rows_.holds(lot_.id)) {
        if (!hold.released_seq) reason = hold.why;
    }
    if (reason.empty()) return;
    add(State::held, ", on hold: " + reason, "a lot that is not held", "let a person who may release it decide; " + if_done);
}

// Packing asks for the steps before it, a use for all but what the receiver will show of it as strictly; all else asks for all.
bool Stops::matters(const book::Unsettled& row) const {
    if (row.verdict) return true;
    if (passage_.into && row.source == lot_.id) return !travels(ledger_, row, *passage_.into);
    if (passage_.act != Act::pack) return true;
    const auto source = rows_.lot(row.source);
    if (!source || (row.source != lot_.id && source->item != lot_.item)) return true;
    const auto governing = ledger_.plan_version(source->plan_seq);
    const auto* point = governing.plan->point(row.point);
    const auto* product = governing.plan->product(source->item);
    if (!point || !product) return true;
    const auto place = [&](std::string_view step) { return std::find(product->steps.begin(), product->steps.end(), step); };
    return place(point->step) < place("pack");
}

std::string Stops::words(const book::Unsettled& row) const {
    const auto source = rows_.lot(row.source);
    const std::string of = row.point + " of " + (source ? source->code : "");
    if (!row.verdict) {
        const auto governing = ledger_.plan_version(source ? source->plan_seq : 0);
        const auto* point = governing.plan->point(row.point);
        return of + (point ? ", " + point->limit_text : "");
    }
    const auto f = rows_.finding(row.anchor, row.point, row.ord);
    return in_words(static_cast<Verdict>(*row.verdict)) + ": " + of + (!f || f->unit.empty() ? "" : " " + f->unit) +
           (f ? ", " + f->measured : "") + " [" + std::to_string(row.anchor) + ":" + row.point + ":" + std::to_string(row.ord) + "]";
}

std::string Stops::command_for(const book::Unsettled& open) const {
    const auto source = rows_.lot(open.source);
    if (!source) return "";
    const auto governing = ledger_.plan_version(source->plan_seq);
    const auto* point = governing.plan->point(open.point);
    const std::string what = source->code + " " + open.point;
    const auto* time = point ? std::get_if<plan::TimeLimit>(&point->limit) : nullptr;
    if (time) return "peelbook step " + source->code + " " + time->until;
    const bool seen = point && std::holds_alternative<plan::YesNoLimit>(point->limit);
    return seen ? "peelbook inspect " + what + " yes" : "peelbook reading " + what + " VALUE --with INSTRUMENT";
}

// A release answers what held the lot, also a finding on a device or a room.
std::vector<book::Unsettled> Stops::causes_of_holds() const {
    std::vector<book::Unsettled> out;
    for (const auto& hold : rows_.holds(lot_.id)) {
        if (hold.released_seq.value_or(passage_.release) != passage_.release || !hold.cause_anchor) continue;
        const auto f = rows_.finding(*hold.cause_anchor, hold.cause_point, *hold.cause_ord);
        const bool answered = f && f->decided && f->decided != record::Disposition::discard;
        if (f && !f->lot && is_open(*f) && !answered) {
            out.push_back({lot_.id, lot_.id, f->anchor, f->point, f->ord, static_cast<book::Int>(f->verdict), {}});
        }
    }
    return out;
}

void Stops::points() {
    auto rows = rows_.unsettled(lot_.id);
    if (passage_.act == Act::release) {
        for (auto& cause : causes_of_holds()) rows.push_back(std::move(cause));
    }
    std::vector<std::string> bad, open;
    std::string first_open;  // how to record the first of them
    std::set<record::Disposition> decided;
    for (const auto& row : rows) {
        if (!matters(row)) continue;
        if (row.decided) {
            decided.insert(*row.decided);
        } else {
            (row.verdict ? bad : open).push_back(words(row));
            if (!row.verdict && first_open.empty()) first_open = command_for(row);
        }
    }
    if (!bad.empty()) {
        add(State::finding,
            std::string(" with ") + (bad.size() == 1 ? "a critical point" : "critical points") + " not within: " + joined(bad, "; "),
            "every critical point within, or a signed disposition for each",
            "record what is missing, or decide with: peelbook act FINDING --disposition ...; " + if_done);
    }
    const auto signed_for = [&](record::Disposition what, State state, const std::string& allowed) {
        if (!decided.contains(what)) return;
        add(state, ", signed for " + std::string(word(what)), allowed,
            "do what was signed, or sign anew: peelbook act FINDING --disposition ...; " + if_done);
    };
    signed_for(record::Disposition::rework, State::to_rework, "a use of it in a batch, or waste");
    signed_for(record::Disposition::downgrade, State::downgraded, "a way that feeds no people: animal-feed, or waste");
    signed_for(record::Disposition::discard, State::to_discard, "waste");
    if (open.empty()) return;
    add(State::owed,
        std::string(" with ") + (open.size() == 1 ? "a critical point" : "critical points") +
            " that no record shows yet: " + joined(open, "; "),
        "each critical point up to here shown by a record", "measure and record it: " + first_open + "; " + if_done);
}

// Packing asks only that no device of the line has failed since its last good check: what is owed at the end of a run is owed before
// the van, not before the first pallet. Leaving asks that the checks before and after the packing were good. What leaves unpacked
// passes the devices now.
void Stops::devices() {
    const bool packed = lot_.kind == LotKind::pack;
    if (packed && !lot_.partner.empty()) return;  // by a co-packer
    const bool passes_now = is_goods(lot_.kind) && (passage_.act == Act::pack || leaves_the_house(passage_.act));
    if (!packed && !passes_now) return;
    auto passing = lot_;
    if (!packed) passing.happened = at_.ms;
    std::vector<std::string> bad, open, checks;
    for (const auto& device : passage_.act == Act::pack ? devices_failed(ledger_, passing) : devices_passed(ledger_, passing, now_)) {
        const std::string told = device.point + " at " + device.place + ": " + device.why;
        if (device.state == Passing::bad) bad.push_back(told);
        if (device.state == Passing::open && packed) open.push_back(told);
        if (device.state != Passing::good) checks.push_back("peelbook inspect or reading " + device.place + " " + device.point);
    }
    if (packed && labels_read(ledger_, lot_) == Passing::open) {
        open.push_back("its label, to be read at the end of the run");
        checks.push_back("peelbook labels read LINE end");
    }
    if (!bad.empty()) {
        add(State::device_bad, ", with no good check of its line: " + joined(bad, "; "), "a good check before it and after it",
            "repair and check it, then: " + joined(checks, ", ") + "; what passed is for quality to decide; " + if_done);
    }
    if (!open.empty()) {
        add(State::unchecked, ", before the check at the end of its run: " + joined(open, "; "),
            "a good check after the packing, and one before it", "check it and record it: " + joined(checks, ", ") + "; " + if_done);
    }
}

// Of a room that was not read in time nobody knows what lay in it.
void Stops::place() {
    if (lot_.place.empty() || !leaves_the_house(passage_.act)) return;
    const auto governing = ledger_.plan_at(at_);
    for (const auto* point : governing.plan->points_of_place(lot_.place)) {
        if (point->grade != Grade::critical || !point->interval) continue;
        const auto duty = duty_at(ledger_, lot_.place, point->id, now_);
        if (!duty || !duty->overdue(now_)) continue;
        add(State::unchecked, " out of " + lot_.place + ", where " + point->id + " was to be read by " + to_text(ledger_.zone(), duty->due),
            "a place that was read in time, or now", "read it: peelbook reading " + lot_.place + " " + point->id + " ...; " + if_done);
        return;
    }
}

void Stops::date() {
    const auto ends = ends_of_use(ledger_, lot_, at_);
    const auto past = [&](DateKind kind) {
        return std::find_if(ends.begin(), ends.end(), [&](const auto& end) { return end.kind == kind && end.until_ms <= at_.ms; });
    };
    if (const auto end = past(DateKind::use_by); end != ends.end()) {
        const std::string wanted = end->reason == book::KeptBy::date ? "a lot within its use-by date" : "a lot within its time";
        add(State::past_use_by, ", past " + fold::words(ledger_, *end, lot_.id), wanted, "discard it; " + if_done);
    }
    if (const auto end = past(DateKind::best_before); end != ends.end()) {
        add(State::past_best_before, ", past " + fold::words(ledger_, *end, lot_.id), "a reason for it all the same",
            "add --why \"...\"; it will show");
    }
}

// What is printed on packs is there where it must be, and no later than what was worked out.
void Stops::printed_date() {
    if (!passage_.packed) return;
    const auto& date = passage_.packed->date;
    const auto latest = latest_date(ledger_, lot_, at_);
    const auto governing = ledger_.plan_version(lot_.plan_seq);
    const auto* product = governing.plan->product(lot_.item);
    if (!latest || (date ? *date <= latest->date : !product || !wants_date(*product))) return;
    add(State::misdated, date ? " under the date " + to_text(*date) : ", which has no date on its packs",
        in_words(product ? product->date_kind : DateKind::best_before) + " " + to_text(latest->date) + " at the latest: " + latest->why,
        (date ? "print the right date, and pack those; " : "add --date as it is printed; where none is, print anew; ") + if_done);
}

std::string told(const LabelGaps& gaps) {
    std::vector<std::string> out;
    for (const auto& [allergen, from] : gaps.undeclared) out.push_back(allergen + " (in " + from + ")");
    return joined(out, ", ");
}

// Of a pack: its own label against the lots and the formula. Of a use: what the lot brings, against the labels that the batch may
// come under; one that covers it is enough.
void Stops::label() {
    const auto into = passage_.into ? rows_.lot(*passage_.into) : std::nullopt;
    const bool packs = passage_.act == Act::pack || passage_.act == Act::rework;
    if (!packs && !into) return;
    const auto governing = ledger_.plan_version((into ? *into : lot_).plan_seq);
    const plan::Plan& plan = *governing.plan;
    std::vector<const plan::Label*> labels;
    if (!passage_.label.empty()) {
        labels = {ledger_.plan_at(at_).plan->label(passage_.label)};
    } else if (into) {
        labels = labels_of_product(plan, *into);
    }
    std::erase(labels, nullptr);
    std::string first;
    for (const auto* label : labels) {
        const auto gaps = label_gaps(ledger_, plan, *label, into ? "" : lot_.item, {lot_.id});
        if (gaps.undeclared.empty()) return;
        if (first.empty()) first = "label " + label->id + ", which does not declare " + told(gaps);
    }
    if (first.empty()) return;
    const std::string under = into ? " into " + into->code + ", to be packed under " : " under ";
    add(State::label_short, under + first, "a label that declares every allergen of the lots really used and of the formula",
        (into ? "take another lot, or name the label that it will be packed under: --label LABEL; " : "pack under another label; ") +
            if_done);
}

std::vector<Stop> Stops::all() {
    if (lot_.kind == LotKind::supply) return {};
    recalled();
    if (passage_.returned) return std::move(found_);
    if (lot_.status == book::LotStatus::refused)
        add(State::refused, ", refused on receipt", "an accepted lot", "take another lot; " + if_done);
    on_hold();
    points();
    if (is_open(lot_))
        add(State::unfinished, ", a batch that nobody finished", "a finished batch: its pieces are counted at finish",
            "record finish first; " + if_done);
    devices();
    place();
    date();
    label();
    printed_date();
    std::stable_sort(found_.begin(), found_.end(), [](const auto& a, const auto& b) { return a.state < b.state; });
    return std::move(found_);
}

bool lets_pass(const Passage& passage, const Stop& stop, const std::string& why) {
    const Answer given = answer(passage.act, stop.state);
    return given == Answer::yes || given == Answer::along || (given == Answer::why && !trimmed(why).empty());
}

std::optional<Stop> first_stop(Ledger& ledger, const Passage& passage, Instant at, Instant now, const std::string& why,
                               std::vector<std::string>* practised) {
    for (auto& stop : stops(ledger, passage, at, now)) {
        if (lets_pass(passage, stop, why)) continue;
        if (!practised || !is_practised(stop.state)) return std::move(stop);
        practised->push_back("refused: " + stop.given);
    }
    return {};
}

// Pieces that went out by product, of any of these, since they were last counted: their stock was not lowered by it. Whatever time they
// are said to have left; `besides`: the entry that is asked about.
book::Int gone_by_product(Ledger& ledger, const std::vector<book::LotId>& lots, Seq besides) {
    std::set<Seq> entries;
    for (const auto lot : lots) {
        book::Int counted = 0;
        for (const auto& count : ledger.rows().counts(lot)) counted = std::max(counted, count.happened);
        for (const auto& move : ledger.rows().moves(lot)) {
            if (move.sure == 0 && move.seq != besides && move.happened > counted) entries.insert(move.seq);
        }
    }
    book::Int sum = 0;
    for (const Seq seq : entries) sum += std::get<record::MovedOut>(ledger.effective(seq).says).pieces;
    return sum;
}

// By product: what stands free must suffice, for any of it may be what went.
Check any_lot(Ledger& ledger, const Passages& p, const Passage& passage, Instant at, Instant now, std::vector<std::string>* practised) {
    std::vector<book::LotId> free;
    std::vector<std::string> kept;
    book::Int there = 0;
    for (const auto id : p.any_of) {
        if (const auto stopped = first_stop(ledger, {passage.act, id}, at, now, p.why, practised)) {
            kept.push_back(stopped->given);
            continue;
        }
        there += ledger.rows().stock(id).value_or(book::Stock{}).on_hand_pieces;
        free.push_back(id);
    }
    if (!free.empty() && there >= p.pieces + gone_by_product(ledger, free, p.seq)) return {};
    return Refusal{
        "more by product than stands free: " + std::to_string(there) + " pieces" + (kept.empty() ? "" : "; not " + joined(kept, "; not ")),
        "no more than the lots that may go, less what went by product before",
        "type the lot that really left: peelbook ship LOT ...; " + if_done,
        {}};
}

}  // namespace

std::vector<Stop> stops(Ledger& ledger, const Passage& passage, Instant at, Instant now) {
    const auto lot = ledger.rows().lot(passage.lot);
    return lot ? Stops(ledger, passage, *lot, at, now).all() : std::vector<Stop>{};
}

std::optional<Stop> kept_by(Ledger& ledger, const Passage& passage, Instant at, Instant now) {
    std::vector<std::string> practised;
    return first_stop(ledger, passage, at, now, "", ledger.in_practice() ? &practised : nullptr);
}

Check gate(Ledger& ledger, const Passages& passages, Instant at, Instant now, const std::vector<Passage>& before,
           std::vector<std::string>* practised) {
    if (passages.already_done) return {};
    for (const auto& passage : passages.all) {
        if (std::find(before.begin(), before.end(), passage) != before.end()) continue;
        if (passage.lot == 0) {
            if (auto checked = any_lot(ledger, passages, passage, at, now, practised); !checked) return checked;
            continue;
        }
        const auto stopped = first_stop(ledger, passage, at, now, passages.why, practised);
        if (stopped) return Refusal{stopped->given, stopped->wanted, stopped->next, {}};
    }
    return {};
}

}  // namespace peelbook::fold
