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

// Of the codes that a partner had those that whoever called could know of, where the call is written down later than it was made: what
// the book had by then, or by the opening.
std::vector<std::string> known_then(const Request& r, const RecallView& view, const std::string& partner,
                                    const std::vector<std::string>& codes) {
    if (r.happened == r.now) return codes;
    const Instant by{std::max(r.happened.ms, view.recall.happened)};
    const auto was_there = [&](Seq seq) {
        const auto fact = r.rows().fact(seq);
        return r.ledger.entry(fact && fact->amended_by ? *fact->amended_by : seq).written <= by;
    };
    std::map<trace::LotId, std::string> of_lot;
    for (const auto& line : view.lots) {
        const bool covered_then = line.state != RecallLotState::added || std::all_of(line.by.begin(), line.by.end(), was_there);
        if (covered_then) of_lot[line.lot.id] = line.lot.printed_code.empty() ? line.lot.code : line.lot.printed_code;
    }
    std::set<std::string> known;
    for (const auto& d : r.rows().recall_deliveries(view.recall.seq)) {
        if (d.partner == partner) known.insert(d.printed_code.empty() ? d.lots : d.printed_code);
    }
    std::erase_if(known, [&](const auto& code) { return std::find(codes.begin(), codes.end(), code) == codes.end(); });
    for (const auto& move : view.moves) {
        const auto code = of_lot.find(move.lot);
        if (move.partner == partner && code != of_lot.end() && was_there(move.seq)) known.insert(code->second);
    }
    return {known.begin(), known.end()};
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
    std::vector<std::string> codes, left;  // what they had; of it nobody has told them yet
    const auto view = recall_view(r.ledger, *recall, r.now);
    for (const auto& one : view.partners) {
        if (one.partner.code != s.partner) continue;
        for (const auto& goods : one.had) {
            codes.push_back(goods.delivery.code());
            if (!goods.told && !goods.left_out) left.push_back(codes.back());
        }
    }
    for (const auto& code : s.codes) {
        if (std::find(codes.begin(), codes.end(), code) != codes.end()) continue;
        return Refusal{"code '" + shown(code) + "' of " + s.partner,
                       codes.empty() ? "a code that they had" : "one of " + joined(codes, ", "),
                       "leave it out: then they are told of all that they had", nearest(code, codes)};
    }
    auto& says = std::get<record::Contacted>(out.says);
    if (s.reached && s.codes.empty()) says.codes = known_then(r, view, s.partner, codes);
    if (codes.empty()) out.notes.push_back(s.partner + " had nothing of it");
    std::erase_if(left,
                  [&](const auto& code) { return s.reached && std::find(says.codes.begin(), says.codes.end(), code) != says.codes.end(); });
    if (s.reached && !left.empty()) out.notes.push_back("not told yet of " + joined(left, ", "));
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
    if (s.partner.empty() && (s.way.empty() || fate == Fate::used)) {
        return Refusal{s.what + " by nobody",
                       "the customer who says so: without a name it stays not accounted for",
                       fate == Fate::used ? "add --from PARTNER" : "add --from PARTNER; of our own shop: --way own-shop",
                       {}};
    }
    if (auto checked = one_holder(s.partner, s.way); !checked) return checked.refusal();
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
    s.open = view.still_open();
    if (!s.open.empty() && trimmed(s.why).empty()) {
        return Refusal{recall->code + " closed with " + first_of(s.open, 12),
                       "a reason; it then stands on every page",
                       "do what is left (peelbook " + std::string(recall->drill != 0 ? "drill" : "recall") + " status " + recall->code +
                           "), or add --why \"...\"",
                       {}};
    }
    Admitted out{{}, s, {}};
    const auto to_tell = std::count_if(view.partners.begin(), view.partners.end(), [](const auto& one) { return one.to_tell(); });
    const auto reached =
        std::count_if(view.partners.begin(), view.partners.end(), [](const auto& one) { return one.reached().has_value(); });
    if (reached < to_tell) {
        out.notes.push_back(std::to_string(to_tell - reached) + " of " + std::to_string(to_tell) + " customers were not reached");
    }
    if (recall->drill == 0) out.notes.push_back("what is held stays held until it is released or discarded");
    return out;
}

}  // namespace peelbook::site
