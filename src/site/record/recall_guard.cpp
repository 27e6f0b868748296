#include "site/record/recall_guard.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "fold/standing.h"
#include "judge/judge.h"
#include "site/ask/recall_scope.h"

namespace peelbook::site {
namespace {

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

bool links(fold::Ledger& ledger, Seq about) {
    const auto lots = record::kind_of(ledger.entry(about).payload).lots;
    return lots != record::Lots::none && lots != record::Lots::came_back;
}

bool decides(fold::Ledger& ledger, Seq seq) {
    const auto* says = std::get_if<record::Statement>(&ledger.entry(seq).payload);
    return says && (std::holds_alternative<record::RecallWidened>(*says) || std::holds_alternative<record::RecallDecided>(*says));
}

bool is_missing_use(const book::Finding& f) { return f.point == judge::missing_use_point && f.lot && fold::is_open(f); }

// One open recall against what an entry did.
class Guarding {
  public:
    Guarding(fold::Ledger& ledger, const book::Recall& recall, const Done& done, const std::set<book::LotId>& linked)
        : ledger_(ledger),
          rows_(ledger.rows()),
          recall_(recall),
          done_(done),
          linked_(linked),
          begins_(begins_of(ledger, recall)),
          left_out_(left_out_of(ledger, recall)) {
        for (const auto& lot : begins_.lots) asked_.insert(lot.id);
    }

    std::optional<record::RecallWidened> run() {
        if (!concerned()) return {};
        record::RecallWidened out;
        out.recall = recall_.code;
        out.cause = done_.seq;
        auto scope = recall_scope(ledger_, begins_, left_out_);
        while (take_back_in(scope, out.back)) scope = recall_scope(ledger_, begins_, left_out_);
        const auto lots = scope.by_id();
        for (const auto& one : scope.reach.lots) {
            const auto lot = lots.find(one.lot);
            if (lot == lots.end() || is_covered(one.lot)) continue;
            const auto& l = *lot->second;
            out.lots.push_back({l.code, asked_.contains(one.lot), !one.certain, l.on_hand_mg, l.on_hand_pieces});
        }
        if (out.lots.empty() && out.back.empty()) return {};
        return out;
    }

  private:
    bool is_covered(book::LotId id) const {
        const auto rows = rows_.recalls_of(id);
        return std::any_of(rows.begin(), rows.end(), [&](const auto& row) { return row.recall == recall_.seq; });
    }

    // Whether what the entry did can make the recall cover more. Lots that it begins with from now on are taken in.
    bool concerned() {
        if (decides(ledger_, done_.seq)) return true;
        bool found = false;
        for (const auto id : linked_) found = concerns(id) || found;
        found = found || std::any_of(done_.restocked.begin(), done_.restocked.end(), [&](auto id) { return asked_.contains(id); });
        return found || std::any_of(done_.changed.begin(), done_.changed.end(), [&](const auto& f) {
                   return is_missing_use(f) && !is_covered(*f.lot) && rows_.covers_item(recall_.seq, f.unit);
               });
    }

    bool concerns(book::LotId id) {
        const auto lot = rows_.lot(id);
        if (!lot) return false;
        bool found = begins(*lot);
        const bool covered = is_covered(id);
        if (!lot->printed_code.empty()) {  // nobody can tell it from others that bear its code, also where it bears another one now
            for (const auto& other : rows_.lots_with_printed_code(lot->printed_code)) found = found || is_covered(other.id) != covered;
        }
        if (covered && left_out_.empty()) return found;
        for (const auto& use : rows_.uses_into(id)) {
            const auto from = rows_.lot(use.from_lot);
            if (from && recall_.taken != 0 && in_its_time(recall_, use.happened)) found = begins(*from) || found;
            const bool counts = recall_.taken == 0 || !asked_.contains(use.from_lot) || in_its_time(recall_, use.happened);
            found = found || (counts && is_covered(use.from_lot));
        }
        return found;
    }

    bool begins(const book::Lot& lot) {
        if (asked_.contains(lot.id)) return false;
        const auto* material = ledger_.plan_at({fold::for_ever}).plan->material(lot.item);
        if (!begins_with(recall_, begins_.lots, lot, material && material->supply)) return false;
        asked_.insert(lot.id);
        begins_.lots.push_back(lot);
        for (const auto& other : rows_.lots_of_item(lot.item)) {  // the same supplier's lot, whenever it came
            if (same_suppliers_lot(lot, other)) begins(other);
        }
        return true;
    }

    // What was made of a lot after it was left out is covered again with it.
    bool take_back_in(const RecallScope& scope, std::vector<std::string>& back) {
        bool any = false;
        for (const auto& one : scope.reach.lots) {
            if (!left_out_.contains(one.lot) || !has_fallen(one)) continue;
            left_out_.erase(one.lot);
            back.push_back(rows_.lot(one.lot)->code);
            any = true;
        }
        return any;
    }

    bool has_fallen(const trace::Reached& one) const {
        const auto out = rows_.recall_out(recall_.seq, one.lot);
        if (one.certain && out->certain == 0) return true;
        return std::any_of(done_.taken.begin(), done_.taken.end(), [&](const auto& pair) {
            return pair.first == one.lot && is_covered(pair.second) && !left_out_.contains(pair.second);
        });
    }

