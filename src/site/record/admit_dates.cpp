// Dates at the door, and of what is opened or thawed.
#include "site/record/admit_dates.h"

#include <algorithm>

#include "base/text.h"
#include "base/words.h"

namespace peelbook::site {

Check not_past_its_date(const Request& r, const record::Received& s, const plan::Material& material) {
    if (!s.date || s.status != word(book::LotStatus::accepted) || r.ledger.zone().to_local(r.happened).date <= *s.date) return {};
    const std::string given = s.material + ", past its " + in_words(material.date_kind) + " date " + to_text(*s.date);
    if (material.date_kind == DateKind::use_by) {
        return Refusal{
            given, "a lot within its use-by date", "send it back: add --status refused --why \"...\"; or hold it: --status held", {}};
    }
    return reason_given(r, s.why, given);
}

namespace {

// When the lot was thawed before, itself or as part of the whole it was taken from; or opened.
std::optional<book::Clock> started_before(const Request& r, const book::Lot& lot, ClockKind kind, Instant until) {
    for (const auto& clock : r.rows().clocks(lot.id)) {
        if (clock.kind == kind && clock.happened <= until.ms) return clock;
    }
    if (!is_part_of_a_lot(lot.kind)) return {};
    for (const auto& use : r.rows().uses_into(lot.id)) {
        const auto whole = r.rows().lot(use.from_lot);
        if (const auto before = whole ? started_before(r, *whole, kind, std::min(until, Instant{use.happened})) : std::nullopt)
            return before;
    }
    return {};
}

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::ClockStarted& given) {
    auto s = given;
    const auto lot = known_lot(r, s.lot);
    if (!lot) return lot.refusal();
    s.lot = lot->code;
    const auto kind = from_word<ClockKind>(s.clock);
    if (!kind) return Refusal{"'" + shown(s.clock) + "'", "opened or thawed", "type one of these", {}};
    if (auto checked = not_before_lot(r, *lot); !checked) return checked.refusal();
    const auto clocks = r.plan().clocks_of(lot->item);
    const bool thaws = *kind == ClockKind::thawed;
    const auto before = started_before(r, *lot, *kind, r.happened);
    const bool itself = before && before->lot == lot->id;
    if (before && !(s.another && itself) && !(thaws && clocks.refreeze)) {
        const auto of = r.rows().lot(before->lot);
        const std::string given_words = s.lot + ", which was " + s.clock + " " + to_text(r.ledger.zone(), Instant{before->happened}) +
                                        (itself || !of ? "" : " as part of " + of->code);
        const std::string next = itself ? "if this is another tub or box of it, and the one before is used up: --another" : "discard it";
        if (!thaws) return Refusal{given_words, "what is not open yet", next, {}};
        return Refusal{given_words, "what was never thawed: nothing is frozen twice unless the plan says refreeze = true", next, {}};
    }
    Admitted out{{}, s, {}};
    if (!(thaws ? clocks.thawed_within : clocks.opened_within))
        out.notes.push_back("the plan states no " + s.clock + "_within for " + lot->item + ": no time runs from it");
    return out;
}

}  // namespace peelbook::site
