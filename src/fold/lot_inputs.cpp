// What went into a lot: by name, out of a vessel, as what it was made of; and the holds that come along.
#include <algorithm>

#include "fold/gatherer.h"

namespace peelbook::fold {

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
        take_part(s.lot, mass_or_none(s.mass), pieces_or_none(s.pieces), !s.possible, s.why);
    }
    if (as_it_stood()) return;
    const std::vector<book::Use> taken(out_.uses.begin() + static_cast<std::ptrdiff_t>(known), out_.uses.end());
    std::erase_if(out_.uses, [&](const auto& use) {  // what is still taken is not struck
        const auto same = [&](const auto& now) { return now.from_lot == use.from_lot && now.seq == use.seq; };
        return use.struck_by && std::any_of(taken.begin(), taken.end(), same);
    });
    already_done(s.already_done, "use of " + s.lot + ": " + s.why);
}

// What the lot took over from its own kind is where the decision cuts; flour and water stay.
void Gatherer::end_culture() {
    for (auto& use : out_.uses) {
        const auto from = out_.renewed_by ? ledger_.rows().lot(use.from_lot) : std::nullopt;
        use.ended_by = from && from->item == out_.row.item ? out_.renewed_by : std::nullopt;
    }
}

}  // namespace peelbook::fold
