#include "simulate/facts.h"

#include <algorithm>

namespace peelbook::simulate {
namespace {

constexpr std::int64_t warm_room = 5'000;  // above it, in thousandths of a degree, the chilled room breaks its limit

constexpr const char* none_left = ", none left then";

// However far down.
std::string of_held(const std::string& why) {
    const std::string root = why.substr(0, why.find(none_left));
    return root.starts_with("made of ") ? root : "made of " + root;
}

}  // namespace

const Lot* Facts::lot(const std::string& code) const {
    const auto found = lots_.find(code);
    return found == lots_.end() ? nullptr : &found->second;
}
const Lot* Facts::lot_of(Seq seq) const {
    const auto found = by_id_.find(seq);
    return found == by_id_.end() ? nullptr : lot(found->second);
}
Lot* Facts::find(const std::string& code) {
    const auto found = lots_.find(code);
    return found == lots_.end() ? nullptr : &found->second;
}

bool Facts::is_recalled(const std::string& code) const {
    return std::any_of(recalls_.begin(), recalls_.end(),
                       [&](const auto& open) { return open.second.covered.contains(code) && !open.second.left_out.contains(code); });
}

std::string Facts::standing_in(const std::string& vessel, Instant at) const {
    std::string blend;
    const auto found = vessels_.find(vessel);
    if (found == vessels_.end()) return blend;
    for (const auto& [since, code] : found->second)
        if (since <= at) blend = code;
    return blend;
}

const std::vector<Read>& Facts::checks(const std::string& place) const {
    static const std::vector<Read> none;
    const auto found = checks_.find(place);
    return found == checks_.end() ? none : found->second;
}

void Facts::take(const record::Entry& entry) {
    entries_.push_back(entry);
    if (const auto* amended = std::get_if<record::Amended>(&entry.payload)) {
        amended_[amended->target].emplace_back(entry.seq, *amended);
        return read_again();
    }
    const auto& says = std::get<record::Statement>(entry.payload);
    if (const auto* voided = std::get_if<record::Voided>(&says)) {
        voided_[voided->target] = entry.seq;
        return read_again();
    }
    apply(entry, says);
}

void Facts::leave_out(std::set<Seq> entries) {
    if (entries == left_out_) return;
    left_out_ = std::move(entries);
    read_again();
}

void Facts::read_again() {
    lots_.clear();
    by_id_.clear();
    checks_.clear();
    decided_.clear();
    vessels_.clear();
    adoptions_.clear();
    outages_.clear();
    calibrated_.clear();
    recalls_.clear();
    for (auto entry : entries_) {
        const auto* says = std::get_if<record::Statement>(&entry.payload);
        if (!says || left_out_.contains(entry.seq)) continue;
        const auto voided = voided_.find(entry.seq);
        if (voided != voided_.end() && !left_out_.contains(voided->second)) continue;
        const record::Amended* last = nullptr;
        for (const auto& [seq, amended] : amended_[entry.seq])
            if (!left_out_.contains(seq)) last = &amended;
        if (last) entry.happened = last->happened.value_or(entry.happened);
        apply(entry, last ? last->statement : *says);
    }
}

void Facts::apply(const record::Entry& entry, const record::Statement& says) {
    std::visit([&](const auto& s) { say(entry, s); }, says);
}

Lot& Facts::born(const record::Entry& entry, const std::string& code, const std::string& kind, const std::string& item) {
    Lot lot;
    lot.id = entry.seq;
    lot.code = code;
    lot.kind = kind;
    lot.item = item;
    lot.at = entry.happened;
    lot.plan = plan();
    by_id_[entry.seq] = code;
    return lots_[code] = lot;
}

// What a held lot becomes part of is held as it is, however the part came about.
void Facts::part_of(Lot& lot, const std::string& code) {
    const Lot* from = find(code);
    if (!from) return;
    lot.from.push_back(code);
    if (!from->finished) lot.raw.insert(code);
    if (!from->held.empty()) hold(lot.code, of_held(from->held));
}

void Facts::hold(const std::string& code, const std::string& why) {
    Lot* lot = find(code);
    if (!lot || !lot->held.empty()) return;
    lot->held = why;
    for (const auto& [other, made] : lots_) {
        if (std::find(made.from.begin(), made.from.end(), code) == made.from.end()) continue;
        const bool here = made.pieces > 0 || made.mg > 0 || !made.finished;
        hold(other, of_held(why) + (here ? "" : none_left));
    }
}

void Facts::check(const std::string& place, Read read) {
    auto& all = checks_[place];
    all.push_back(std::move(read));
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return std::tie(a.at, a.seq) < std::tie(b.at, b.seq); });
}

