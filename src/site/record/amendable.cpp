#include "site/record/amendable.h"

#include <algorithm>

#include "base/text.h"
#include "base/words.h"

namespace peelbook::site {
namespace {

void add_taken(fold::Ledger& ledger, book::LotId lot, std::vector<std::string>& out) {
    for (const auto& use : ledger.rows().uses_from(lot)) out.push_back(std::to_string(use.seq) + " used");
}

// What was taken from a batch rests on its yield.
std::vector<std::string> taken_since(fold::Ledger& ledger, const record::Finished& says) {
    std::vector<std::string> out;
    const auto lot = ledger.rows().lot(says.lot);
    if (!lot) return out;
    add_taken(ledger, lot->id, out);
    for (const auto& move : ledger.rows().moves(lot->id)) out.push_back(std::to_string(move.seq) + " " + in_words(move.way));
    return out;
}

std::vector<std::string> dependents(fold::Ledger& ledger, Seq target) {
    std::vector<std::string> out;
    for (Seq seq : ledger.rows().touching(book::SubjectKind::lot, std::to_string(target))) {
        const auto e = ledger.effective(seq);
        if (seq == target || e.voided_by) continue;
        out.push_back(std::to_string(seq) + " " + std::string(record::kind_of(e.says).name));
    }
    add_taken(ledger, target, out);
    return out;
}

}  // namespace

Check may_be_corrected(fold::Ledger& ledger, Seq target, bool void_it) {
    if (target <= 0 || target >= ledger.book.next_seq()) {
        return Refusal{"entry " + std::to_string(target),
                       "an entry of the book, 1 to " + std::to_string(ledger.book.next_seq() - 1),
                       "the number stands on the receipt and in the workbooks",
                       {}};
    }
    const record::Kind& kind = record::kind_of(ledger.entry(target).payload);
    const std::string named = "entry " + std::to_string(target) + ", " + std::string(kind.name);
    if (kind.correction == record::Correction::never) {
        return Refusal{named, "an entry that can be corrected", "record a new entry that says what holds now", {}};
    }
    const auto now = ledger.effective(target);
    if (!void_it && kind.correction == record::Correction::void_only) {
        return Refusal{
            named,
            "an entry that can be amended",
            std::holds_alternative<record::Acted>(now.says) ? "record a further action with: peelbook act" : "void it, and record it anew",
            {}};
    }
    if (now.voided_by) {
        return Refusal{"entry " + std::to_string(target) + ", voided by entry " + std::to_string(*now.voided_by),
                       "an entry that stands",
                       "record what happened in a new entry",
                       {}};
    }
    if (const auto waits = ledger.rows().waiting_on(target)) {
        const std::string correction = std::to_string(waits->entry);
        return Refusal{"entry " + std::to_string(target) + ", whose correction by entry " + correction + " waits for a countersign",
                       "one correction at a time",
                       "let another person decide first: peelbook countersign " + correction + ", or with --refuse",
                       {}};
    }
    if (!void_it) return {};
    std::vector<std::string> later;
    if (const auto* finished = std::get_if<record::Finished>(&now.says)) later = taken_since(ledger, *finished);
    if (kind.makes_lot()) later = dependents(ledger, target);
    if (later.empty()) return {};
    return Refusal{"entry " + std::to_string(target) + ", which later entries build on",
                   "an entry that nothing depends on",
                   "void or amend these first: " + joined(later, "; "),
                   {}};
}

namespace {

// Whether something was done although the book refuses it, and the lot that then deviates.
std::pair<bool, std::string> done_all_the_same(const record::Statement& says) {
    if (const auto* out = std::get_if<record::MovedOut>(&says)) return {out->already_done, out->lot};
    if (const auto* use = std::get_if<record::Used>(&says)) return {use->already_done, use->into};
    return {};
}

}  // namespace

Check same_identity(const fold::Effective& was, const record::Statement& instead) {
    if (was.says.index() != instead.index()) {
        return Refusal{"a " + std::string(record::kind_of(instead).name) + " instead of a " + std::string(record::kind_of(was.says).name),
                       "the same kind of entry",
                       "void the entry and record the right one",
                       {}};
    }
    const auto [done, deviates] = done_all_the_same(was.says);
    if (done && !deviates.empty() && deviates != done_all_the_same(instead).second) {
        return Refusal{"another lot in place of " + deviates + ", of which it is recorded that it was done although the book refuses it",
                       "the same lot: its deviation stays with it",
                       "void the entry, and record what was done",
                       {}};
    }
    const auto before = record::made_code(was.says), after = record::made_code(instead);
    if (before == after) return {};
    return Refusal{"code " + after + " for lot " + before, "the same code: a lot's identity never changes", "leave the code as it is", {}};
}

}  // namespace peelbook::site
