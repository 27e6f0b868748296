// Recalls and drills: opened and decided anew.
#include "site/record/admit_recall.h"

#include <algorithm>
#include <set>

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

void add(std::vector<book::Lot>& start, const std::vector<book::Lot>& more) {
    for (const auto& lot : more) {
        if (std::none_of(start.begin(), start.end(), [&](const auto& one) { return one.id == lot.id; })) start.push_back(lot);
    }
}

// Of a material or product, or all that a supplier brought, in the time in which it came or was made.
Result<std::vector<book::Lot>> came_in_time(const Request& r, const record::RecallOpened& s) {
    auto items = ids_of_materials(r.plan());
    for (auto& id : ids_of_products(r.plan())) items.push_back(std::move(id));
    if (!s.material.empty()) {
        if (auto checked = known_id("material or product", s.material, items, "check the name"); !checked) return checked.refusal();
        items = {s.material};
    }
    std::vector<book::Lot> out;
    for (const auto& item : items) {
        for (auto& lot : r.rows().lots_of_item(item)) {
            const bool theirs = s.supplier.empty() || lot.partner == s.supplier;
            if (lot.kind != LotKind::blend && theirs && (s.taken || within(s, lot.happened))) out.push_back(std::move(lot));
        }
    }
    return out;
}

// The same supplier, material and lot under other codes of ours.
std::vector<std::string> add_siblings(const Request& r, std::vector<book::Lot>& start) {
    std::vector<std::string> codes;
    for (std::size_t i = 0; i < start.size(); ++i) {
        if (start[i].kind != LotKind::received || start[i].supplier_lot.empty()) continue;
        for (const auto& lot : r.rows().lots_of_item(start[i].item)) {
            if (!same_suppliers_lot(start[i], lot)) continue;
            const auto known = start.size();
            add(start, {lot});
            if (start.size() > known) codes.push_back(lot.code + " is lot " + lot.supplier_lot + " of " + lot.partner + " too: covered");
        }
    }
    return codes;
}

Result<std::vector<book::Lot>> lots_to_begin_with(const Request& r, const record::RecallOpened& s) {
    std::vector<book::Lot> start;
    for (const auto& word : s.lots) {
        auto named = named_lots(r.ledger, word, s.material);
        if (!named) return named.refusal();
        add(start, *named);
    }
    if (s.lots.empty() && (!s.material.empty() || !s.supplier.empty())) {
        const auto came = came_in_time(r, s);
        if (!came) return came.refusal();
        add(start, *came);
    }
    if (!s.vessel.empty()) {
        std::vector<std::string> ids;
        for (const auto& v : r.plan().vessels) ids.push_back(v.id);
        if (auto checked = known_id("vessel", s.vessel, ids, "check the name"); !checked) return checked.refusal();
        add(start, r.rows().blends_of(s.vessel));
    }
    if (!start.empty()) return start;
    if (s.lots.empty() && s.material.empty() && s.vessel.empty() && s.supplier.empty()) {
        return Refusal{"a recall of nothing",
                       "the lots, or --material or --supplier with --from and --until, or --vessel with --from and --until",
                       "type the supplier's lot code as it stands on the bag: MILL-1:W4471",
                       {}};
    }
    return Refusal{"no lot of " + (s.vessel.empty() ? s.material.empty() ? s.supplier : s.material : s.vessel) + " in that time",
                   "a time in which there was one",
                   "check --from and --until; peelbook ask lists what was received",
                   {}};
}

