#include "site/record/recall_hooks.h"

#include <algorithm>

#include "site/ask/recall_scope.h"

namespace peelbook::site {
namespace {

std::set<trace::LotId> left_out(fold::Ledger& ledger, const book::Recall& recall) {
    std::set<trace::LotId> out;
    for (const auto& one : ledger.rows().recall_outs(recall.seq)) out.insert(one.lot);
    return out;
}

// The entries that an entry is about: itself, or those it corrects or countersigns.
std::vector<Seq> entries_about(fold::Ledger& ledger, Seq seq) {
    const auto& payload = ledger.entry(seq).payload;
    if (const auto* amended = std::get_if<record::Amended>(&payload)) return {amended->target};
    const auto& says = std::get<record::Statement>(payload);
    if (const auto* voided = std::get_if<record::Voided>(&says)) return {voided->target};
    const auto* countersigned = std::get_if<record::Countersigned>(&says);
    if (!countersigned) return {seq};
    std::vector<Seq> targets;
    for (const Seq entry : countersigned->entries) {
        const auto waited = ledger.rows().waiting(entry);
        targets.push_back(waited ? waited->target : entry);
    }
    return targets;
}

// Lots that the entries are about, and every blend that their vessels held.
std::vector<book::LotId> lots_about(fold::Ledger& ledger, Seq seq) {
    std::vector<book::Touch> touches;
    for (const Seq about : entries_about(ledger, seq)) {
        const auto of_entry = ledger.rows().touches_of(about);
        touches.insert(touches.end(), of_entry.begin(), of_entry.end());
    }
    std::vector<book::LotId> lots;
    for (const auto& touch : touches) {
        if (touch.subject_kind == book::SubjectKind::lot) lots.push_back(std::stoll(touch.subject));
        if (touch.subject_kind != book::SubjectKind::vessel) continue;
        for (const auto& blend : ledger.rows().blends_of(touch.subject)) {
            if (blend.happened >= touch.happened) lots.push_back(blend.id);
        }
    }
    return lots;
}

HoldToWrite hold_of(const book::Recall& recall, std::vector<std::string> lots, const RecallScope& scope) {
    HoldToWrite hold;
    hold.says.lots = std::move(lots);
    hold.says.why = recall.code + ": " + recall.hazard;
    for (const auto& d : scope.reach.deliveries) hold.customers.push_back(delivery_text(d));
    return hold;
}

// One walk back from the lots of the entry says whether a recall covers them at all.
bool covers_one_of(fold::Ledger& ledger, const std::vector<book::LotId>& lots, const std::vector<book::Lot>& start) {
    if (lots.empty()) return false;
    std::set<book::LotId> behind(lots.begin(), lots.end());
    for (const auto& lot : ledger.rows().back(lots).lots) behind.insert(lot.id);
    return std::any_of(start.begin(), start.end(), [&](const auto& lot) { return behind.contains(lot.id); });
}

}  // namespace

Check second_person(fold::Ledger& ledger, Seq target, const std::string& by) {
    const auto& signed_by = ledger.entry(target).by;
    if (signed_by != by) return {};
    for (const auto& recall : ledger.rows().open_recalls()) {
        if (recall.drill != 0) continue;
        return Refusal{"a correction by " + by + " of their own entry, while " + recall.code + " is open",
                       "a second person: someone may already have acted on what was recorded",
                       "let another person correct it",
                       {}};
    }
    return {};
}

std::vector<HoldToWrite> recall_holds(fold::Ledger& ledger, Seq seq) {
    std::vector<HoldToWrite> out;
    const auto& payload = ledger.entry(seq).payload;
    const auto* says = std::get_if<record::Statement>(&payload);
    const bool just_opened = says && std::holds_alternative<record::RecallOpened>(*says);
    const auto& kind = record::kind_of(payload);
    const bool came_back = kind.lots == record::Lots::came_back;
    if (!just_opened && !came_back && !kind.links_lots()) return out;
    for (const auto& recall : ledger.rows().open_recalls()) {
        if (recall.drill != 0 || (just_opened && recall.seq != seq)) continue;
        const auto start = start_of(ledger, recall);
        if (!just_opened && !came_back && !covers_one_of(ledger, lots_about(ledger, seq), start)) continue;
        const auto scope = recall_scope(ledger, start);
        auto lots = to_hold(ledger, scope, left_out(ledger, recall));
        if (!just_opened) std::erase_if(lots, [&](const auto& code) { return ledger.rows().is_held(ledger.rows().lot(code)->id); });
        if (!lots.empty()) out.push_back(hold_of(recall, std::move(lots), scope));
    }
    return out;
}

RecallReaches recall_reaches(fold::Ledger& ledger) {
    RecallReaches out;
    for (const auto& recall : ledger.rows().open_recalls()) {
        const auto scope = recall_scope(ledger, start_of(ledger, recall));
        const auto lots = scope.by_id();
        auto& reach = out[recall.code];
        for (const auto& one : scope.reach.lots) {
            if (const auto lot = lots.find(one.lot); lot != lots.end())
                reach.insert(lot->second->code + (one.certain ? "" : " (possible)"));
        }
        for (const auto& d : scope.reach.deliveries) reach.insert(delivery_text(d));
    }
    return out;
}

std::vector<std::string> recall_changes(const RecallReaches& before, const RecallReaches& now) {
    std::vector<std::string> told;
    const auto tell = [&](const RecallReaches& these, const RecallReaches& others, const char* says) {
        for (const auto& [code, reach] : these) {
            const auto other = others.find(code);
            for (const auto& one : reach) {
                if (other == others.end() || !other->second.contains(one)) told.push_back(code + says + one);
            }
        }
    };
    tell(before, now, " reached before, not now: ");
    tell(now, before, " reaches now, not before: ");
    return told;
}

}  // namespace peelbook::site