void Facts::take_out(const std::string& code, std::int64_t pieces, const std::optional<Measure>& mass) {
    Lot* lot = find(code);
    if (!lot) return;
    lot->pieces -= pieces;
    if (mass) lot->mg -= mass->value;
}

template <class S> void Facts::say(const record::Entry& entry, const S& s) {
    using namespace record;
    if constexpr (std::is_same_v<S, PlanAdopted>) {
        adoptions_.emplace_back(entry.seq, entry.happened);
    } else if constexpr (std::is_same_v<S, Outage>) {
        outages_.push_back(s);
    } else if constexpr (std::is_same_v<S, Received>) {
        Lot& lot = born(entry, s.lot, s.material == "water" ? "supply" : "received", s.material);
        lot.refused = s.status == "refused";
        lot.finished = true;
        if (s.status == "held") lot.held = "named";
        lot.supplier_lot = s.supplier_lot;
        if (s.date) lot.date = to_text(*s.date);
        lot.allergens = {s.allergens.contains.begin(), s.allergens.contains.end()};
        lot.mg = s.mass ? s.mass->value : 0;
        if (s.temperature) lot.reads.push_back({entry.seq, entry.happened, "milk-cold", s.temperature->value, s.instrument});
    } else if constexpr (std::is_same_v<S, Filled>) {
        const std::string before = standing_in(s.vessel, entry.happened);
        const Lot* filled = find(s.lot);
        Lot& lot = born(entry, s.blend, "blend", filled ? filled->item : "");
        lot.finished = true;
        lot.mg = s.mass ? s.mass->value : 0;
        if (const Lot* old = find(before)) lot.mg += old->mg;
        if (!before.empty()) part_of(lot, before);
        part_of(lot, s.lot);
        take_out(s.lot, 0, s.mass);
        if (Lot* old = find(before)) old->mg = 0;
        auto& fills = vessels_[s.vessel];
        fills.emplace_back(entry.happened, s.blend);
        std::stable_sort(fills.begin(), fills.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    } else if constexpr (std::is_same_v<S, Emptied>) {
        if (s.inspected) vessels_[s.vessel].emplace_back(entry.happened, "");
    } else if constexpr (std::is_same_v<S, Started>) {
        born(entry, s.lot, "batch", s.product);
    } else if constexpr (std::is_same_v<S, Used>) {
        const std::string from = is_vessel(s.lot) ? standing_in(s.lot, entry.happened) : s.lot;
        Lot* into = find(s.into);
        if (into && !s.possible) part_of(*into, from);
        take_out(from, s.pieces, s.mass);
    } else if constexpr (std::is_same_v<S, StepDone>) {
        if (Lot* lot = find(s.lot)) lot->steps[s.step].push_back({entry.happened, s.again});
    } else if constexpr (std::is_same_v<S, Finished>) {
        if (Lot* lot = find(s.lot)) {
            lot->finished = true;
            lot->pieces += s.pieces;
            if (s.pieces == 0 && s.mass) lot->mg += s.mass->value;
            lot->finished_at = entry.happened;
        }
    } else if constexpr (std::is_same_v<S, Split>) {
        const Lot* whole = find(s.lot);
        Lot& lot = born(entry, s.child, "rack", whole ? whole->item : "");
        lot.finished = true;
        lot.whole = s.lot;
        lot.plan = whole ? whole->plan : lot.plan;
        lot.pieces = s.pieces;
        lot.mg = s.mass ? s.mass->value : 0;
        part_of(lot, s.lot);
        take_out(s.lot, s.pieces, s.mass);
    } else if constexpr (std::is_same_v<S, Packed>) {
        const Lot* first = s.from.empty() ? nullptr : find(s.from.front().lot);
        Lot& lot = born(entry, s.lot, "pack", first ? first->item : "");
        lot.finished = true;
        lot.label = s.label;
        lot.printed = s.printed_code;
        if (s.date) lot.date = to_text(*s.date);
        for (const auto& part : s.from) {
            part_of(lot, part.lot);
            lot.pieces += s.pieces > 0 ? 0 : part.pieces;
            take_out(part.lot, part.pieces, part.mass);
        }
        lot.pieces += s.pieces;
    } else if constexpr (std::is_same_v<S, CoPacked>) {
        Lot& lot = born(entry, s.lot, "co-packed", s.product);
        lot.finished = true;
        lot.pieces = s.pieces;
        if (s.possible) return;
        for (const auto& code : s.from) part_of(lot, code);
    } else if constexpr (std::is_same_v<S, Stored>) {
        if (Lot* lot = find(s.lot)) lot->place = s.place;
    } else if constexpr (std::is_same_v<S, MovedOut>) {
        Lot* lot = find(s.lot);
        if (!lot) return;
        if (s.of_returned) lot->returned -= s.pieces;
        if (!s.of_returned) take_out(s.lot, s.pieces, s.mass);
        lot->sent[s.partner] += s.pieces;
    } else if constexpr (std::is_same_v<S, Returned>) {
        if (Lot* lot = find(s.lot)) {
            lot->returned += s.pieces;
            lot->sent[s.partner] -= s.pieces;
        }
    } else if constexpr (std::is_same_v<S, Counted>) {
        if (Lot* lot = find(s.lot)) {
            if (s.pieces) lot->pieces = *s.pieces;
            if (s.mass) lot->mg = s.mass->value;
        }
    } else if constexpr (std::is_same_v<S, ReadingTaken>) {
        const Read read{entry.seq, entry.happened, s.point, s.value.value, s.instrument, s.unit};
        if (Lot* lot = find(s.subject)) lot->reads.push_back(read);
        if (s.subject != "chill") return;
        check(s.subject, read);
        if (s.value.value <= warm_room) return;
        for (auto& [code, lot] : lots_) {  // what was made of it before is not what lay there
            const bool there = lot.place == "chill" && lot.at <= entry.happened && (lot.pieces > 0 || lot.mg > 0);
            if (there && lot.held.empty()) lot.held = "in a warm room";
        }
    } else if constexpr (std::is_same_v<S, Inspected>) {
        check(s.subject, {entry.seq, entry.happened, s.point, s.passed ? 1 : 0});
    } else if constexpr (std::is_same_v<S, Calibrated>) {
        calibrated_.insert(s.instrument);
    } else if constexpr (std::is_same_v<S, Held>) {
        for (const auto& code : s.lots) hold(code, "named");
    } else if constexpr (std::is_same_v<S, Released>) {
        for (const auto& code : s.lots) {
            if (Lot* lot = find(code)) lot->held.clear(), lot->released = entry.seq;
        }
    } else if constexpr (std::is_same_v<S, Acted>) {
        if (s.disposition.empty()) return;
        decided_.insert({s.finding.anchor, s.finding.ord});
        const auto found = by_id_.find(s.finding.anchor);
        if (found != by_id_.end()) lots_[found->second].decisions.push_back({entry.seq, s.finding.point, s.disposition});
    } else if constexpr (std::is_same_v<S, RecallOpened>) {
        if (s.drill) return;
        recalls_[s.recall].hazard = s.hazard;
        for (const auto& lot : s.snapshot) recalls_[s.recall].covered.insert(lot.lot);
    } else if constexpr (std::is_same_v<S, RecallWidened> || std::is_same_v<S, RecallDecided>) {
        const auto open = recalls_.find(s.recall);
        if (open == recalls_.end()) return;
        Recall& recall = open->second;
        if constexpr (std::is_same_v<S, RecallWidened>) {
            for (const auto& lot : s.lots) recall.covered.insert(lot.lot);
            for (const auto& code : s.back) recall.left_out.erase(code);
        } else {
            for (const auto& code : s.out) recall.left_out[code] = s.hazard;
            if (!s.out.empty() || s.hazard.empty() || s.hazard == recall.hazard) return;
            recall.hazard = s.hazard;
            std::erase_if(recall.left_out, [&](const auto& out) { return out.second != s.hazard; });
        }
    } else if constexpr (std::is_same_v<S, RecallClosed>) {
        recalls_.erase(s.recall);
    }
}

}  // namespace peelbook::simulate
