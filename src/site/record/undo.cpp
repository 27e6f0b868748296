#include "site/record/undo.h"

#include <algorithm>

#include "base/text.h"
#include "fold/ratchet/waiting.h"
#include "site/record/amendable.h"

namespace peelbook::site {
namespace {

constexpr Seq looked_back_over = 200;  // entries; in ten minutes a house writes fewer

const char* const let_another = "void it with a reason, and let another person countersign that";

}  // namespace

Seq last_of(fold::Ledger& ledger, const std::string& by) {
    const Seq last = ledger.book.next_seq() - 1;
    for (Seq seq = last; seq > 0 && seq > last - looked_back_over; --seq) {
        const auto& entry = ledger.entry(seq);
        if (entry.by != by) continue;
        const auto* says = std::get_if<record::Statement>(&entry.payload);
        const auto* held = says ? std::get_if<record::Held>(says) : nullptr;
        if (!held || !held->cause) return seq;
    }
    return 0;
}

Check may_be_taken_back(const Request& r, Seq target) {
    if (target == 0 || target != last_of(r.ledger, r.draft.by)) {
        return Refusal{
            "nothing of " + r.draft.by + " to take back", "one's own last entry", std::string("an older one: ") + let_another, {}};
    }
    if (auto checked = may_be_corrected(r.ledger, target, true); !checked) return checked.refusal();
    const auto e = r.ledger.effective(target);
    const Duration since = r.now - r.ledger.entry(target).written;
    if (since > record::Voided::undo_within) {
        return Refusal{"entry " + std::to_string(target) + ", written " + to_text(since) + " ago",
                       "one written in the last " + to_text(record::Voided::undo_within),
                       let_another,
                       {}};
    }
    if (!fold::is_measurement(e.says) || !fold::is_bad(r.ledger, e)) return {};
    return Refusal{"entry " + std::to_string(target) + ", a measurement outside its limit",
                   "an event, or a measurement that raised nothing",
                   let_another,
                   {}};
}

Check raised_nothing(fold::Ledger& ledger, const record::Voided& undo, Seq seq, const std::vector<book::Finding>& changed) {
    if (!fold::is_measurement(ledger.effective(undo.target).says)) return {};
    const auto kept = std::find_if(changed.begin(), changed.end(), [&](const auto& f) { return f.kept_by == seq; });
    if (kept == changed.end()) return {};
    return Refusal{"entry " + std::to_string(undo.target) + ", after which " + kept->point + " was " + in_words(kept->verdict),
                   "an event, or a measurement that raised nothing",
                   let_another,
                   {}};
}

}  // namespace peelbook::site
