// Recalls and drills: opened and decided anew.
#include "site/record/admit_recall.h"

#include <algorithm>

#include "base/text.h"
#include "base/words.h"
#include "site/ask/ask_trace.h"
#include "site/ask/recall_scope.h"
#include "site/ask/recall_view.h"
#include "site/ask/trace_answer.h"
#include "site/record/admit.h"
#include "site/record/codes.h"

namespace peelbook::site {
namespace {

const std::vector<std::string> grades{"I", "II", "III"};

bool within(const record::RecallOpened& s, book::Int happened) {
    return (!s.from || happened >= s.from->ms) && (!s.until || happened <= s.until->ms);
}

// What stood in the vessel in the time: the blend there at its beginning, and each made in it.
std::vector<book::Lot> stood_in(const Request& r, const record::RecallOpened& s) {
    std::vector<book::Lot> out;
    const auto blends = r.rows().blends_of(s.vessel);
    for (std::size_t i = 0; i < blends.size(); ++i) {
        const bool ended = i + 1 < blends.size() && s.from && blends[i + 1].happened <= s.from->ms;
        if (!ended && (!s.until || blends[i].happened <= s.until->ms)) out.push_back(blends[i]);
    }
    return out;
}

Result<std::vector<book::Lot>> begins_with(const Request& r, const record::RecallOpened& s) {
    std::vector<book::Lot> start;
    const auto add = [&](const book::Lot& lot) {
        if (std::none_of(start.begin(), start.end(), [&](const auto& one) { return one.id == lot.id; })) start.push_back(lot);
    };
    for (const auto& word : s.lots) {
        auto named = named_lots(r.ledger, word, s.material);
        if (!named) return named.refusal();
        for (const auto& lot : *named) add(lot);
    }
    if (s.lots.empty() && !s.material.empty()) {
        auto items = ids_of_materials(r.plan());
        for (auto& id : ids_of_products(r.plan())) items.push_back(std::move(id));
        if (auto checked = known_id("material or product", s.material, items, "check the name"); !checked) return checked.refusal();
        for (const auto& lot : r.rows().lots_of_item(s.material)) {
            if (lot.kind != LotKind::blend && within(s, lot.happened)) add(lot);
        }
    }
    if (!s.vessel.empty()) {
        std::vector<std::string> ids;
        for (const auto& v : r.plan().vessels) ids.push_back(v.id);
        if (auto checked = known_id("vessel", s.vessel, ids, "check the name"); !checked) return checked.refusal();
        for (const auto& lot : stood_in(r, s)) add(lot);
    }
    if (!start.empty()) return start;
    if (s.lots.empty() && s.material.empty() && s.vessel.empty()) {
        return Refusal{"a recall of nothing",
                       "the lots, or --material with --from and --until, or --vessel with --from and --until",
                       "type the supplier's lot code as it stands on the bag: MILL-1:W4471",
                       {}};
    }
    return Refusal{"no lot of " + (s.vessel.empty() ? s.material : s.vessel) + " in that time",
                   "a time in which there was one",
                   "check --from and --until; peelbook ask lists what was received",
                   {}};
}

Check well_said(const Request& r, const record::RecallOpened& s) {
    if (r.draft.happened && *r.draft.happened != r.now) {
        return Refusal{"a recall opened at another time than now",
                       "now: it freezes what the book knows now",
                       "give the time at which word came with --aware",
                       {}};
    }
    if (s.aware && *s.aware > r.now) return Refusal{"word that came in the future", "a time up to now", "check --aware", {}};
    if (s.from && s.until && *s.until < *s.from)
        return Refusal{"a time that ends before it begins", "--from before --until", "check both", {}};
    if (trimmed(s.hazard).empty())
        return Refusal{"a recall without a hazard", "what is feared: \"stones in the flour\"", "add --hazard \"...\"", {}};
    if (auto checked = reason_given(r, s.why, "a recall"); !checked) return checked;
    if (auto checked = one_of("class", s.grade, grades); !checked) return checked;
    if (auto checked = one_of("decision", s.decision, list_of(record::recall_decisions)); !checked) return checked;
    if (s.check_level.empty()) return {};
    const auto level = trace::parse_check_level(s.check_level);
    if (!level) return level.refusal();
    const auto count = trace::effectiveness_count(1, *level, s.check_percent ? s.check_percent->value : 0);
    return count ? Check{} : Check{count.refusal()};
}

std::string next_recall_code(const Request& r, bool drill) {
    const std::string stem = next_code(r.ledger, drill ? "DRILL" : "RECALL", r.now);  // ends in -1: no lot has such a code
    const std::string day = stem.substr(0, stem.rfind('-') + 1);
    int n = 1;
    while (r.rows().recall(day + std::to_string(n))) ++n;
    return day + std::to_string(n);
}

void freeze(record::RecallOpened& s, const RecallScope& scope, const std::vector<book::Lot>& start) {
    const auto lots = scope.by_id();
    for (const auto& one : scope.reach.lots) {
        const auto found = lots.find(one.lot);
        if (found == lots.end()) continue;
        const bool asked = std::any_of(start.begin(), start.end(), [&](const auto& lot) { return lot.id == one.lot; });
        s.snapshot.push_back({found->second->code, asked, !one.certain, found->second->on_hand_mg, found->second->on_hand_pieces});
    }
    for (const auto& d : scope.reach.deliveries) {
        s.deliveries.push_back({d.partner,
                                d.way,
                                d.printed_code,
                                d.lot_code,
                                d.item_name,
                                d.document,
                                d.pieces,
                                d.mass_mg,
                                d.returned_pieces,
                                d.returned_mg,
                                {d.first},
                                {d.last},
                                !d.certain});
    }
    s.digest = record::snapshot_digest(s);
}

}  // namespace

Check one_of(const std::string& what, const std::string& given, const std::vector<std::string>& words) {
    if (given.empty() || std::find(words.begin(), words.end(), given) != words.end()) return {};
    return Refusal{what + " '" + shown(given) + "'", "one of " + joined(words, ", "), "type one of these words", nearest(given, words)};
}

Result<book::Recall> open_recall(const Request& r, const std::string& code) {
    auto recall = known_recall(r.ledger, code);
    if (!recall) return recall.refusal();
    if (recall->closed_seq) {
        return Refusal{recall->code + ", closed by entry " + std::to_string(*recall->closed_seq),
                       "one that is open",
                       "open a new one, naming this in --why",
                       {}};
    }
    if (r.happened.ms < recall->aware) {
        return Refusal{to_text(r.ledger.zone(), r.happened, true) + " for " + recall->code,
                       "a time from " + to_text(r.ledger.zone(), {recall->aware}, true) + " on, when word came",
                       "check --at",
                       {}};
    }
    return recall;
}

Result<Admitted> admit_kind(const Request& r, const record::RecallOpened& given) {
    auto s = given;
    if (auto checked = well_said(r, s); !checked) return checked.refusal();
    auto start = begins_with(r, s);
    if (!start) return start.refusal();
    if (s.why.empty()) s.why = r.draft.why;
    s.recall = next_recall_code(r, s.drill);
    if (!s.check_level.empty()) s.check_level = uppered(trimmed(s.check_level));
    if (s.seed == 0) s.seed = r.ledger.book.next_seq();
    s.snapshot.clear();
    s.deliveries.clear();
    const auto scope = recall_scope(r.ledger, *start);
    freeze(s, scope, *start);
    Admitted out{{}, s, scope.notes};
    if (s.check_level.empty()) out.notes.push_back("no effectiveness check asked for: --level A to E");
    return out;
}

Result<Admitted> admit_kind(const Request& r, const record::RecallDecided& given) {
    auto s = given;
    auto recall = open_recall(r, s.recall);
    if (!recall) return recall.refusal();
    if (auto checked = reason_given(r, s.why, "a decision"); !checked) return checked.refusal();
    if (s.why.empty()) s.why = r.draft.why;
    if (auto checked = one_of("class", s.grade, grades); !checked) return checked.refusal();
    if (auto checked = one_of("decision", s.decision, list_of(record::recall_decisions)); !checked) return checked.refusal();
    if (s.decision.empty() && s.grade.empty() && s.hazard.empty() && s.out.empty()) {
        return Refusal{
            "a decision that says nothing", "a decision, a class, a hazard or lots left out", "add --decision, --class or --hazard", {}};
    }
    if (s.out.empty()) return Admitted{{}, s, {}};
    if (trimmed(s.hazard).empty()) {
        return Refusal{"lots left out of " + recall->code + " without a hazard",
                       "the hazard that this decision is about: small shares mean nothing for a germ or a stone",
                       "add --hazard \"...\"",
                       {}};
    }
    std::vector<std::string> covered;
    for (const auto& line : recall_view(r.ledger, *recall, r.now).lots) {
        if (line.state != RecallLotState::left_out) covered.push_back(line.lot.code);
    }
    for (const auto& code : s.out) {
        if (std::find(covered.begin(), covered.end(), code) != covered.end()) continue;
        return Refusal{"lot '" + shown(code) + "'", "a lot that " + recall->code + " covers", "see: peelbook recall status " + recall->code,
                       nearest(code, covered)};
    }
    return Admitted{
        {}, s, {"what was made from them stays covered unless it is named too", "they stay held until they are released by name"}};
}

}  // namespace peelbook::site
