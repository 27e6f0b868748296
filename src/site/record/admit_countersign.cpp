// Another person says of what waits whether it shall count. Where the plan says that there is no second person, the same one may say so
// of what is late or missing, never of a measured failure nor of food that must be kept cold: hold it, or bin it.
#include <algorithm>

#include "base/text.h"
#include "judge/judge.h"
#include "record/hasher.h"
#include "site/ask/waiting.h"
#include "site/record/admit.h"

namespace peelbook::site {
namespace {

const std::string list_command = "see what waits: peelbook countersign --list";

bool is_chilled(const Request& r, const book::Finding& f) {
    const auto lot = f.lot ? r.rows().lot(*f.lot) : std::nullopt;
    const auto governing = r.ledger.plan_at(r.now);
    const auto* product = lot ? governing.plan->product(lot->item) : nullptr;
    return product && product->date_kind == DateKind::use_by;
}

Check may_decide_alone(const Request& r, const WaitingEntry& waiting) {
    const std::string given = "a countersign of entry " + std::to_string(waiting.entry) + " by " + r.draft.by + ", who wrote it";
    const auto refused = [&](const std::string& because, const std::string& next) {
        return Refusal{given + because, "another person", next, {}};
    };
    if (!r.ledger.plan_at(r.now).plan->site.alone) {
        return refused("", "let somebody else countersign it, who has the right to");
    }
    if (waiting.target != waiting.entry) return refused(", a correction", "let somebody else look at it; until then both count");
    for (const auto& told : waiting.findings) {
        if (told.finding.verdict == Verdict::deviation) return refused(", for a measured failure", "hold it, or bin it");
        if (is_chilled(r, told.finding)) return refused(", for food with a use-by date", "hold it, or bin it");
    }
    return {};
}

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::Countersigned& given) {
    auto s = given;
    if (s.why.empty()) s.why = r.draft.why;
    if (s.entries.empty()) return Refusal{"no entry", "the number of an entry that waits", list_command, {}};
    std::sort(s.entries.begin(), s.entries.end());
    s.entries.erase(std::unique(s.entries.begin(), s.entries.end()), s.entries.end());
    const auto waiting = r.rows().all_waiting();
    const auto alone = r.rows().alone();
    std::string seen;
    Admitted out;
    for (const Seq entry : s.entries) {
        const bool waits = std::find(waiting.begin(), waiting.end(), entry) != waiting.end();
        const bool to_be_seen = std::any_of(alone.begin(), alone.end(), [&](const auto& row) { return row.entry == entry; });
        if (!waits && !to_be_seen) {
            return Refusal{"entry " + std::to_string(entry) + ", which waits for nobody", "an entry that waits", list_command, {}};
        }
        const auto told = waiting_entry(r.ledger, entry);
        if (told.by == r.draft.by) {
            if (auto checked = may_decide_alone(r, told); !checked) return checked.refusal();
            s.alone = true;
        }
        seen += digest_of(told) + "\n";
    }
    if (s.refused || s.alone) {
        if (auto checked = reason_given(r, s.why, s.alone ? "a countersign by the same person" : "a refusal"); !checked)
            return checked.refusal();
    }
    if (s.alone) out.notes.push_back("alone: somebody else looks at it within 7 working days, with the same command");
    s.seen = record::to_hex(record::sha256(seen));
    out.says = s;
    return out;
}

}  // namespace peelbook::site