// As in a trace, the time is of what was taken out: of named lots, a vessel, water. Of a material or a supplier it is of deliveries.
Result<bool> is_of_what_was_taken(const Request& r, const record::RecallOpened& s) {
    if (!s.from && !s.until) return false;
    const auto* material = r.plan().material(s.material);
    const bool deliveries = s.lots.empty() && (!s.supplier.empty() || (!s.material.empty() && !(material && material->supply)));
    if (!deliveries || s.vessel.empty()) return !deliveries;
    return Refusal{"--from and --until for deliveries and for a vessel",
                   "one of them: they are two times",
                   "open the recall with one, then take the other in: peelbook recall widen",
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
    const auto taken = is_of_what_was_taken(r, s);
    if (!taken) return taken.refusal();
    s.taken = *taken;
    auto start = lots_to_begin_with(r, s);
    if (!start) return start.refusal();
    const auto siblings = add_siblings(r, *start);
    if (s.why.empty()) s.why = r.draft.why;
    s.recall = next_recall_code(r, s.drill);
    if (!s.check_level.empty()) s.check_level = uppered(trimmed(s.check_level));
    if (s.seed == 0) s.seed = r.ledger.book.next_seq();
    s.snapshot.clear();
    s.deliveries.clear();
    const auto scope = recall_scope(r.ledger, {*start, s.taken ? TraceWindow{s.from, s.until} : TraceWindow{}});
    freeze(s, scope, *start);
    if (s.snapshot.empty()) {
        return Refusal{"a recall of what was taken in a time in which nothing was",
                       "a time in which some of it was used",
                       "check --from and --until: peelbook trace forward shows what was taken when",
                       {}};
    }
    Admitted out{{}, s, scope.notes};
    out.notes.insert(out.notes.begin(), siblings.begin(), siblings.end());
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
    if (uppered(trimmed(s.hazard)) != uppered(trimmed(recall->hazard))) {
        return Refusal{"lots left out of " + recall->code + " about the hazard '" + shown(s.hazard) + "'",
                       "the hazard that it is about: " + recall->hazard,
                       "if another one is known by now, state it first: peelbook " + std::string(recall->drill != 0 ? "drill" : "recall") +
                           " decide " + recall->code + " --hazard ... --why ...",
                       {}};
    }
    s.hazard = recall->hazard;
    std::vector<std::string> covered;
    std::set<std::string> possible;
    for (const auto& line : recall_view(r.ledger, *recall, r.now).lots) {
        if (line.state == RecallLotState::left_out) continue;
        covered.push_back(line.lot.code);
        if (!line.certain) possible.insert(line.lot.code);
    }
    s.possible.clear();
    for (const auto& code : s.out) {
        if (possible.contains(code)) s.possible.push_back(code);
        if (std::find(covered.begin(), covered.end(), code) != covered.end()) continue;
        return Refusal{"lot '" + shown(code) + "'", "a lot that " + recall->code + " covers", "see: peelbook recall status " + recall->code,
                       nearest(code, covered)};
    }
    return Admitted{
        {},
        s,
        {"what was made from them up to now stays covered unless it is named too", "they stay held until they are released by name",
         "they are covered again as soon as it is known for sure that they hold some of it, or for another hazard"}};
}

// What was left out comes back in; any other lot is one more that the recall begins with.
Result<Admitted> admit_kind(const Request& r, const record::RecallWidened& given) {
    auto s = record::RecallWidened{given.recall, {}, {}, given.why.empty() ? r.draft.why : given.why, 0};
    auto recall = open_recall(r, s.recall);
    if (!recall) return recall.refusal();
    if (auto checked = reason_given(r, s.why, "a recall widened"); !checked) return checked.refusal();
    if (given.back.empty()) return Refusal{"no lot", "lots to take in", "type their codes", {}};
    std::vector<book::Lot> lots;
    for (const auto& word : given.back) {
        const auto named = named_lots(r.ledger, word, "");
        if (!named) return named.refusal();
        add(lots, *named);
    }
    const auto out = left_out_of(r.ledger, *recall);
    for (const auto& lot : lots) {
        if (out.contains(lot.id)) s.back.push_back(lot.code);
    }
    const auto siblings = add_siblings(r, lots);
    for (const auto& lot : lots) {
        const auto rows = r.rows().recalls_of(lot.id);
        const bool covered = std::any_of(rows.begin(), rows.end(), [&](const auto& row) { return row.recall == recall->seq; });
        const auto stock = r.rows().stock(lot.id).value_or(book::Stock{});
        if (!covered) s.lots.push_back({lot.code, true, false, stock.on_hand_mg, stock.on_hand_pieces});
    }
    if (!s.lots.empty() || !s.back.empty()) return Admitted{{}, s, siblings};
    return Refusal{joined(given.back, ", ") + ", which " + recall->code + " covers already",
                   "a lot that it does not cover, or that was left out",
                   "see: peelbook recall status " + recall->code,
                   {}};
}

}  // namespace peelbook::site