    fold::Ledger& ledger_;
    book::Derived& rows_;
    const book::Recall& recall_;
    const Done& done_;
    const std::set<book::LotId>& linked_;
    RecallBegins begins_;
    LeftOut left_out_;
    std::set<book::LotId> asked_;
};

// Lots of the entry that may have come to be covered, or to be here, or not to be left out any more.
std::set<book::LotId> lots_of(fold::Ledger& ledger, const Done& done, const std::vector<record::RecallWidened>& widened) {
    std::set<book::LotId> out = done.rewired;
    out.insert(done.restocked.begin(), done.restocked.end());
    out.insert(done.folded.begin(), done.folded.end());
    for (const auto id : lots_about(ledger, done.entries)) out.insert(id);
    const auto add = [&](const std::string& code) {
        if (const auto lot = ledger.rows().lot(code)) out.insert(lot->id);
    };
    const auto add_widened = [&](const record::RecallWidened& one) {
        for (const auto& lot : one.lots) add(lot.lot);
        for (const auto& code : one.back) add(code);
    };
    for (const auto& one : widened) add_widened(one);
    const auto* says = std::get_if<record::Statement>(&ledger.entry(done.seq).payload);
    if (!says) return out;
    if (const auto* opened = std::get_if<record::RecallOpened>(says)) {
        for (const auto& lot : opened->snapshot) add(lot.lot);
    }
    if (const auto* one = std::get_if<record::RecallWidened>(says)) add_widened(*one);
    if (const auto* decided = std::get_if<record::RecallDecided>(says)) {
        const auto recall = ledger.rows().recall(decided->recall);
        for (const auto& left_out : ledger.rows().recall_outs(recall->seq)) {
            if (left_out.ended_by == done.seq) out.insert(left_out.lot);
        }
    }
    return out;
}

std::vector<std::string> customers_of(fold::Ledger& ledger, const book::Recall& recall, const Done& done,
                                      const std::vector<book::LotId>& lots) {
    if (recall.seq != done.seq) return hold_reach(ledger, lots).customers;
    std::vector<std::string> out;
    for (const auto& d : snapshot_of(ledger, recall).deliveries) out.push_back(delivery_text(d));
    return out;
}

}  // namespace

std::vector<book::LotId> lots_about(fold::Ledger& ledger, const std::vector<Seq>& entries) {
    std::vector<book::Touch> touches;
    for (const Seq entry : entries) {
        for (const Seq about : entries_about(ledger, entry)) {
            const auto of_entry = ledger.rows().touches_of(about);
            touches.insert(touches.end(), of_entry.begin(), of_entry.end());
        }
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

std::vector<record::RecallWidened> widenings(fold::Ledger& ledger, const Done& done) {
    std::vector<record::RecallWidened> out;
    const auto recalls = ledger.rows().open_recalls();
    if (recalls.empty()) return out;
    std::set<book::LotId> linked = done.rewired;
    for (const Seq entry : done.entries) {
        const auto about = entries_about(ledger, entry);
        if (std::none_of(about.begin(), about.end(), [&](Seq seq) { return links(ledger, seq); })) continue;
        for (const auto id : lots_about(ledger, {entry})) linked.insert(id);
    }
    const bool missing = std::any_of(done.changed.begin(), done.changed.end(), is_missing_use);
    if (linked.empty() && done.restocked.empty() && !missing && !decides(ledger, done.seq)) return out;  // a reading
    for (const auto& recall : recalls) {
        if (recall.drill != 0 || recall.seq == done.seq) continue;  // a drill is looked at when it is asked for
        if (auto widened = Guarding(ledger, recall, done, linked).run()) out.push_back(std::move(*widened));
    }
    return out;
}

std::vector<HoldToWrite> recall_holds(fold::Ledger& ledger, const Done& done, const std::vector<record::RecallWidened>& widened) {
    auto& rows = ledger.rows();
    std::vector<HoldToWrite> out;
    if (rows.open_recalls().empty()) return out;
    std::map<Seq, std::vector<book::LotId>> to_hold;
    for (const auto id : lots_of(ledger, done, widened)) {
        const auto lot = rows.lot(id);
        const auto recall = lot && fold::is_here(rows, *lot) ? rows.covering(id) : std::nullopt;
        if (recall && (recall->seq == done.seq || !rows.is_held(id))) to_hold[recall->seq].push_back(id);
    }
    for (const auto& [seq, lots] : to_hold) {
        const auto recall = rows.recall(seq);
        HoldToWrite hold;
        for (const auto id : lots) hold.says.lots.push_back(rows.lot(id)->code);
        hold.says.why = recall->code + ": " + recall->hazard;
        hold.customers = customers_of(ledger, *recall, done, lots);
        out.push_back(std::move(hold));
    }
    return out;
}

std::vector<std::string> told(fold::Ledger& ledger, const record::RecallWidened& widened) {
    std::vector<book::LotId> lots;
    std::vector<std::string> codes;
    for (const auto& one : widened.lots) {
        codes.push_back(one.lot + (one.possible ? " (possible)" : ""));
        lots.push_back(ledger.rows().lot(one.lot)->id);
    }
    for (const auto& code : widened.back) {
        codes.push_back(code + ", which was left out: its grounds hold no more");
        lots.push_back(ledger.rows().lot(code)->id);
    }
    std::vector<std::string> out{widened.recall + " now covers " + joined(codes, ", ")};
    for (auto& customer : hold_reach(ledger, lots).customers) out.push_back(widened.recall + ": tell " + customer);
    return out;
}

}  // namespace peelbook::site
