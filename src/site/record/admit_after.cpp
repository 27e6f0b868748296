// What is done about it: holds, releases, corrective actions, reviews, corrections.
#include <algorithm>
#include <set>

#include "base/text.h"
#include "fold/standing.h"
#include "site/record/admit.h"
#include "site/record/amendable.h"
#include "site/record/holds.h"
#include "site/record/review.h"
#include "site/record/undo.h"

namespace peelbook::site {
namespace {

Result<std::vector<book::Lot>> known_lots(const Request& r, const std::vector<std::string>& codes) {
    if (codes.empty()) return Refusal{"no lot", "at least one lot", "type its code", {}};
    std::vector<book::Lot> lots;
    for (const auto& code : codes) {
        auto lot = known_lot(r, code);
        if (!lot) return lot.refusal();
        lots.push_back(*lot);
    }
    return lots;
}

// What a release answers: each finding of the lots that is not within.
std::string digest_of_findings(const book::Derived& rows, const std::vector<book::LotId>& lots) {
    std::string all;
    for (const auto lot : lots) {
        for (const auto& f : rows.findings(lot)) {
            if (fold::is_open(f)) all += fold::digest_of(f) + "\n";
        }
    }
    return record::to_hex(record::sha256(all));
}

}  // namespace

// A hold reaches what was made from the lots and is still on hand.
// A complaint reads the printed code from its pack: then all that bears it is meant (rule 36).
Result<Admitted> admit_kind(const Request& r, const record::Held& s) {
    std::vector<std::string> codes;
    for (const auto& code : s.lots) {
        const auto bearing = r.rows().lots_with_printed_code(code);
        if (bearing.empty() || r.rows().lot(code)) codes.push_back(code);
        for (const auto& lot : bearing) codes.push_back(lot.code);
    }
    auto lots = known_lots(r, codes);
    if (!lots) return lots.refusal();
    if (auto checked = reason_given(r, s.why, "a hold"); !checked) return checked.refusal();
    std::vector<book::LotId> ids;
    for (const auto& lot : *lots) ids.push_back(lot.id);
    const auto reach = hold_reach(r.ledger, ids);
    record::Held held{reach.on_hand, s.why.empty() ? r.draft.why : s.why, {}};
    return Admitted{{}, held, {}};
}

Result<Admitted> admit_kind(const Request& r, const record::Released& s) {
    auto lots = known_lots(r, s.lots);
    if (!lots) return lots.refusal();
    if (auto checked = reason_given(r, s.why, "a release"); !checked) return checked.refusal();
    record::Released out{{}, s.why.empty() ? r.draft.why : s.why};
    std::vector<book::LotId> ids;
    for (const auto& lot : *lots) {
        if (!r.rows().is_held(lot.id)) return Refusal{"lot " + lot.code + ", which is not held", "a held lot", "check the code", {}};
        out.lots.push_back(lot.code);
        ids.push_back(lot.id);
    }
    out.seen = digest_of_findings(r.rows(), ids);
    return Admitted{{}, out, {"what was made from it stays held until it is released by name"}};
}

Result<Admitted> admit_kind(const Request& r, const record::CultureRenewed& s) {
    auto lot = known_lot(r, s.lot);
    if (!lot) return lot.refusal();
    if (auto checked = not_before_lot(r, *lot); !checked) return checked.refusal();
    if (auto checked = reason_given(r, s.why, "a decision that a culture is new"); !checked) return checked.refusal();
    std::vector<std::string> before;
    for (const auto& use : r.rows().uses_into(lot->id)) {
        const auto from = r.rows().lot(use.from_lot);
        if (from && from->item == lot->item) before.push_back(from->code);
    }
    if (before.empty()) {
        return Refusal{"lot " + lot->code + ", into which no " + lot->item + " went",
                       "a feeding: a lot that took over from one of its kind",
                       "a lot without one starts a new culture by itself",
                       {}};
    }
    const std::string note = "from now on a trace of " + joined(before, ", ") + " ends at " + lot->code + " and names this entry";
    return Admitted{{}, record::CultureRenewed{lot->code, s.why.empty() ? r.draft.why : s.why}, {note}};
}

Result<Admitted> admit_kind(const Request& r, const record::Acted& given) {
    auto s = given;
    const auto& key = s.finding;
    const auto finding = r.rows().finding(key.anchor, key.point, key.ord);
    if (!finding) {
        std::vector<std::string> open;
        for (const auto& f : r.rows().open_findings()) {
            open.push_back(std::to_string(f.anchor) + ":" + f.point + ":" + std::to_string(f.ord));
        }
        const std::string given = std::to_string(key.anchor) + ":" + key.point + ":" + std::to_string(key.ord);
        return Refusal{"finding '" + given + "'", "a finding in the book", "peelbook status lists the open ones", nearest(given, open)};
    }
    if (trimmed(s.product).empty() && trimmed(s.process).empty() && s.disposition.empty()) {
        return Refusal{"an action that says nothing",
                       "what was done with the product or the process",
                       "add --product \"...\", --process \"...\" or --disposition",
                       {}};
    }
    const auto* known = std::find(std::begin(record::dispositions), std::end(record::dispositions), s.disposition);
    if (!s.disposition.empty() && known == std::end(record::dispositions)) {
        return Refusal{"disposition '" + shown(s.disposition) + "'", "release, rework, downgrade or discard", "choose one", {}};
    }
    s.seen = fold::digest_of(*finding);
    return Admitted{{}, s, {}};
}

Result<Admitted> admit_kind(const Request& r, const record::Reviewed& given) {
    auto s = given;
    auto digest = review_digest(r.ledger, s.what, r.now);
    if (!digest) return digest.refusal();
    s.digest = *digest;
    Admitted out{{}, s, {}};
    if (auto owed = owed_and_not_done(r.ledger, s.what, r.now); !owed.empty()) out.notes.push_back(std::move(owed));
    return out;
}

Result<Admitted> admit_kind(const Request& r, const record::Sealed& given) {
    auto s = given;
    s.head = record::to_hex(r.ledger.book.head());
    if (trimmed(s.given_to).empty()) return Refusal{"a seal given to nobody", "who outside keeps it", "add --given-to \"...\"", {}};
    return Admitted{{}, s, {}};
}

Result<Admitted> admit_kind(const Request& r, const record::Voided& s) {
    if (s.undo) {
        if (auto checked = may_be_taken_back(r, s.target); !checked) return checked.refusal();
        return Admitted{{}, s, {}};
    }
    if (auto checked = may_be_corrected(r.ledger, s.target, true); !checked) return checked.refusal();
    if (auto checked = reason_given(r, s.why, "a void"); !checked) return checked.refusal();
    return Admitted{{}, record::Voided{s.target, s.why.empty() ? r.draft.why : s.why, false}, {}};
}

}  // namespace peelbook::site
