// What is said and done in a recall or drill: partners contacted, others told, goods counted, and its close.
#include <algorithm>

#include "base/text.h"
#include "base/words.h"
#include "site/ask/recall_view.h"
#include "site/record/admit_recall.h"
#include "site/record/recall_count.h"

namespace peelbook::site {
namespace {

Result<book::Partner> known_partner_of_any_role(const Request& r, const std::string& code) {
    if (auto partner = r.rows().partner(code)) return *partner;
    std::vector<std::string> known;
    for (const auto& one : r.rows().partners()) known.push_back(one.code);
    return Refusal{"partner '" + shown(code) + "'", "a partner in the book", "add them with: peelbook partner", nearest(code, known)};
}

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::Contacted& s) {
    auto partner = known_partner_of_any_role(r, s.partner);
    if (!partner) return partner.refusal();
    Admitted out{{}, s, {}};
    if (partner->phone.empty() && partner->email.empty()) {
        out.notes.push_back("neither telephone nor e-mail of " + s.partner + " is in the book: peelbook partner " + s.partner +
                            " --phone ...");
    }
    if (s.recall.empty()) return out;
    auto recall = open_recall(r, s.recall);
    if (!recall) return recall.refusal();
    const auto had = r.rows().recall_deliveries(recall->seq);
    if (std::none_of(had.begin(), had.end(), [&](const auto& d) { return d.partner == s.partner; })) {
        out.notes.push_back(s.partner + " had nothing of it when " + recall->code + " was opened");
    }
    return out;
}

Result<Admitted> admit_kind(const Request& r, const record::RecallTold& s) {
    auto recall = open_recall(r, s.recall);
    if (!recall) return recall.refusal();
    const auto words = list_of(record::told_words);
    if (s.whom.empty()) return Refusal{"nobody told", "one of " + joined(words, ", "), "type who was told", {}};
    if (auto checked = one_of("told", s.whom, words); !checked) return checked.refusal();
    return Admitted{{}, s, {}};
}

Result<Admitted> admit_kind(const Request& r, const record::RecallCounted& given) {
    auto s = given;
    auto recall = open_recall(r, s.recall);
    if (!recall) return recall.refusal();
    const auto words = list_of(record::counted_words);
    if (s.what.empty())
        return Refusal{"goods without a word of what became of them", "one of " + joined(words, ", "), "type it after the code", {}};
    if (auto checked = one_of("count", s.what, words); !checked) return checked.refusal();
    if (auto checked = wanted_dimension("mass", s.mass, Dimension::mass); !checked) return checked.refusal();
    const Fate fate = stored_word<Fate>(s.what);
    if (s.pieces < 0 || (s.pieces == 0 && !s.mass && fate != Fate::found)) {
        return Refusal{"no quantity", "pieces or a mass", "type it as 12pcs or 4.5kg", {}};
    }
    if (s.partner.empty() && fate != Fate::found && fate != Fate::destroyed) {
        return Refusal{
            s.what + " by nobody", "the customer who says so: without a name it stays not accounted for", "add --from PARTNER", {}};
    }
    if (!s.partner.empty()) {
        auto partner = known_partner_of_any_role(r, s.partner);
        if (!partner) return partner.refusal();
    }
    return count_by_lot(r, *recall, std::move(s));
}

Result<Admitted> admit_kind(const Request& r, const record::RecallClosed& given) {
    auto s = given;
    auto recall = open_recall(r, s.recall);
    if (!recall) return recall.refusal();
    const auto view = recall_view(r.ledger, *recall, r.now);
    s.why = s.why.empty() ? r.draft.why : s.why;
    s.made_mg = view.reconciliation.all.mg.made;
    s.made_pieces = view.reconciliation.all.pieces.made;
    s.missing_mg = view.missing_mg();
    s.missing_pieces = view.missing_pieces();
    s.placed = view.placed();
    s.found = view.found();
    const std::string open = not_accounted_text(s.missing_mg, s.missing_pieces);
    if (!open.empty() && trimmed(s.why).empty()) {
        return Refusal{recall->code + " closed with " + open + " not accounted for",
                       "a reason; it then stands on every page",
                       "count what is missing (peelbook " + std::string(recall->drill != 0 ? "drill" : "recall") + " status " +
                           recall->code + "), or add --why \"...\"",
                       {}};
    }
    Admitted out{{}, s, {}};
    const auto reached = std::count_if(view.partners.begin(), view.partners.end(), [](const auto& one) { return one.reached; });
    if (static_cast<std::size_t>(reached) < view.partners.size()) {
        out.notes.push_back(std::to_string(view.partners.size() - static_cast<std::size_t>(reached)) + " of " +
                            std::to_string(view.partners.size()) + " customers were not reached");
    }
    if (recall->drill == 0) out.notes.push_back("what is held stays held until it is released or discarded");
    return out;
}

}  // namespace peelbook::site
